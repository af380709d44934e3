package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestAxesOfNames(t *testing.T) {
	text := strings.ReplaceAll(string(Template()), "[[vary]]", `[[vary]]
key = "strand.material"
values = ["pa6", " pa12 "]
[[vary]]
key = "zone.drum.air.direction"
values = ["with", "against"]
[[vary]]`)
	s, err := Read("drum.toml", []byte(text))
	require.NoError(t, err)
	require.Equal(t, []string{"pa6", "pa12"}, s.Vary[0].Names)
	require.Nil(t, s.Vary[0].Values)
	require.Equal(t, 2, s.Vary[0].Len())
	require.Equal(t, 40, s.Vary[2].Len())
	other, err := s.With(s.Vary[0].Setting(1), s.Vary[1].Setting(0))
	require.NoError(t, err)
	require.Equal(t, "pa12", other.Model.Material.ID)
	require.Equal(t, "with", other.Model.Path[0].Air.Direction.String())

	_, err = Read("drum.toml", []byte(strings.Replace(text, " pa12 ", "ppa12", 1)))
	require.ErrorContains(t, err, `vary[1].values = "ppa12": unknown material`)
	require.ErrorContains(t, err, `did you mean "pa12"?`)
	_, err = Read("drum.toml", []byte(strings.Replace(text, `values = ["pa6", " pa12 "]`, "from = \"pa6\"\nto = \"pa12\"\ncount = 2", 1)))
	require.ErrorContains(t, err, "there is nothing between names")
	_, err = Read("drum.toml", []byte(strings.Replace(text, `values = ["pa6", " pa12 "]`, "values = []", 1)))
	require.ErrorContains(t, err, "no values")
}

// Axes given apart from the file are what the file would have made of them.
func TestVaried(t *testing.T) {
	s := demo(t, "winch-drum")
	same, err := s.Varied("zone.drum.length = 0.5 m .. 200 m:40:log")
	require.NoError(t, err)
	require.Equal(t, s.Vary, same.Vary)
	three, err := s.Varied("strand.material=pa6,pa12", "zone.drum.temperature=60 °C..-10 °C: 8", "zone.drum.emissivity=0.1..0.9:3:linear")
	require.NoError(t, err)
	require.Len(t, three.Vary, 3)
	require.Equal(t, []string{"pa6", "pa12"}, three.Vary[0].Names)
	require.InDelta(t, 323.15, three.Vary[1].Values[1], 1e-9)
	require.Equal(t, []float64{0.1, 0.5, 0.9}, three.Vary[2].Values)
	require.Len(t, s.Vary, 1, "the scenario itself is unchanged")
	other, err := three.With(Setting{"feed.speed", "1 mm/s"})
	require.NoError(t, err)
	require.Equal(t, three.Vary, other.Vary)

	for spec, want := range map[string]string{
		"zone.drum.length":                      "write KEY=FROM..TO:COUNT",
		"zone.drum.length=1 m..2 m":             "write KEY=FROM..TO:COUNT",
		"zone.drum.length=1 m..2 m:3:log:x":     "write KEY=FROM..TO:COUNT",
		"zone.drum.lenght=1 m..2 m:3":           `did you mean "zone.drum.length"?`,
		"zone.drum.length=1 m..2 m:some":        "vary[1].count",
		"zone.drum.length=1 m..2 m:3:loga":      "vary[1].spacing",
		"zone.drum.length=1..2:3":               "a length with its unit belongs",
		"zone.drum.length=":                     "vary[1].values",
		"zone.drum.air.dew_point=0 °C..95 °C:3": "--vary: vary[1].to = \"95 °C\": air above saturation",
		"strand.material=pa6..pa12:2":           "there is nothing between names",
		"\"\n\x00=\xff..\":\n":                  "vary[1]",
	} {
		_, err := s.Varied(spec)
		require.ErrorContains(t, err, want, spec)
	}
}

// A zone may have any name, also one with signs that mean something in an axis.
func TestVariedZoneWithSigns(t *testing.T) {
	for _, name := range []string{"a=b", "a=1 m..2 m:3", "=", "zone.drum.length=3 m"} {
		text := strings.ReplaceAll(string(Template()), "zone.drum.", "zone."+name+".")
		text = strings.ReplaceAll(text, `name = "drum"`, `name = "`+name+`"`)
		text = strings.ReplaceAll(text, `of = "drum"`, `of = "`+name+`"`)
		s, err := Read("drum.toml", []byte(text))
		require.NoError(t, err, name)
		varied, err := s.Varied("zone." + name + ".length = 1 m..2 m:3")
		require.NoError(t, err, name)
		require.Equal(t, []float64{1, 1.5, 2}, varied.Vary[0].Values, name)
	}
}

// Of a long list of numbers the extremes are tried with the rest of the file, which is soon done.
func TestLongListsAreTriedAtTheirEnds(t *testing.T) {
	lines := func(values ...string) string {
		return string(Template()) + "\n[[vary]]\nkey = \"zone.drum.air.dew_point\"\nvalues = [\"" + strings.Join(values, `", "`) + "\"]\n"
	}
	values := make([]string, 1000)
	for i := range values {
		values[i] = fmt.Sprintf("%g °C", -40+0.03*float64(i))
	}
	_, err := Read("drum.toml", []byte(lines(values...)))
	require.NoError(t, err)
	values[432] = "95 °C" // above saturation at the 90 °C of the zone
	_, err = Read("drum.toml", []byte(lines(values...)))
	require.ErrorContains(t, err, `vary[2].values = "95 °C": air above saturation`)
}

// Settings written as one text are those of With; quotes may stand as in a file, and a zone's name may hold the equals sign.
func TestSet(t *testing.T) {
	text := strings.ReplaceAll(string(Template()), `name = "drum"`, `name = "a=b"`)
	text = strings.ReplaceAll(strings.ReplaceAll(text, `"zone.drum.`, `"zone.a=b.`), `of = "drum"`, `of = "a=b"`)
	s, err := Read("drum.toml", []byte(text))
	require.NoError(t, err)
	same, err := s.Set()
	require.NoError(t, err)
	require.Equal(t, s, same)
	other, err := s.Set(`zone.a=b.length = "18 m"`, "zone.guide.air.dew_point=-20 °C", "zone.guide.vertical=true")
	require.NoError(t, err)
	with, err := s.With(Setting{"zone.a=b.length", "18 m"}, Setting{"zone.guide.air.dew_point", "-20 °C"}, Setting{"zone.guide.vertical", "true"})
	require.NoError(t, err)
	require.InDelta(t, 18, other.Model.Path[0].Length, 0)
	require.Equal(t, with.Model.Path, other.Model.Path)
	for _, wrong := range []string{"", "zone.guide.length", "=3 m"} {
		_, err = s.Set(wrong)
		require.ErrorContains(t, err, "allowed: KEY=VALUE")
	}
	_, err = s.Set("zone.guide.lenght=3 m")
	require.ErrorContains(t, err, `did you mean "zone.guide.length"?`)
}
