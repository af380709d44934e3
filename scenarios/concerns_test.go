package scenarios_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/materials/humidair"
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

// Each concern that a text can provoke comes with a change of a dryer that has none, and goes with the change that is advised for it.
func TestConcernsOfTexts(t *testing.T) {
	changed := func(text string, swaps ...string) string {
		for i := 0; i < len(swaps); i += 2 {
			require.Contains(t, text, swaps[i])
			text = strings.Replace(text, swaps[i], swaps[i+1], 1)
		}
		return text
	}
	require.Empty(t, concerns(t, construct(t, unconcerned)))
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
		machine.StretchesHot:    {{`"1 N"`, `"60 N"`}, {`"60 N"`, `"2 N"`}},
		machine.StretchUnknown:  {{`"petg"`, `"pva"`}, {`"pva"`, `"petg"`}},
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

// In every chamber of the demonstrations as much water and as much heat leaves as comes in: from the flows of moist air by the formulas of the ASHRAE Handbook of Fundamentals (2017), ch. 1.
func TestDemosCloseInBalance(t *testing.T) {
	texts := map[string]string{"built": construction, "template": string(scenarios.Template())}
	for _, name := range scenarios.Demos() {
		text, err := scenarios.DemoText(name)
		require.NoError(t, err)
		texts[name] = string(text)
	}
	closed := 0
	for name, text := range texts {
		s := construct(t, text)
		var r diffusion.Result
		require.NoError(t, diffusion.NewMarch().Run(&s.Model, s.Settings, &r))
		a, err := machine.Tell(nil, &s.Design, &r, &s.Machine)
		require.NoError(t, err)
		before := r.Start
		for i := range s.Model.Path {
			z, h, after := &s.Model.Path[i], &a.Chambers[i], r.Zones[i].Exit
			enters := before
			before = after
			if dry := s.Model.DryFlow(z); dry == 0 {
				continue
			}
			closed++
			p, room := s.Room.Pressure, s.Room.Temperature
			ratio := func(vapour float64) float64 { return 0.621945 * vapour / (p - vapour) }
			vapourAt := func(T float64) float64 { return 2501e3 + 1860*(T-273.15) }
			enthalpy := func(dry, vapour, T float64) float64 { return dry * (1006*(T-273.15) + ratio(vapour)*vapourAt(T)) }
			n := math.Max(1, float64(z.Air.Strands))
			strand := n * s.Model.Material.Density.Value * math.Pi * s.Model.Radius * s.Model.Radius * s.Model.Speed
			given := strand * (enters.Mean - after.Mean)
			supply, leak := s.Model.DryFlow(z), z.Air.Leak*(p-z.Air.LeakOf)/(287.042*room)
			in, out := supply*ratio(z.Air.VapourPressure)+leak*ratio(z.Air.LeakOf), (supply+leak)*ratio(r.Zones[i].VapourPressure)
			require.LessOrEqual(t, math.Abs(in+given-out), 1e-9*max(in, out, math.Abs(given)), "water of %s in %s", z.Name, name)
			if !h.Heated {
				continue
			}
			at := room
			if c := s.Machine.Chambers[i].Source; c == machine.Once || c == machine.Loop {
				at = s.Machine.Bed.Temperature
			}
			leaves := enthalpy(supply+leak, r.Zones[i].VapourPressure, z.Air.Temperature)
			heater := leaves - enthalpy(supply, z.Air.VapourPressure, at) - enthalpy(leak, z.Air.LeakOf, room) + h.Loss.Power +
				strand*(1+enters.Mean)*s.Model.Material.HeatCapacity.Value*(after.Temperature-enters.Temperature) - given*(vapourAt(after.Temperature)-humidair.LatentHeat(after.Temperature))
			require.LessOrEqual(t, math.Abs(heater-h.Steady.Heater), 1e-9*max(math.Abs(heater), math.Abs(leaves)), "heat of %s in %s", z.Name, name)
		}
	}
	require.GreaterOrEqual(t, closed, 6)
}
