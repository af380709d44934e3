package scenarios

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

// aDryer is what the checks of the tests are of; its feed and a check are to follow.
const aDryer = `
[strand]
material = "petg"
moisture = "0.2 %"
[[zone]]
name = "oven"
length = "8 m"
temperature = "65 °C"
air = { dew_point = "-20 °C" }
bore = "20 mm"
shape = { kind = "tube" }
exposed = "100 %"
[[zone]]
name = "guide.long"
length = "0.4 m"
`

const slowFeed = "[feed]\nspeed = \"2 mm/s\"\n"

func checksOf(t *testing.T, text string) *Scenario {
	t.Helper()
	s, err := Read("checks.toml", []byte(aDryer+text))
	require.NoError(t, err)
	return s
}

func TestCheckIsRead(t *testing.T) {
	s := checksOf(t, slowFeed+`
[[check]]
title = "first evening"
before = "12.431 g"
after = "12402 mg"
dried = "12.37 g"
resolution = "0.002 g"
left = "0.02 %"
at = "oven"
[[check]]
at = "guide.long"
after = "12.40 g"
dried = "12.371 g"
[[check]]
before = "1.2e1 g"
dried = "12 g"
`)
	first := s.Checks[0]
	for i, grams := range [...]float64{12.431, 12.402, 12.37} {
		require.InEpsilon(t, grams, 1e3*[...]float64{first.Before, first.After, first.Dried}[i], 1e-12)
	}
	require.Equal(t, Check{
		Title: "first evening", Before: first.Before, After: first.After, Dried: first.Dried, Step: 0.002 / 1e3, Stepped: true,
		Left: 0.02 / 100, LeftKnown: true, Zone: 0, Cut: true,
	}, first)
	require.Equal(t, "check 2", s.Checks[1].Title)
	require.InEpsilon(t, 1e-6, s.Checks[1].Step, 1e-12, "the finest of the last digits")
	require.False(t, s.Checks[1].Stepped || s.Checks[1].LeftKnown)
	require.True(t, s.Checks[1].Zone == 1 && s.Checks[1].Cut)
	require.True(t, s.Checks[2].Zone == 1 && !s.Checks[2].Cut, "at the nozzle")
	require.InEpsilon(t, 1e-3, s.Checks[2].Step, 1e-12)
	// No answer but that of the checks knows of them.
	bare := checksOf(t, slowFeed)
	require.Empty(t, bare.Checks)
	require.Equal(t, bare.Design, s.Design)
	require.Equal(t, bare.Keys(), s.Keys())
	require.Equal(t, bare.Assumed, s.Assumed)
}

// The feed of a check in each form of the scenario's, and what is set, by names between quotes or one below the other.
func TestScenarioAtACheck(t *testing.T) {
	for _, feed := range []string{
		"speed = \"2 mm/s\"", "flow = \"4.8 mm3/s\"", "bead = { width = \"0.45 mm\", height = \"0.2 mm\", speed = \"53 mm/s\" }",
	} {
		s := checksOf(t, "[feed]\n"+feed+`
[[check]]
before = "12.431 g"
after = "12.402 g"
feed = "1.5 mm/s"
set = { "zone.oven.temperature" = "58 °C", zone.oven.emissivity = "0.5" }
[[check]]
before = "12.431 g"
after = "12.402 g"
`)
		then, err := s.At(&s.Checks[0])
		require.NoError(t, err)
		require.InEpsilon(t, 1.5e-3, then.Model.Speed, 1e-9, feed)
		require.InEpsilon(t, 331.15, then.Model.Path[0].Air.Temperature, 1e-12)
		require.InEpsilon(t, 0.5, then.Model.Path[0].Film.Emissivity, 1e-12)
		require.Equal(t, s.Model.Path[1], then.Model.Path[1])
		own, err := s.At(&s.Checks[1])
		require.NoError(t, err)
		require.Same(t, s, own)
		// A setting of the whole scenario holds at its checks too, but for what they state themselves.
		longer, err := s.With(Setting{"zone.oven.length", "10 m"}, Setting{"zone.oven.temperature", "60 °C"})
		require.NoError(t, err)
		then, err = longer.At(&longer.Checks[0])
		require.NoError(t, err)
		require.InEpsilon(t, 10.0, then.Model.Path[0].Length, 1e-12)
		require.InEpsilon(t, 331.15, then.Model.Path[0].Air.Temperature, 1e-12)
	}
}

// Every way to get it wrong, with what is said.
func TestFaultsOfChecks(t *testing.T) {
	both := "before = \"12.431 g\"\nafter = \"12.402 g\"\n"
	for text, want := range map[string]string{
		`after = "12.4 g"`:                                    "one mass alone tells nothing of the water; allowed: two or three of before, after, dried",
		`befor = "12.4 g"` + "\n" + both:                      `unknown key; allowed: title, before, after, dried`,
		both + `weight = "1 g"`:                               "unknown key",
		"before = \"12.431 m\"\nafter = \"12 g\"":             "is not a unit of mass",
		"before = 12.431\nafter = \"12 g\"":                   "a number where a mass with its unit belongs",
		"before = \"0 g\"\nafter = \"12 g\"":                  "before",
		"before = \"12.0 g\"\nafter = \"14.6 g\"":             "no strand takes up a fifth of its mass on its way: before is 12 g; allowed: up to 1.2 times that mass",
		"before = \"18.2 g\"\nafter = \"12.0 g\"":             "the strand would have lost more than half as much water: before is 18.2 g",
		"after = \"12.00 g\"\ndried = \"12.02 g\"":            "heavier than after, 12 g, as if drying out had added water",
		"before = \"18.2 g\"\ndried = \"12.0 g\"":             "the strand would have held more than half as much water: before is 18.2 g",
		both + `resolution = "13 g"`:                          "coarser than the lightest mass, 12.402 g",
		both + `resolution = "0 g"`:                           "resolution",
		both + `left = "0.1 %"`:                               "nothing was dried out; allowed: left together with dried",
		both + "dried = \"12.3 g\"\nleft = \"20 %\"":          "allowed: 0 % to 10 %",
		both + `feed = "90 mm/s"`:                             "allowed: 0.001 mm/s to 50 mm/s",
		both + `at = "ovn"`:                                   `did you mean "oven"?`,
		both + `set = {}`:                                     "nothing is set",
		both + `set = "hot"`:                                  "a text where a table belongs",
		both + `set = { "zone.oven.emissivity" = 0.5 }`:       "a number where a text belongs",
		both + `set = { "zone.oven.temprature" = "70 °C" }`:   `did you mean "zone.oven.temperature"?`,
		both + `set = { "zone.oven.temperature" = "-70 °C" }`: "as set at check[1]",
		both + `set = { "zone.oven.temperature" = "70 °C", zone.oven.temperature = "71 °C" }`: "set twice",
		both + `set = { "strand.material" = "pa6" }`:                                          "a check is of the strand of its scenario",
		both + `set = { "numerics.resolution" = "4" }`:                                        "it does not act on the water in the strand",
		both + `set = { "strand.limit" = "0.1 %" }`:                                           "it does not act on the water in the strand",
		both + `set = { "nozzle.temperature" = "240 °C" }`:                                    "it does not act on the water in the strand",
		both + `set = { "strand.properties.printing_limit" = "0.1 %" }`:                       "it does not act on the water in the strand",
		both + `set = { "zone.oven.shape.kind" = "tube" }`:                                    "it does not act on the water in the strand",
		both + "at = \"oven\"\nset = { \"zone.guide.long.length\" = \"1 m\" }":                "the strand had left the machine before that zone; allowed: keys of zones up to oven",
		both + "feed = \"1 mm/s\"\nset = { \"feed.speed\" = \"1 mm/s\" }":                     "given together with feed",
		"before = \"12.4 g\"\ndried = \"12.3 g\"\nfeed = \"1 mm/s\"":                          "nothing was weighed after the path; allowed: feed together with after",
		"before = \"12.4 g\"\ndried = \"12.3 g\"\nat = \"oven\"":                              "nothing was weighed after the path; allowed: at together with after",
		"before = \"12.4 g\"\ndried = \"12.3 g\"\nset = { \"zone.oven.length\" = \"1 m\" }":   "nothing was weighed after the path; allowed: keys of the room and the strand",
		both + `title = "` + strings.Repeat("a", 61) + `"`:                                    "no title that fits on a line",
		both + strings.Repeat("[[check]]\n"+both, mostChecks):                                 "too many checks; allowed: up to 50 [[check]]",
		both + "feed = \"40 mm/s\"\nset = { \"zone.oven.air.flow\" = \"0 L/min\" }":           "flow",
		both + "\n[[vary]]\nkey = \"check.1.after\"\nvalues = [\"12.4 g\"]":                   "no number of the scenario has this name",
	} {
		_, err := Read("checks.toml", []byte(aDryer+slowFeed+"[[check]]\n"+text))
		var faults strict.Faults
		require.ErrorAs(t, err, &faults, text)
		said := err.Error()
		require.Contains(t, said, want, text)
		require.Contains(t, said, "checks.toml:", text)
	}
	// Masses that rise are a matter for the answer, and equal ones, or a dried one that is heavier by no more than the rounding, no fault.
	for _, text := range []string{"before = \"12.0 g\"\nafter = \"12.9 g\"", "before = \"12.0 g\"\nafter = \"12.0 g\"", "after = \"12.001 g\"\ndried = \"12.002 g\""} {
		checksOf(t, slowFeed+"[[check]]\n"+text)
	}
}

func FuzzCheck(f *testing.F) {
	f.Add("12.431 g", "12.402 g", "12.371 g", "0.001 g", "oven", "zone.oven.temperature", "76 °C")
	f.Add("1e3 mg", "0.9 g", "", "", "", "feed.speed", "1 mm/s")
	f.Fuzz(func(t *testing.T, before, after, dried, step, at, key, value string) {
		var text strings.Builder
		text.WriteString(aDryer + slowFeed + "[[check]]\n")
		for _, key := range [][2]string{{"before", before}, {"after", after}, {"dried", dried}, {"resolution", step}, {"at", at}} {
			if key[1] != "" {
				text.WriteString(key[0] + " = " + strict.Quoted(key[1]) + "\n")
			}
		}
		text.WriteString("set = { " + strict.Quoted(key) + " = " + strict.Quoted(value) + " }\n")
		s, err := Read("fuzz.toml", []byte(text.String()))
		if err != nil {
			var faults strict.Faults
			require.ErrorAs(t, err, &faults)
			return
		}
		sound(t, s)
		for i := range s.Checks {
			c := &s.Checks[i]
			require.True(t, c.Step > 0 && !math.IsInf(c.Step, 0))
			then, err := s.At(c)
			require.NoError(t, err)
			sound(t, then)
		}
	})
}
