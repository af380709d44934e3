package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoZones has a zone "drum" and another whose name begins like one of its keys.
const twoZones = `
[strand]
material = "pp"
[feed]
speed = "1 mm/s"
[[zone]]
name = "drum"
length = "1 m"
temperature = "60 °C"
%s
[[zone]]
name = %q
length = "2 m"
temperature = "50 °C"
`

// The right zone takes a setting, whatever the names look like: a zone "drum.air.humidity" has a length, of which the drum
// once concluded that its air has a humidity, and took it for bone dry.
func TestDottedZones(t *testing.T) {
	for _, name := range []string{
		"drum.shape", "drum.air", "drum.contact", "drum.exposed", "drum.length", "drum.air.humidity", "drum.air.dew_point", "drum.air.flow", "drum.air.speed",
		"drum.contact.share", "drum.bore", "drum.h", "drum.shape.kind", "zone.drum", "drum.", "drum..air",
	} {
		s, err := Read("two.toml", fmt.Appendf(nil, twoZones, `air = { vapour_pressure = "500 Pa" }`, name))
		require.NoError(t, err, name)
		require.Equal(t, []string{"drum", name}, []string{s.Model.Path[0].Name, s.Model.Path[1].Name})
		want := slices.Clone(s.Model.Path)
		want[1].Length = 3
		key := "zone." + name + ".length"
		longer, err := s.With(Setting{key, "3 m"})
		require.NoError(t, err, name)
		require.Equal(t, want, longer.Model.Path, name)
		require.Equal(t, s.Unused, longer.Unused)

		varied, err := s.Varied(key+"=3 m, 4 m", "zone.drum.length=5 m, 6 m")
		require.NoError(t, err, name)
		require.Equal(t, []string{name, "drum"}, []string{varied.Vary[0].Key.Zone, varied.Vary[1].Key.Zone})
		both, err := varied.With(varied.Vary[0].Setting(0), varied.Vary[1].Setting(1))
		require.NoError(t, err)
		want[0].Length = 6
		require.Equal(t, want, both.Model.Path, name)

		want = slices.Clone(s.Model.Path)
		want[0].Air.VapourPressure = 600
		wetter, err := s.With(Setting{"zone.drum.air.vapour_pressure", "600 Pa"})
		require.NoError(t, err)
		require.Equal(t, want, wetter.Model.Path, name)
	}
}

// A table that only a setting makes goes to the zone that has such keys.
func TestDottedTables(t *testing.T) {
	for key, value := range map[string]string{"contact.share": "20 %", "wall.insulation": "10 mm", "air.dew_point": "-20 °C", "air.humidity": "3 %"} {
		table, _, _ := strings.Cut(key, ".")
		plain, err := Read("two.toml", fmt.Appendf(nil, twoZones, "", "other"))
		require.NoError(t, err)
		dotted, err := Read("two.toml", fmt.Appendf(nil, twoZones, "", "drum."+table))
		require.NoError(t, err)
		for zone, other := range map[string]string{"drum": "drum", "drum." + table: "other"} {
			want, err := plain.With(Setting{"zone." + other + "." + key, value})
			require.NoError(t, err)
			got, err := dotted.With(Setting{"zone." + zone + "." + key, value})
			require.NoError(t, err, "%s of %s", key, zone)
			got.Model.Path[1].Name = "other"
			require.Equal(t, want.Model.Path, got.Model.Path, "%s of %s", key, zone)
		}
	}
}

// Each key names one zone: none has two owners, and the first part of each is in the list that tells them.
func TestZoneKeys(t *testing.T) {
	for _, more := range []string{"", "contact = { share = \"10 %\", arcs = 2, moves = false }\nair = { speed = \"1 m/s\", past = \"along\", humidity = \"3 %\" }\n" +
		"shape = { kind = \"drum\", diameter = \"0.2 m\", pitch = \"3 mm\" }"} {
		for _, name := range []string{"drum.air", "drum.shape", "drum.contact"} {
			s, err := Read("two.toml", fmt.Appendf(nil, twoZones, more, name))
			require.NoError(t, err)
			r := &reading{path: []string{"drum", name}}
			seen := map[string]bool{}
			for _, k := range s.Keys() {
				require.False(t, seen[k.Name], k.Name)
				seen[k.Name] = true
				require.Equal(t, k.Zone, r.owner(k.Name), k.Name)
				require.Equal(t, k.Zone != "", strings.HasPrefix(k.Name, "zone."))
			}
			for _, word := range s.words {
				require.False(t, seen[word], word)
				seen[word] = true
				require.Equal(t, r.owner(word) != "", strings.HasPrefix(word, "zone."), word)
			}
		}
	}
}
