package figure

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/shape"
	"strandry/diffusion/samples"
	"strandry/plots/canvas"
	"strandry/scenarios"
)

const strandOf = 1.75e-3 // [m]

// aChamber is a chamber of such a way, its numbers made by hand.
func aChamber(name string, way shape.Way, insulation float64, against diffusion.Direction) Chamber {
	lead, err := way.Lead(strandOf)
	if err != nil {
		panic(err)
	}
	drawn, err := way.Outline(strandOf, against == diffusion.Against)
	if err != nil {
		panic(err)
	}
	h := lead.Housing
	return Chamber{
		Name: name, Temperature: 353.15, Length: lead.Length, Holds: lead.Length, Way: way, Outline: drawn, Insulation: insulation,
		Outer: [3]float64{h.Length + 2*insulation, h.Width + 2*insulation, h.Height + 2*insulation}, Fits: true,
		Heated: true, Needed: 33, Size: 50, Flow: 5e-3 / 60, Against: against,
	}
}

// aMachine is twelve metres on a drum.
func aMachine() Machine {
	return Machine{
		Frame: frame(), Box: machine.Box{Length: 0.4, Width: 0.3, Height: 0.3},
		Chambers: []Chamber{aChamber("drum", shape.Winding{Drum: 0.15, Pitch: 3e-3, Turns: 25.16, Layers: 1, Gap: 0.02, Wall: 0}, 0.02, diffusion.Against)},
	}
}

// severalMachines are a tube, passes that do not fit the box, and a drum in two layers in mixed air.
func severalMachines() Machine {
	m := Machine{Frame: frame(), Box: machine.Box{Length: 0.5, Width: 0.3, Height: 0.3}}
	passes := aChamber("passes", shape.Passes{Span: 0.4, Roller: 0.06, Count: 12, Gap: 0.02}, 0, diffusion.With)
	passes.Fits, passes.Most, passes.Heater = false, 2.1, 60
	tube := aChamber("tube", shape.Tube{Length: 0.45, Bore: 0.02, Wall: 2e-3}, 0.01, diffusion.Against)
	tube.Heated, tube.Temperature = false, 293.15
	m.Chambers = []Chamber{tube, passes, aChamber("drum", shape.Winding{Drum: 0.1, Pitch: 2e-3, Turns: 60.4, Layers: 2, Gap: 0.02, Wall: 3e-3}, 0, diffusion.Mixed)}
	return m
}

// aFilling is a bed that fills so that its frost point rises as a root of time.
func aFilling() Filling {
	f := Filling{Frame: frame(), Kind: "molecular sieve 4A", Mass: 0.5, Target: 253.15, Life: 60, Low: 48, High: 72}
	for k := range 25 {
		share := float64(k) / 24
		f.Hours, f.Dew = append(f.Hours, 60*share), append(f.Dew, 203.15+50*math.Sqrt(share))
	}
	return f
}

// A machine is drawn to scale: on the page the housing, as a file has it, is as many times as wide and as high as the bar below it is long as it is in metres.
func TestMachineIsToScale(t *testing.T) {
	for name, c := range map[string]struct {
		f             Machine
		bar           float64
		width, height float64 // of the insulation from the side [m]
	}{
		// 25.16 turns of 3 mm, a strand, two gaps of 20 mm, and 20 mm of insulation on either side; the drum, two strands, gaps, insulation.
		"drum": {aMachine(), 0.1, 25.16*0.003 + 0.00175 + 0.04 + 0.04, 0.15 + 2*0.00175 + 0.04 + 0.04},
		// 450 mm and 10 mm on either side; the bore of 20 mm, two walls of 2 mm, insulation.
		"tube": {Machine{Frame: frame(), Chambers: severalMachines().Chambers[:1]}, 0.1, 0.47, 0.044},
	} {
		files, err := Encode(c.f, canvas.SVG)
		require.NoError(t, err)
		long := pathOf(t, files[0], "stroke:#1A1A1A", "stroke-width:1.4").Size().X // the first such line is the bar from the side
		around := pathOf(t, files[0], "fill:#E3E3E3", "").Size()
		require.InEpsilon(t, c.width/c.bar, float64(around.X/long), 2e-3, name)
		require.InEpsilon(t, c.height/c.bar, float64(around.Y/long), 2e-3, name)
	}
}

// pathOf is what the first path of a file takes that is drawn so.
func pathOf(t *testing.T, svg []byte, how, besides string) canvas.Rectangle {
	t.Helper()
	for _, part := range regexp.MustCompile(`<path d="([^"]*)"\s+style="([^"]*)"`).FindAllSubmatch(svg, -1) {
		style := string(part[2])
		if !strings.Contains(strings.ToUpper(style), strings.ToUpper(how)) || !strings.Contains(style, besides) {
			continue
		}
		var x, y []float64
		for _, pair := range regexp.MustCompile(`[ML]([0-9.e-]+),([0-9.e-]+)`).FindAllSubmatch(part[1], -1) {
			for i, to := range []*[]float64{&x, &y} {
				v, err := strconv.ParseFloat(string(pair[i+1]), 64)
				require.NoError(t, err)
				*to = append(*to, v)
			}
		}
		left, right := canvas.Bounds(x)
		low, high := canvas.Bounds(y)
		return canvas.Rectangle{Min: canvas.Point{X: canvas.Length(left), Y: canvas.Length(low)}, Max: canvas.Point{X: canvas.Length(right), Y: canvas.Length(high)}}
	}
	t.Fatalf("no path is drawn with %s", how)
	return canvas.Rectangle{}
}

// What is told above the drawing of a chamber, and in the headline.
func TestMachineWords(t *testing.T) {
	several := severalMachines()
	tube, passes, drum := &several.Chambers[0], &several.Chambers[1], &several.Chambers[2]
	told := func(c *Chamber) string { return plain(strings.Join(c.facts(&several), "\n")) }
	require.Equal(t, "A tube of 20 mm bore; the strand is drawn on its floor\nNot heated; 10 mm of insulation all round\nFits the box of 500 × 300 × 300 mm", told(tube))
	require.Equal(t, "12 passes, 61.8 mm apart; 20 mm from strand to housing\nHeater: 60 W stated, 33 W needed; its place is not known; bare wall\n"+
		"Does not fit the box of 500 × 300 × 300 mm (dashed), which holds 2.1 m so led", told(passes))
	require.Equal(t, "60.4 turns in each of 2 layers, 2 mm apart; 20 mm from strand to housing\nHeater: take 50 W, 33 W needed; its place is not known; bare wall\n"+
		"Air: 5 L/min, mixed; where it goes in and out is not known\nFits the box of 500 × 300 × 300 mm", told(drum))
	drum.Flow, drum.Length, passes.Most = 0, drum.Length/2, 0
	require.Contains(t, told(drum), "Air: no flow is stated, so where it goes in and out is not known")
	require.Contains(t, told(drum), "holds up to 39.3 m")
	require.Contains(t, told(passes), "nor any so led")
	passes.Fits = true
	require.Equal(t, "3 chambers hold 26 m of strand; each fits the box", plain(several.Headline()))
	several.Box = machine.Box{}
	require.NotContains(t, told(tube), "box")
	require.Equal(t, "3 chambers hold 26 m of strand, the largest 504 × 721 × 42 mm", plain(several.Headline()))
	one := aMachine()
	one.Chambers[0].Fits = false
	require.Equal(t, "12 m on a drum: 157 × 234 × 234 mm, does not fit the box", plain(one.Headline()))
}

// Shapes of all proportions: nothing overlaps, nothing leaves the sheet, and what lies closer than can be seen is thinned out.
func TestMachinesAtTheWorst(t *testing.T) {
	t.Parallel()
	long := "the chamber that was built last winter behind the other one in the shed, and has stood there since"
	directions := []diffusion.Direction{diffusion.Against, diffusion.With, diffusion.Mixed}
	for name, way := range map[string]shape.Way{
		"long tube":      shape.Tube{Length: 40, Bore: 4e-3},
		"short tube":     shape.Tube{Length: 0.01, Bore: 0.05, Wall: 0.01},
		"long drum":      shape.Winding{Drum: 0.05, Pitch: 3e-3, Turns: 9000, Layers: 5, Gap: 0.01},
		"part of a turn": shape.Winding{Drum: 0.5, Pitch: 3e-3, Turns: 0.3, Layers: 1, Gap: 0.01},
		"half":           shape.Winding{Drum: 0.2, Pitch: 3e-3, Turns: 20.5, Layers: 1, Gap: 0.01},
		"three quarters": shape.Winding{Drum: 0.2, Pitch: 3e-3, Turns: 20.75, Layers: 1, Gap: 0.01},
		"many passes":    shape.Passes{Span: 0.2, Roller: 0.02, Count: 5001, Gap: 0.02},
		"two passes":     shape.Passes{Span: 3, Roller: 0.05, Spacing: 0.2, Count: 2, Gap: 0.02, Wall: 0.01},
	} {
		for _, against := range samples.Each(3, slices.Concat(directions[len(name)%3:], directions[:len(name)%3])) {
			c := aChamber(long, way, 0.03, against)
			c.Fits, c.Flow = false, 1.2345e-7
			f := Machine{Frame: frame(), Box: machine.Box{Length: 12, Width: 0.1, Height: 0.02}, Chambers: []Chamber{c}}
			f.Notes = []string{long, long}
			require.NoError(t, checked(f), name)
			clean(t, name, f)
			f.Chambers = append(f.Chambers, c, c, c)
			f.Left = 2
			files, err := Encode(f, canvas.SVG)
			require.NoError(t, err)
			apart(t, name+", four of it", textsIn(t, files[0]), f.height())
			require.Less(t, len(files[0]), 600_000, name)
			thinned := strings.Contains(string(files[0]), "turns drawn")
			require.True(t, thinned || name != "long drum" && name != "many passes", name)
			require.False(t, thinned && (strings.HasSuffix(name, "tube") || name == "two passes"), name)
		}
	}
}

// Of a scenario: what is stated and told goes into the drawing, chambers without a shape do not, and there is room for so many.
func TestMachineOf(t *testing.T) {
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	tell := func() *machine.Answer {
		march := diffusion.NewMarch()
		trace, err := march.Trace(&s.Model, diffusion.CoarseSettings())
		require.NoError(t, err)
		a, err := machine.Tell(march, &s.Design, &trace.Result, &s.Machine)
		require.NoError(t, err)
		return a
	}
	a := tell()
	f, some, err := MachineOf(s, a, frame())
	require.NoError(t, err)
	require.True(t, some)
	require.Len(t, f.Chambers, 1)
	c := f.Chambers[0]
	require.Equal(t, [...]any{"drum", 12.0, a.Chambers[0].Outer, diffusion.Against, true}, [...]any{c.Name, c.Length, c.Outer, c.Against, c.Heated})
	require.InEpsilon(t, 5e-3/60, c.Flow, 1e-9)
	require.Equal(t, [...]float64{a.Chambers[0].Size, a.Chambers[0].Steady.Heater, 40, 0.02}, [...]float64{c.Size, c.Needed, c.Heater, c.Insulation})
	clean(t, "winch-drum", f)

	// As long as the zone, unless so many turns are stated.
	s.Design.Path[0].Length = 6
	f, _, err = MachineOf(s, tell(), frame())
	require.NoError(t, err)
	require.InEpsilon(t, 6, f.Chambers[0].Holds, 1e-9)
	s.Machine.Chambers[0].Held = true
	f, _, err = MachineOf(s, tell(), frame())
	require.NoError(t, err)
	require.InEpsilon(t, 12, f.Chambers[0].Holds, 1e-9)
	require.Equal(t, f.Chambers[0].Way, s.Machine.Chambers[0].Led)
	s.Design.Path[0].Length = 12

	for range mostChambers {
		s.Design.Path, s.Machine.Chambers = append(s.Design.Path, s.Design.Path[0]), append(s.Machine.Chambers, s.Machine.Chambers[0])
	}
	f, _, err = MachineOf(s, tell(), frame())
	require.NoError(t, err)
	require.Len(t, f.Chambers, mostChambers)
	require.Equal(t, 1, f.Left)
	require.Contains(t, plain(f.Headline()), "4 chambers hold 48 m")

	s.Machine.Chambers[0].Led = nil
	s.Machine.Chambers, s.Design.Path = s.Machine.Chambers[:2], s.Design.Path[:2]
	_, some, err = MachineOf(s, tell(), frame())
	require.NoError(t, err)
	require.False(t, some)
}

// Why there is no figure of a bed, and what goes into one: its times in hours, and no step that takes no time.
func TestFillingOf(t *testing.T) {
	b := machine.Filled{}
	reason := func() string { _, why := FillingOf(&b, frame()); return why }
	require.Contains(t, reason(), "no air goes over")
	b.Used = true
	require.Contains(t, reason(), "never holds")
	b.Life.Never = true
	require.Contains(t, reason(), "for good")
	b = machine.Filled{Used: true, Target: 103.2, Low: 1800, High: 7200, Life: desiccant.Life{Seconds: 3600}, Bed: desiccant.Bed{DryMass: 1.5, Isotherm: desiccant.Isotherm{Kind: desiccant.SilicaGel}}}
	b.Fill = []desiccant.State{{DewPoint: 230}, {DewPoint: 240}}
	require.Contains(t, reason(), "at once")
	b.Fill = append(b.Fill, desiccant.State{Time: 3600, DewPoint: 253.1})
	f, why := FillingOf(&b, frame())
	require.Empty(t, why)
	require.NoError(t, checked(f))
	require.Equal(t, []float64{0, 1}, f.Hours)
	require.Equal(t, []float64{230, 253.1}, f.Dew)
	require.Equal(t, "1.5 kg of silica gel holds a dew point of -20 °C for 1 (0.5 to 2) h", plain(f.Headline()))
	f.Life, f.Low, f.High = 100, 48, 240
	require.Equal(t, "1.5 kg of silica gel holds a dew point of -20 °C for 4.2 (2 to 10) days", plain(f.Headline()))
}
