package scenarios_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/scenarios"
)

// concerns are those of the machine of a scenario.
func concerns(t *testing.T, s *scenarios.Scenario) map[machine.Concern]bool {
	t.Helper()
	march := diffusion.NewMarch()
	var r diffusion.Result
	require.NoError(t, march.Run(&s.Model, s.Settings, &r))
	a, err := machine.Tell(march, &s.Design, &r, &s.Machine)
	require.NoError(t, err)
	all := map[machine.Concern]bool{}
	for _, w := range a.Warnings {
		all[w.Concern] = true
	}
	return all
}

const unconcerned = `
[strand]
material = "petg"
moisture = "0.3 %"
[feed]
speed = "2 mm/s"
[room]
temperature = "20 °C"
humidity = "50 %"
[[zone]]
name = "drum"
length = "10 m"
temperature = "65 °C"
air = { dew_point = "-20 °C", flow = "0.04 L/min", direction = "with", source = "loop" }
shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm" }
wall = { insulation = "20 mm", mass = "1.2 kg" }
heater = "60 W"
[build]
box = { length = "300 mm", width = "300 mm", height = "300 mm" }
least_radius = "50 mm"
[pull]
spool = "1 N"
feeder = "20 N"
[desiccant]
kind = "molecular sieve 4A"
mass = "1 kg"
`

// Each concern that a text can provoke comes with a change of a dryer that has none, and goes with the change that is advised for it. How far a hot strand stretches is
// for the tests of package machine.
func TestConcernsOfTexts(t *testing.T) {
	changed := func(text string, swaps ...string) string {
		for i := 0; i < len(swaps); i += 2 {
			require.Contains(t, text, swaps[i])
			text = strings.Replace(text, swaps[i], swaps[i+1], 1)
		}
		return text
	}
	before := concerns(t, construct(t, unconcerned))
	delete(before, machine.StretchUnknown)
	require.Empty(t, before)
	const temperature, flow, wall, heater, kind = `"65 °C"`, `"0.04 L/min"`, `insulation = "20 mm", `, `heater = "60 W"`, `"molecular sieve 4A"`
	const shape = `shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm" }`
	for concern, one := range map[machine.Concern][2][]string{
		machine.DoesNotFit:      {{`height = "300 mm"`, `height = "100 mm"`}, {`height = "100 mm"`, `height = "260 mm"`}},
		machine.BendsTooTight:   {{`"50 mm"`, `"80 mm"`}, {`"150 mm"`, `"165 mm"`}},
		machine.HeaterTooWeak:   {{heater, `heater = "4 W"`}, {`"4 W"`, `"20 W"`}},
		machine.HeaterIsSmall:   {{heater, `heater = "9 W"`}, {`"9 W"`, `"20 W"`}},
		machine.NeverWarm:       {{heater, `heater = "4 W"`}, {`"4 W"`, `"20 W"`}},
		machine.BurnsHands:      {{temperature, `"160 °C"`, wall, `surface = "metal", `}, {`surface = "metal", `, `surface = "metal", insulation = "40 mm", `}},
		machine.SlowToWarm:      {{`"1.2 kg"`, `"12 kg"`}, {heater, `heater = "200 W"`}},
		machine.Uneven:          {{flow, `"3 L/min"`}, {`"3 L/min"`, `"60 L/min"`}},
		machine.NoHousing:       {{shape, ""}, {"wall =", shape + "\nwall ="}},
		machine.NoFlow:          {{`, flow = "0.04 L/min", direction = "with", source = "loop"`, "", "[desiccant]\nkind = \"molecular sieve 4A\"\nmass = \"1 kg\"\n", ""}, {`"-20 °C"`, `"-20 °C", flow = "1 L/min"`}},
		machine.AirTooLittle:    {{flow, `"0.001 L/min"`}, {`"0.001 L/min"`, `"0.02 L/min"`}},
		machine.AirIdle:         {{flow, `"3 L/min"`}, {`"3 L/min"`, `"0.04 L/min"`}},
		machine.AirBringsWater:  {{`dew_point = "-20 °C", flow = "0.04 L/min", direction = "with", source = "loop"`, `flow = "3 L/min", source = "room"`, "[desiccant]\nkind = \"molecular sieve 4A\"\nmass = \"1 kg\"\n", ""}, {`source = "room"`, `source = "supply", dew_point = "-40 °C"`}},
		machine.LeakBringsWater: {{flow, flow + `, slot = { bore = "2.4 mm", pressure = "2 Pa" }`}, {`"2.4 mm"`, `"1.76 mm"`}},
		machine.NoDesiccant:     {{"[desiccant]\nkind = \"molecular sieve 4A\"\nmass = \"1 kg\"\n", ""}, {"[pull]", "[desiccant]\nkind = \"silica gel\"\nmass = \"1 kg\"\n[pull]"}},
		machine.BedHoldsLess:    {{kind, `"silica gel"`, `"-20 °C"`, `"-55 °C"`}, {`"silica gel"`, kind}},
		machine.BedIsShort:      {{`"1 kg"`, `"1 g"`}, {`"1 g"`, `"50 g"`}},
		machine.BedTurnsLiquid:  {{kind, `"calcium chloride"`, `"-20 °C"`, `"-10 °C"`}, {`"50 %"`, `"15 %"`}},
		machine.BedIsHot:        {{"[desiccant]", "[desiccant]\nbed = \"28 °C\""}, {`"28 °C"`, `"24 °C"`}},
		machine.PullBeyond:      {{`"20 N"`, "\"20 N\"\nguides = \"11000°\"\nfriction = 2"}, {`"11000°"`, `"90°"`}},
		machine.PullsTooHard:    {{`"20 N"`, "\"20 N\"\nguides = \"720°\"\nfriction = 0.4"}, {`"720°"`, `"90°"`}},
		machine.SoftensAtRest:   {{temperature, `"75 °C"`}, {`"75 °C"`, `"68 °C"`}},
	} {
		provoked := changed(unconcerned, one[0]...)
		require.True(t, concerns(t, construct(t, provoked))[concern], "concern %d does not come", concern)
		require.False(t, concerns(t, construct(t, changed(provoked, one[1]...)))[concern], "concern %d does not go", concern)
	}
}

// What a drum is wound with may be varied: each row has the length that its turns hold, or the air and the bends of its diameter.
func TestAxesOverAShape(t *testing.T) {
	text := strings.Replace(unconcerned, "length = \"10 m\"\n", "", 1)
	text = strings.Replace(text, `pitch = "3 mm"`, `pitch = "3 mm", turns = 10`, 1)
	s := construct(t, text+"[[vary]]\nkey = \"zone.drum.shape.turns\"\nfrom = 10\nto = 40\ncount = 4\n[[vary]]\nkey = \"zone.drum.shape.diameter\"\nvalues = [\"100 mm\", \"150 mm\"]\n")
	for i, turns := range []float64{10, 20, 30, 40} {
		for j, diameter := range []float64{0.1, 0.15} {
			at, err := s.With(s.Vary[0].Setting(i), s.Vary[1].Setting(j))
			require.NoError(t, err)
			close(t, turns*hypot(diameter+1.75e-3), at.Model.Path[0].Length)
		}
	}
}

// hypot is one turn of a helix of 3 mm [m].
func hypot(diameter float64) float64 { return math.Hypot(math.Pi*diameter, 3e-3) }
