package scenarios_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
	"strandry/scenarios"
)

const warm = `
[strand]
material = "petg"
[[strand.storage]]
duration = "1 h"
temperature = "30 °C"
[feed]
speed = "2 mm/s"
[room]
temperature = "20 °C"
[store]
temperature = "20 °C"
[[zone]]
name = "oven"
length = "3 m"
temperature = "65 °C"
air = { dew_point = "-20 °C" }
`

// A setting meets the same limit as the file: the nozzle of an amorphous polymer, the melting of another, whichever
// is lower; a cooler nozzle lowers it.
func TestAirThatMelts(t *testing.T) {
	s, err := scenarios.Read("warm.toml", []byte(warm))
	require.NoError(t, err)
	set := func(pairs ...string) error {
		var all []scenarios.Setting
		for i := 0; i < len(pairs); i += 2 {
			all = append(all, scenarios.Setting{Key: pairs[i], Value: pairs[i+1]})
		}
		_, err := s.With(all...)
		return err
	}
	require.NoError(t, set("zone.oven.temperature", "240 °C"))
	require.EqualError(t, set("zone.oven.temperature", "241 °C"),
		`setting: zone.oven.temperature = "241 °C": the strand would melt before it reaches the nozzle; allowed: up to 240 °C, the temperature of the nozzle`)
	require.ErrorContains(t, set("zone.oven.temperature", "215 °C", "nozzle.temperature", "210 °C"), "up to 210 °C, the temperature of the nozzle")
	require.ErrorContains(t, set("strand.material", "pcl"), `zone[1].temperature = "65 °C": the strand would melt before it reaches the nozzle; allowed: up to 59 °C, where PCL melts`)
	require.NoError(t, set("strand.material", "pcl", "zone.oven.temperature", "59 °C"))
	require.ErrorContains(t, set("strand.storage.1.temperature", "245 °C"), "would melt")
	require.NoError(t, set("store.temperature", "245 °C"), "no strand runs there")
}

// An axis may ask where the strand melts: the file is read, and the row says it.
func TestAxisIntoMelting(t *testing.T) {
	s, err := scenarios.Read("warm.toml", []byte(warm+"[[vary]]\nkey = \"zone.oven.temperature\"\nfrom = \"60 °C\"\nto = \"260 °C\"\ncount = 3\n"))
	require.NoError(t, err)
	_, err = s.With(s.Vary[0].Setting(2))
	var refused strict.Faults
	require.ErrorAs(t, err, &refused)
	require.Contains(t, refused[0].Problem, "would melt")
	_, err = scenarios.Read("warm.toml", []byte(warm+"[[vary]]\nkey = \"strand.material\"\nvalues = [\"petg\", \"pcl\"]\n"))
	require.NoError(t, err)
}

// Which keys are temperatures of air that the strand meets.
func TestHeats(t *testing.T) {
	s, err := scenarios.Read("warm.toml", []byte(warm))
	require.NoError(t, err)
	var heat []string
	for _, k := range s.Keys() {
		if scenarios.Heats(k) {
			heat = append(heat, k.Name)
		}
	}
	require.Equal(t, []string{"room.temperature", "strand.storage.1.temperature", "zone.oven.temperature"}, heat)
}
