package scenarios

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials/text/strict"
)

func run(t *testing.T, s *Scenario) diffusion.Result {
	t.Helper()
	var out diffusion.Result
	require.NoError(t, diffusion.NewMarch().Run(&s.Model, s.Settings, &out))
	return out
}

func demo(t *testing.T, name string) *Scenario {
	t.Helper()
	s, err := Demo(name)
	require.NoError(t, err)
	return s
}

func TestEveryEmbeddedDemoIsListed(t *testing.T) {
	files, err := fs.Glob(demos, "demos/*.toml")
	require.NoError(t, err)
	var names []string
	for _, file := range files {
		names = append(names, strings.TrimSuffix(strings.TrimPrefix(file, "demos/"), ".toml"))
	}
	require.ElementsMatch(t, names, Demos())
	_, err = Demo("winch-durm")
	require.ErrorContains(t, err, `did you mean "winch-drum"?`)
}

// What each demonstration is there to show. The bounds are not figures of the
// model: a content never leaves the span between start and the driest
// surroundings, and the verdicts are what the texts of the demonstrations say.
func TestDemosShowWhatTheySay(t *testing.T) {
	verdicts := map[string]diffusion.Verdict{
		"winch-drum": diffusion.Wet, "lamp-shade": diffusion.Wet,
		"opened-yesterday": diffusion.Dry, "clear-cover": diffusion.Dry,
	}
	for _, name := range Demos() {
		t.Run(name, func(t *testing.T) {
			s := demo(t, name)
			a, err := diffusion.NewMarch().Assess(&s.Design, s.Settings)
			require.NoError(t, err)
			require.Equal(t, verdicts[name].String(), a.Verdict.String())
			require.Less(t, a.Nozzle.Mean, a.Start.Mean)
			require.Greater(t, a.Nozzle.Mean, 0.0)
			require.Less(t, a.NumericalError, 0.01*a.Nozzle.Mean)
			require.NotEmpty(t, s.Title)
			require.NotEmpty(t, s.Assumed)
		})
	}
}

// The heated room air of the lamp shade sets a floor above the limit, which no length mends.
func TestLampShadeLacksAirNotLength(t *testing.T) {
	s := demo(t, "lamp-shade")
	longer, err := s.With(Setting{"zone.warm box.length", "3 km"})
	require.NoError(t, err)
	a := run(t, longer)
	require.Greater(t, a.Nozzle.Mean, longer.Limit)
	dry, err := longer.With(Setting{"zone.warm box.air.dew_point", "-30 °C"})
	require.NoError(t, err)
	require.Less(t, run(t, dry).Nozzle.Mean, dry.Limit)
}

// The same loss takes less time from a skin than from a strand wet all through.
func TestOpenedYesterdayIsWetAtTheSkin(t *testing.T) {
	s := demo(t, "opened-yesterday")
	a := run(t, s)
	require.Greater(t, a.Start.Skin, 3*a.Start.Mean)
	require.Less(t, a.Start.Centre, a.Start.Mean/3)
	soaked := *s
	soaked.Model.Storage, soaked.Model.Start = nil, a.Start.Mean
	through := run(t, &soaked)
	require.Less(t, a.Nozzle.Mean, through.Nozzle.Mean)
}

func TestTemplateReadsAndNamesEveryKey(t *testing.T) {
	s, err := Read("template.toml", Template())
	require.NoError(t, err)
	run(t, s)
	keys := []string{"title", "material", "direction", "past", "vertical", "shape", "kind", "heat", "evaporation",
		"key", "from", "to", "count", "spacing", "values", "deviation", "bead", "name", "air", "room",
		"source", "strands", "turns", "layers", "driven", "passes", "bearing", "surface", "currency", "price", "per", "of",
		"before", "after", "dried", "left", "resolution", "feed", "at", "set"}
	// A scenario in which every alternative has been asked for.
	for _, text := range []string{string(Template()), withPasses} {
		s, err := Read("all.toml", []byte(text))
		require.NoError(t, err)
		for _, k := range s.Keys() {
			if !strings.HasPrefix(k.Name, propertyPath) {
				keys = append(keys, k.Name[strings.LastIndexByte(k.Name, '.')+1:])
			}
		}
	}
	slices.Sort(keys)
	for _, key := range slices.Compact(keys) {
		require.Regexp(t, regexp.MustCompile(`\b`+key+` = `), template, "key %s", key)
	}
}

const withPasses = `
[strand]
material = "pc"
room = {}
[[strand.storage]]
duration = "2 h"
[feed]
bead = { width = "0.45 mm", height = "0.2 mm", speed = "53 mm/s" }
[[zone]]
name = "rollers"
length = "3 m"
air = { flow = "2 L/min", vapour_pressure = "100 Pa", speed = "1 m/s" }
shape = { kind = "passes", span = "300 mm", roller = "60 mm" }
[[zone]]
name = "tube"
length = "1 m"
air = { humidity = "20 %" }
`

// What the template has commented out works when it is not.
func TestTemplateCommentsAreTrue(t *testing.T) {
	uncommented(t, template, 12, func(text []byte) error {
		_, err := Read("template.toml", text)
		return err
	})
}

// uncommented reads a template with the keys that it has commented out, more than some of them: each line by itself, a
// table with the lines below it.
func uncommented(t *testing.T, template string, some int, read func(text []byte) error) {
	t.Helper()
	line := regexp.MustCompile(`^# [a-z_]+ = `)
	lines := strings.Split(template, "\n")
	tried := 0
	for i := 0; i < len(lines); i++ {
		end := i + 1
		switch {
		case strings.HasPrefix(lines[i], "# ["):
			for line.MatchString(lines[end]) {
				end++
			}
		case !line.MatchString(lines[i]):
			continue
		}
		tried++
		text := slices.Clone(lines)
		for j := i; j < end; j++ {
			text[j] = strings.TrimPrefix(text[j], "# ")
		}
		onlyExcludes(t, lines[i], read([]byte(strings.Join(text, "\n"))))
		i = end - 1
	}
	require.Greater(t, tried, some)
}

// onlyExcludes looks at what a reading says; alternatives that exclude each other may say so, and
// nothing else.
func onlyExcludes(t *testing.T, tried string, err error) {
	t.Helper()
	if err == nil {
		return
	}
	var faults strict.Faults
	require.ErrorAs(t, err, &faults, tried)
	for _, f := range faults {
		require.Regexp(t, "given together with|already been defined|air in a bore runs along", f.Problem, "%s\n%v", tried, f)
	}
}
