package scenarios_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/shape"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/scenarios"
)

// A dryer with all that can be said of one: a drum that the strand drags round, passes, a tube.
const construction = `
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
temperature = "65 °C"
air = { dew_point = "-20 °C", flow = "3 L/min", direction = "against", source = "loop", strands = 2, leak = "0.2 L/min" }
shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm", turns = 20, layers = 2, access = "60 %", gap = "15 mm", bearing = "plain", axle = "6 mm", mass = "400 g", driven = false }
wall = { insulation = "20 mm", conductivity = "0.035 W/m/K", emissivity = 0.8, surface = "metal", mass = "1.2 kg", specific_heat = "880 J/kg/K" }
heater = "80 W"
[[zone]]
name = "rollers"
temperature = "60 °C"
air = { dew_point = "-15 °C", flow = "4 L/min", source = "once", slot = { bore = "3 mm", pressure = "2 Pa" } }
shape = { kind = "passes", span = "30 cm", roller = "60 mm", spacing = "122 mm", passes = 12, gap = "25 mm", bearing = "ball", axle = "5 mm" }
wall = { insulation = "10 mm", conductivity = "0.04 W/m/K", surface = "glass", mass = "2 kg", specific_heat = "500 J/kg/K" }
heater = "150 W"
[[zone]]
name = "tube"
length = "1.5 m"
temperature = "50 °C"
bore = "20 mm"
air = { flow = "2 L/min", direction = "with", source = "room" }
shape = { kind = "tube", thickness = "2 mm" }
wall = { insulation = "10 mm", conductivity = "0.04 W/m/K", mass = "300 g", specific_heat = "1500 J/kg/K" }
[build]
box = { length = "400 mm", width = "300 mm", height = "350 mm" }
least_radius = "20 mm"
margin = 1.4
[pull]
spool = "1.5 N"
feeder = "25 N"
guides = "180°"
friction = 0.3
[desiccant]
kind = "silica gel"
mass = "800 g"
bed = "30 °C"
regenerated = "120 °C"
[money]
currency = "EUR"
energy = 0.36
[[part]]
name = "mat"
price = 0.4
per = "W"
of = "rollers"
count = 2
[[part]]
name = "gel"
price = 9
per = "kg"
[[part]]
name = "sheet"
price = 50
per = "m2"
of = "drum"
[[part]]
name = "tube"
price = 3
per = "m"
of = "tube"
[[part]]
name = "fan"
price = 12.5
`

func construct(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("built.toml", []byte(text))
	require.NoError(t, err)
	return s
}

func close(t *testing.T, want, got float64, about ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), about...)
	require.LessOrEqual(t, math.Abs(want-got), 1e-9*math.Abs(want), append([]any{"%g is not %g: %v"}, got, want, about)...)
}

// Each key lands in its field, in SI.
func TestConstructionIsReadInSI(t *testing.T) {
	s := construct(t, construction)
	m := s.Machine
	require.True(t, m.Stated)
	drum, rollers, tube := m.Chambers[0], m.Chambers[1], m.Chambers[2]
	require.Equal(t, shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 20, Layers: 2, Gap: 0.015}, rounded(drum.Led))
	require.Equal(t, shape.Passes{Span: 0.3, Roller: 0.06, Spacing: 0.122, Count: 12, Gap: 0.025}, rounded(rollers.Led))
	require.Equal(t, shape.Tube{Length: 1.5, Bore: 0.02, Wall: 2e-3}, rounded(tube.Led))
	require.Equal(t, []bool{true, true, false}, []bool{drum.Held, rollers.Held, tube.Held})
	require.Equal(t, []machine.Bearing{machine.Plain, machine.Ball}, []machine.Bearing{drum.Bearing, rollers.Bearing})
	require.Equal(t, []machine.Surface{machine.Metal, machine.Glass, machine.Plastic}, []machine.Surface{drum.Wall.Surface, rollers.Wall.Surface, tube.Wall.Surface})
	require.Equal(t, []machine.Source{machine.Loop, machine.Once, machine.RoomAir}, []machine.Source{drum.Source, rollers.Source, tube.Source})
	require.False(t, drum.Driven)
	room := humidair.SaturationPressure(293.15) / 2
	for _, pair := range [][2]float64{
		{6e-3, drum.Axle}, {5e-3, rollers.Axle}, {0.4, drum.DrumMass}, {80, drum.Heater}, {150, rollers.Heater},
		{0.02, drum.Wall.Insulation}, {0.035, drum.Wall.Conductivity}, {0.8, drum.Wall.Emissivity}, {1.2, drum.Wall.Mass}, {880, drum.Wall.HeatCapacity},
		{0.01, rollers.Wall.Insulation}, {0.9, rollers.Wall.Emissivity}, {0.3, tube.Wall.Mass}, {1500, tube.Wall.HeatCapacity},
		{0.4, m.Box.Length}, {0.3, m.Box.Width}, {0.35, m.Box.Height}, {0.02, m.LeastBend}, {1.4, m.Margin},
		{1.5, m.Pull.Spool}, {25, m.Pull.Feeder}, {math.Pi, m.Pull.Guides}, {0.2, m.Pull.Friction.Low}, {0.3, m.Pull.Friction.Value}, {0.45, m.Pull.Friction.High},
		{0.8, m.Bed.Mass}, {303.15, m.Bed.Temperature}, {393.15, m.Bed.Regenerated}, {0.36 / 3.6e6, m.Energy},
		{293.15, m.Room.Temperature}, {room, m.Room.VapourPressure}, {101325, m.Room.Pressure},
	} {
		close(t, pair[0], pair[1])
	}
	require.Equal(t, desiccant.SilicaGel, m.Bed.Kind)
	require.Equal(t, "EUR", m.Currency)
	require.Equal(t, []machine.Part{
		{Name: "mat", Price: 0.4, Per: machine.Watt, Zone: 1, Count: 2}, {Name: "gel", Price: 9, Per: machine.Kilogram, Zone: -1, Count: 1},
		{Name: "sheet", Price: 50, Per: machine.SquareMetre, Zone: 0, Count: 1}, {Name: "tube", Price: 3, Per: machine.Metre, Zone: 2, Count: 1},
		{Name: "fan", Price: 12.5, Zone: -1, Count: 1},
	}, m.Parts)
	// The path: lengths by the shapes, air and leaks.
	z := s.Model.Path
	d := 1.75e-3
	layer := func(r float64) float64 { return 20 * math.Hypot(2*math.Pi*r, 3e-3) }
	close(t, layer(0.075+d/2)+layer(0.075+3*d/2), z[0].Length)
	close(t, 12*0.3+11*(math.Pi*(0.06+d)/2+0.122-0.06-d), z[1].Length)
	close(t, 0.2e-3/60, z[0].Air.Leak)
	require.Equal(t, 2, z[0].Air.Strands)
	require.Zero(t, z[2].Air.Leak)
	area := 2 * math.Pi / 4 * (9e-6 - d*d) // both ends; Bernoulli with what an edge lets pass
	density := (101325-room)/(287.042*293.15) + room/(461.5*293.15)
	near := heat.SharpEdge * area * math.Sqrt(2*2/density)
	require.InEpsilon(t, near, z[1].Air.Leak, 1e-5)
	for _, i := range []int{0, 1} {
		close(t, room, z[i].Air.LeakOf)
		close(t, 293.15, z[i].Air.MeteredAt)
	}
	// The section that the air passes sets its speed, across the turns and along the passes.
	require.Equal(t, []film.Flow{film.Across, film.Along, film.Annulus}, []film.Flow{z[0].Film.Flow, z[1].Film.Flow, z[2].Film.Flow})
	pack := 0.15 + 4*d
	close(t, math.Pi/4*(math.Pow(pack+0.03, 2)-pack*pack), z[0].Film.Section)
	require.Equal(t, []float64{0.6, 0.6}, []float64{z[0].Film.HeatFactor, z[0].Film.MassFactor})
	require.Equal(t, diffusion.Contact{Covered: 0.2, Arcs: 2}, z[0].Contact)
	require.Equal(t, diffusion.Contact{}, z[1].Contact)
	require.Equal(t, diffusion.Contact{Covered: 0.1, Arcs: 1}, z[2].Contact)
}

// rounded is a shape without the round-off of its units.
func rounded(way shape.Way) shape.Way {
	r := func(x float64) float64 { return math.Round(1e9*x) / 1e9 }
	switch w := way.(type) {
	case shape.Winding:
		w.Drum, w.Pitch, w.Gap = r(w.Drum), r(w.Pitch), r(w.Gap)
		return w
	case shape.Passes:
		w.Span, w.Roller, w.Spacing, w.Gap = r(w.Span), r(w.Roller), r(w.Spacing), r(w.Gap)
		return w
	case shape.Tube:
		w.Bore, w.Wall = r(w.Bore), r(w.Wall)
		return w
	}
	return way
}

// What is not said is the usual, and is told.
func TestUsualConstruction(t *testing.T) {
	s := construct(t, `
[strand]
material = "pa6"
[feed]
speed = "2 mm/s"
[[zone]]
name = "drum"
length = "12 m"
temperature = "80 °C"
air = { dew_point = "-20 °C", flow = "5 L/min", direction = "against" }
shape = { kind = "drum", diameter = "150 mm", pitch = "3 mm" }
wall = { insulation = "20 mm", mass = "1 kg" }
[[zone]]
name = "rollers"
length = "3 m"
shape = { kind = "passes", span = "300 mm", roller = "10 mm" }
`)
	drum, rollers := s.Machine.Chambers[0], s.Machine.Chambers[1]
	require.True(t, drum.Driven)
	require.False(t, drum.Held)
	require.Equal(t, machine.Supplied, drum.Source)
	require.Equal(t, machine.RoomAir, rollers.Source)
	close(t, 0.02, drum.Led.(shape.Winding).Gap)
	close(t, 12/math.Hypot(math.Pi*(0.15+1.75e-3), 3e-3), drum.Led.(shape.Winding).Turns)
	require.Equal(t, 10, rollers.Led.(shape.Passes).Count)
	close(t, 5e-3, rollers.Axle, "half a roller")
	require.Equal(t, machine.Wall{Insulation: drum.Wall.Insulation, Conductivity: 0.04, Emissivity: 0.9, Mass: 1, HeatCapacity: 900}, drum.Wall)
	require.Equal(t, machine.Range{Low: 0.1, Value: 0.2, High: 0.4}, s.Machine.Pull.Friction)
	close(t, 1.5, s.Machine.Margin)
	require.Equal(t, film.Natural, s.Model.Path[0].Film.Flow, "no gap is stated: the section is not known")
	assumed := s.Machine.Assumed
	for _, want := range []string{"zone.drum.shape.gap: 20 mm", "zone.drum.wall.conductivity: 0.04 W/m/K", "zone.drum.wall.specific_heat: 900 J/kg/K"} {
		require.True(t, slices.Contains(assumed, want) || slices.Contains(s.Assumed, want), "%s in %v %v", want, assumed, s.Assumed)
	}
	all := strings.Join(slices.Concat(assumed, s.Assumed), "\n")
	require.Contains(t, all, "zone.rollers.shape.axle: 5 mm")
	require.NotContains(t, all, "zone.drum.shape.axle", "a motor turns it")
	const bare = "[strand]\nmaterial = \"pa6\"\n[feed]\nspeed = \"2 mm/s\"\n[[zone]]\nname = \"z\"\nlength = \"1 m\"\n"
	require.False(t, construct(t, bare).Machine.Stated)
	for _, more := range []string{
		"[build]\nmargin = 2", "[pull]\nspool = \"1 N\"", "[money]\nenergy = 1", "[[part]]\nname = \"x\"\nprice = 1", "[build]\nbox = { length = \"1 m\", width = \"1 m\", height = \"1 m\" }",
		"heater = \"9 W\"", "wall = { surface = \"metal\" }", "air = { dew_point = \"-20 °C\", flow = \"1 L/min\", source = \"once\" }",
	} {
		require.True(t, construct(t, bare+more).Machine.Stated, more)
	}
}

// answerOf is all that is told of a machine, as text; that it can be told means that nothing in it is NaN or endless.
func answerOf(t *testing.T, s *scenarios.Scenario) string {
	t.Helper()
	march := diffusion.NewMarch()
	var r diffusion.Result
	require.NoError(t, march.Run(&s.Model, s.Settings, &r))
	a, err := machine.Tell(march, &s.Design, &r, &s.Machine)
	require.NoError(t, err)
	a.Assumed = nil
	for i := range a.Chambers {
		a.Chambers[i].Water.Least, a.Chambers[i].Water.Enough = 0, 0 // found by marches that round
	}
	a.Warnings = slices.DeleteFunc(a.Warnings, func(w machine.Warning) bool { return w.Concern == machine.AirIdle || w.Concern == machine.AirTooLittle })
	text, err := json.Marshal(a)
	require.NoError(t, err)
	return string(text)
}

// No number and no word of the machine's is without effect: each known key moved by a tenth, and each word changed, changes the design or what is told of the machine.
func TestNoKeyOfTheMachineIsWithoutEffect(t *testing.T) {
	for name, text := range map[string]string{"all": construction, "template": string(scenarios.Template())} {
		s := construct(t, text)
		before := answerOf(t, s)
		acts := func(key string, set ...scenarios.Setting) {
			other, err := s.With(set...)
			require.NoError(t, err, "%s: %s", name, key)
			if reflect.DeepEqual(s.Design, other.Design) && s.Settings == other.Settings && reflect.DeepEqual(s.Build, other.Build) &&
				reflect.DeepEqual(s.Store, other.Store) && reflect.DeepEqual(s.Opening, other.Opening) && s.Machine.Currency == other.Machine.Currency {
				require.True(t, before != answerOf(t, other), "%s: %s acts on nothing", name, key)
			}
		}
		tried := 0
		for _, k := range s.Keys() {
			if !k.Known || strings.HasPrefix(k.Name, "strand.properties.") || strings.HasSuffix(k.Name, ".exposed") {
				continue
			}
			x := 0.9 * k.Value
			switch {
			case k.Dimension.Name() == "temperature":
				x = k.Value - 4
			case k.Name == "zone.rollers.shape.spacing": // two rollers have to find room
				x = 1.1 * k.Value
			case k.Name == "build.least_radius": // so that a roller is too narrow
				x = 2 * k.Value
			case k.Value == 0:
				continue
			}
			tried++
			acts(k.Name, k.Setting(x, 12))
		}
		require.Greater(t, tried, 40, name)
	}
	s := construct(t, construction)
	before := answerOf(t, s)
	for _, words := range [][2]string{
		{`bearing = "plain"`, `bearing = "ball"`}, {`surface = "metal"`, `surface = "plastic"`}, {`source = "loop"`, `source = "supply"`}, {`strands = 2`, `strands = 3`},
		{`layers = 2, access = "60 %"`, `layers = 1`}, {`passes = 12`, `passes = 13`}, {`kind = "silica gel"`, `kind = "molecular sieve 13X"`}, {`per = "m2"`, `per = "m"`}, {`count = 2`, `count = 3`},
		{`price = 0.4`, `price = 0.5`}, {`of = "tube"`, `of = "drum"`}, {`mass = "400 g", driven = false`, `driven = true`}, {`direction = "against"`, `direction = "with"`},
	} {
		text := strings.Replace(construction, words[0], words[1], 1)
		require.NotEqual(t, construction, text, words)
		if strings.Contains(words[1], "driven = true") { // then nothing turns on a bearing
			text = strings.Replace(text, `bearing = "plain", axle = "6 mm", `, "", 1)
		}
		if strings.Contains(words[1], "sieve") {
			text = strings.Replace(text, `regenerated = "120 °C"`, `regenerated = "250 °C"`, 1)
		}
		require.True(t, before != answerOf(t, construct(t, text)), words)
	}
}

// A setting acts as if the file said so, for the keys of the machine as for others; turns and passes set the length that they hold.
func TestSettingsOfTheMachine(t *testing.T) {
	s := construct(t, construction)
	set := func(key, value string) *scenarios.Scenario {
		other, err := s.With(scenarios.Setting{Key: key, Value: value})
		require.NoError(t, err, key)
		return other
	}
	close(t, 1.5*s.Model.Path[0].Length, set("zone.drum.shape.turns", "30").Model.Path[0].Length)
	require.Equal(t, 20, set("zone.rollers.shape.passes", "20").Machine.Chambers[1].Led.(shape.Passes).Count)
	require.Greater(t, set("zone.drum.shape.diameter", "200 mm").Model.Path[0].Length, 1.3*s.Model.Path[0].Length)
	require.Equal(t, machine.Ball, set("zone.drum.shape.bearing", "ball").Machine.Chambers[0].Bearing)
	close(t, 120, set("zone.drum.heater", "120 W").Machine.Chambers[0].Heater)
	close(t, 40, set("pull.feeder", "40 N").Machine.Pull.Feeder)
	close(t, 2, set("desiccant.mass", "2 kg").Machine.Bed.Mass)
	close(t, 0.5, set("build.box.length", "50 cm").Machine.Box.Length)
	close(t, 0.05, set("zone.drum.wall.insulation", "50 mm").Machine.Chambers[0].Wall.Insulation)
	_, err := s.With(scenarios.Setting{Key: "zone.drum.shape.pitch", Value: "1 mm"})
	require.ErrorContains(t, err, "the turns would lie on each other")
	_, err = s.With(scenarios.Setting{Key: "zone.tube.shape.turns", Value: "3"})
	require.ErrorContains(t, err, "unknown key")
	bare := construct(t, "[strand]\nmaterial = \"pa6\"\n[feed]\nspeed = \"2 mm/s\"\n[[zone]]\nname = \"z\"\nlength = \"9 m\"\n")
	whole, err := bare.With(scenarios.Setting{Key: "zone.z.shape.kind", Value: "drum"}, scenarios.Setting{Key: "zone.z.shape.diameter", Value: "150 mm"}, scenarios.Setting{Key: "zone.z.shape.pitch", Value: "3 mm"})
	require.NoError(t, err)
	close(t, 0.15, whole.Machine.Chambers[0].Led.(shape.Winding).Drum)
	require.True(t, whole.Machine.Stated)
}

// Whatever the sizes: no panic, and either faults or a machine of which everything can be told.
func TestAbsurdSizes(t *testing.T) {
	base := construct(t, construction)
	march := diffusion.NewMarch()
	tried := 0
	for i, k := range base.Keys() {
		if !k.Known || strings.HasPrefix(k.Name, "strand.") || strings.HasPrefix(k.Name, "feed") || strings.HasPrefix(k.Name, "numerics") {
			continue
		}
		low, high, ends := base.Limits(k)
		values := []string{"0", "-1", "nan", "1e300", "inf", "1e-300", ""}
		if !k.Plain() {
			for j, v := range values {
				values[j] = v + " " + k.Dimension.Usual()
			}
		}
		if ends { // the ends that the file takes by itself
			values = append(values, k.Setting(low, 12).Value, k.Setting(high, 12).Value)
		}
		for j, v := range values {
			s, err := base.With(scenarios.Setting{Key: k.Name, Value: v})
			if err != nil || (i+j)%samples.Of(18, 3, 3) != 0 && j < len(values)-2 {
				continue
			}
			var r diffusion.Result
			if march.Run(&s.Model, diffusion.RoughSettings(), &r) != nil {
				continue
			}
			tried++
			for z := range s.Model.Path {
				require.LessOrEqual(t, s.Model.AirSpeed(&s.Model.Path[z]), 100.1, "%s = %s", k.Name, v)
			}
			a, err := machine.Tell(march, &s.Design, &r, &s.Machine)
			if err != nil {
				require.NotContains(t, err.Error(), "NaN", "%s = %s", k.Name, v)
				t.Logf("%s = %s: %v", k.Name, v, err)
				continue
			}
			for c := range a.Chambers {
				a.Chambers[c].WarmUp.Final = 0 // endless where nothing is lost
			}
			_, err = json.Marshal(a)
			require.NoError(t, err, fmt.Sprintf("%s = %s", k.Name, v))
		}
	}
	require.Greater(t, tried, 30)
}

// What can be built of a zone is what its shape holds in the box, in what one would say; its own length where none fits.
func TestLongestOfABox(t *testing.T) {
	long := func(box string) float64 {
		s := construct(t, strings.Replace(unconcerned, `box = {`, `longest = "500 m"`+"\nbox = "+box+"\n# {", 1))
		require.Equal(t, s.Build.Longest, s.LongestOf(len(s.Model.Path)), "of no zone")
		if most := s.Machine.Holds(0, 2*s.Model.Radius); most > 0 {
			require.LessOrEqual(t, s.LongestOf(0), most, "rounded down")
		}
		return s.LongestOf(0)
	}
	wide, narrow := long(`{ length = "300 mm", width = "300 mm", height = "300 mm" }`), long(`{ length = "200 mm", width = "200 mm", height = "200 mm" }`)
	require.Greater(t, wide, narrow)
	require.Greater(t, narrow, 1.0)
	require.InDelta(t, wide, quantity.Outward(wide, 3, false), 1e-9)
	require.InDelta(t, 10, long(`{ length = "50 mm", width = "20 mm", height = "20 mm" }`), 0)
}
