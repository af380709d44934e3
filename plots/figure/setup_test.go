package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/buildlog"
	"strandry/scenarios/studies/suits"
)

// twoWarm dries in a short hot zone; the longer one, warm too, holds moist air.
func twoWarm(t *testing.T) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("two.toml", []byte(`
[strand]
material = "pla"
moisture = "0.3 %"
[feed]
speed = "1 mm/s"
[[zone]]
name = "moist tunnel of the enclosure"
length = "9 m"
temperature = "35 °C"
air = { humidity = "60 %" }
[[zone]]
name = "dry tube behind the enclosure"
length = "4 m"
temperature = "50 °C"
air = { dew_point = "-40 °C" }
[numerics]
resolution = 2.5
tolerance = 0.05
`))
	require.NoError(t, err)
	return s
}

// The foot of a figure names the zone that the advice and the studies take for the one that dries, though another is longer and warm too; what a figure varies of
// it, however long its name, is left out.
func TestFootNamesTheDryer(t *testing.T) {
	s := twoWarm(t)
	a, err := diffusion.NewMarch().Assess(&s.Design, s.Settings)
	require.NoError(t, err)
	require.Equal(t, 1, advice.Dryer(&s.Design, &a.Result))
	found, err := suits.Find(t.Context(), s, []materials.Polymer{s.Model.Material}, buildlog.RoomTime)
	require.NoError(t, err)
	require.Equal(t, s.Model.Path[1].Name, found.Zone)

	foot := setupOf(s)
	require.Equal(t, s.Model.Path[1].Name, foot.Zone)
	require.Equal(t, [...]string{"4\u00a0m", "50\u00a0°C", "dew point -40\u00a0°C"}, [...]string{foot.Length, foot.Heat, foot.Air})
	for _, c := range []struct {
		key  string
		want [3]string
	}{
		{"length", [...]string{"", foot.Heat, foot.Air}}, {"temperature", [...]string{foot.Length, "", foot.Air}}, {"air.dew_point", [...]string{foot.Length, foot.Heat, ""}},
	} {
		for zone := range s.Model.Path {
			key, ok := s.Key(s.ZoneKey(zone, c.key))
			if zone == 1 {
				require.True(t, ok, c.key)
				left := foot.without(key)
				require.Equal(t, c.want, [...]string{left.Length, left.Heat, left.Air}, c.key)
			} else if ok {
				require.Equal(t, foot, foot.without(key), c.key)
			}
		}
	}
}

// Where no march has an answer the foot tells the rest.
func TestFootWithoutADryer(t *testing.T) {
	s := twoWarm(t)
	s.Model.Speed = 0
	foot := setupOf(s)
	require.Equal(t, Setup{Strand: foot.Strand, Feed: foot.Feed, Start: foot.Start}, foot)
	require.NotEmpty(t, foot.Strand)
}
