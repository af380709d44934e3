package figure

import (
	"fmt"
	"maps"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/scenarios/studies/needed"
)

// The data below are made by formulas, not by the solver, so that a change of the solver moves no
// reference image.

func frame() Frame {
	return Frame{Version: "0.0.0", Setup: Setup{Strand: "PA6, 1.75\u00a0mm", Feed: "2\u00a0mm/s", Zone: "drum", Length: "12\u00a0m", Heat: "90\u00a0°C", Air: "dew point -20\u00a0°C", Start: "starts at 2.5\u00a0%"}}
}

const radius = 0.875e-3 // [m]

func model() *diffusion.Design {
	hot, room := diffusion.Air{Temperature: 363.15}, diffusion.Air{Temperature: 293.15}
	return &diffusion.Design{Target: diffusion.Target{Limit: 0.002}, Model: diffusion.Model{
		Radius: radius, Speed: 0.002, Start: 0.025, StartTemperature: 293.15,
		Material: materials.Polymer{Name: "PA6", Softening: materials.Value{Value: 373.15, Low: 368.15, High: 383.15}},
		Path:     []diffusion.Zone{{Name: "drum", Length: 12, Air: hot}, {Name: "guide", Length: 0.6, Air: room}},
	}}
}

// trace is a strand whose content falls from 2.5 % as exp(-x/(5 m)) at the axis and faster outside, with
// the shape 1 - (r/R)², and whose skin is wet again in the guide.
func trace() *diffusion.Trace {
	t := &diffusion.Trace{}
	for k := range 21 {
		t.Radius = append(t.Radius, radius*float64(k)/20)
	}
	point := func(zone int, x float64) {
		core := 0.025 * math.Exp(-x/5)
		p := diffusion.Point{Zone: zone, Position: x, Time: x / 0.002, AirTemperature: 363.15}
		p.Temperature = 363.15 - 70*math.Exp(-x/0.1)
		edge := 0.0
		if zone == 1 {
			edge = 0.02 * (1 - math.Exp(-(x-12)/0.05))
			p.AirTemperature, p.Temperature = 293.15, 293.15+70*math.Exp(-(x-12)/0.1)
		}
		for _, r := range t.Radius {
			s := r / radius
			p.Profile = append(p.Profile, core*(1-s*s*math.Min(1, x))+edge*math.Pow(s, 40))
		}
		p.Centre, p.Skin, p.Mean = p.Profile[0], p.Profile[20], core*(1-math.Min(1, x)/2)+edge/21
		t.Points = append(t.Points, p)
	}
	for k := range 61 {
		point(0, 12*math.Pow(float64(k)/60, 2))
	}
	for k := range 13 {
		point(1, 12+0.6*float64(k)/12)
	}
	return t
}

// decaying is the content after a length [m] at a speed [m/s]: exp(-t/5000 s) of 2.5 %.
func decaying(length, speed float64) float64 { return 0.025 * math.Exp(-length/speed/5000) }

func spaced10(from, to float64, n int) []float64 {
	var out []float64
	for k := range n {
		out = append(out, from*math.Pow(to/from, float64(k)/float64(n-1)))
	}
	return out
}

func aMap() Map {
	m := Map{
		Frame: frame(), Limit: 0.002, Start: 0.025, Here: &Mark{X: 12, Y: 2},
		X: Axis{Name: "length of drum", Unit: "m", Values: spaced10(1, 100, 25), Log: true},
		Y: Axis{Name: "feed speed", Unit: "mm/s", Values: spaced10(0.5, 8, 17), Log: true},
	}
	for _, v := range m.Y.Values {
		var row []float64
		for _, l := range m.X.Values {
			row = append(row, decaying(l, v/1000)+1e-5)
		}
		m.Content, m.Ratio = append(m.Content, row), append(m.Ratio, around(row, m.Limit))
	}
	return m
}

// around is a doubt of a factor of two either way.
func around(content []float64, limit float64) []diffusion.Between {
	var out []diffusion.Between
	for _, c := range content {
		out = append(out, diffusion.Between{Low: c / limit / 2, High: 2 * c / limit})
	}
	return out
}

// aPath is that strand with a band that widens to a factor of two either way.
func aPath() Path {
	p := Path{Frame: frame(), Design: model(), Trace: trace()}
	for _, at := range p.Trace.Points {
		by := math.Pow(2, at.Position/12.6)
		p.Span = append(p.Span, diffusion.Between{Low: at.Mean / by, High: at.Mean * by})
	}
	last := p.Span[len(p.Span)-1]
	p.Odds = &diffusion.Odds{Low: last.Low, High: last.High}
	return p
}

func aLine() Line {
	l := Line{Frame: frame(), Limit: 0.002, X: Axis{Name: "length of drum", Unit: "m", Values: spaced10(1, 100, 25), Log: true}}
	for _, x := range l.X.Values {
		l.Content = append(l.Content, decaying(x, 0.002))
		l.Low = append(l.Low, decaying(2*x, 0.002))
		l.High = append(l.High, decaying(x/2, 0.002))
	}
	l.Ratio = around(l.Content, l.Limit)
	return l
}

func aNeeded() Needed {
	n := Needed{
		Frame: frame(), Table: needed.Table{Zone: "drum", Speeds: []float64{0.0005, 0.001, 0.002, 0.004}},
		Material: "PA6", HeatLimit: 353.15, GivesWay: materials.Range{Min: 360.15, Max: 368.15}, Longest: 20, Limit: 0.002,
	}
	for t := 303.15; t <= 373.2; t += 5 {
		n.Temperatures = append(n.Temperatures, t)
	}
	for k, v := range n.Speeds {
		var row []float64
		for _, t := range n.Temperatures {
			length := 12000 * v * math.Exp(-(t-353.15)/18)
			if k == 0 && t < 323 {
				length = 0
			}
			row = append(row, length)
		}
		n.Lengths = append(n.Lengths, row)
	}
	n.Own = 2
	for _, length := range n.Lengths[n.Own] {
		n.NineInTen, n.OneInTen = append(n.NineInTen, 2.5*length), append(n.OneInTen, length/2.5)
	}
	return n
}

func aSuits() Suits {
	s := Suits{Frame: frame(), Longest: 20, Given: 12, Zone: "drum"}
	for k := range 12 {
		l := 2 * math.Pow(1.9, float64(k))
		row := Suit{Material: fmt.Sprintf("Polymer %c", 'A'+k), Temperature: 333.15 + 5*float64(k), Bears: 343.15 + 5*float64(k), Length: l, Reliable: l * 3, Sure: l*3 <= 20}
		switch {
		case l > 36:
			row.Verdict = diffusion.Wet
		case l < 4:
			row.Verdict = diffusion.Dry
		}
		s.Rows = append(s.Rows, row)
	}
	s.Rows[11].Reliable = 0
	return Suits{s.Frame, append([]Suit{{Material: "Polymer Y", Temperature: 333.15, Bears: 343.15, Any: true, Sure: true, Verdict: diffusion.Dry}},
		append(s.Rows, Suit{Material: "Polymer Z", Temperature: 318.15, Bears: 323.15, Verdict: diffusion.Wet},
			Suit{Material: "Polymer X", Temperature: 338.15, Bears: 323.15, Verdict: diffusion.TooHot})...), s.Longest, s.Given, s.Zone}
}

// crossing is that strand with two covers on the drum: behind them the content stays, with the shape (1 - cos 2θ)²/4.
func crossing() (*diffusion.Design, *diffusion.Trace) {
	m, t := model(), trace()
	m.Path[0].Contact = diffusion.Contact{Covered: 0.3, Arcs: 2}
	for _, time := range []float64{300, 2000, 6000} {
		s := diffusion.Section{Zone: 0, Time: time, Radius: t.Radius[1:], Arcs: 2, Exposed: 0.7}
		for a := range 7 {
			s.Angle = append(s.Angle, (float64(a)+0.5)/7*math.Pi/2)
		}
		core := 0.025 * math.Exp(-time/8000)
		s.Mean = core / 2
		for _, r := range s.Radius {
			var row []float64
			for _, angle := range s.Angle {
				behind := math.Pow((1-math.Cos(2*angle))/2, 2)
				row = append(row, core*(1-0.998*math.Pow(r/radius, 2)*(1-0.8*behind)))
			}
			s.Content = append(s.Content, row)
		}
		t.Sections = append(t.Sections, s)
	}
	return m, t
}

func aSection() Section {
	m, t := crossing()
	f, _ := SectionOf(m, t, frame())
	return f
}

// all is one figure of each kind.
func all() map[string]Figure {
	figures := map[string]Figure{
		"path":     aPath(),
		"profiles": Profiles{frame(), model(), trace(), &diffusion.Odds{Low: 0.001, High: 0.003}},
		"heatmap":  Heatmap{frame(), model(), trace()},
		"section":  aSection(),
		"map":      aMap(), "line": aLine(), "needed": aNeeded(), "suits": aSuits(), "doubt": aDoubt(), "front": aFront(),
		"machine": aMachine(), "machines": severalMachines(), "filling": aFilling(),
	}
	maps.Copy(figures, weighedFigures())
	return figures
}

// svgs are the figures of all, drawn once.
var svgs = sync.OnceValues(func() (map[string][]byte, error) {
	drawn := map[string][]byte{}
	for name, f := range all() {
		files, err := Encode(f, canvas.SVG)
		if err != nil {
			return nil, err
		}
		drawn[name] = files[0]
	}
	return drawn, nil
})

// svg is one of them.
func svg(t *testing.T, name string) []byte {
	t.Helper()
	drawn, err := svgs()
	require.NoError(t, err)
	require.NotEmpty(t, drawn[name])
	return drawn[name]
}

// Encode draws one figure.
func Encode(f Figure, formats ...canvas.Format) ([][]byte, error) {
	return encode(new(canvas.Press), f, formats...)
}

// aFront is the price of length: designs on a curve from wet to dry, dearer ones beside it, and two that fail a demand.
func aFront() Front {
	f := Front{Frame: frame(), Met: true, Limit: 0.002, Currency: "EUR", Material: "PA6"}
	priced := func(cost, content float64, sound bool) Priced {
		d := Priced{Cost: cost, Content: content, Low: content / 2, High: 2 * content, Sound: sound, Verdict: palette.Unsure}
		switch {
		case d.High <= f.Limit:
			d.Verdict = palette.Dry
		case d.Low > f.Limit:
			d.Verdict = palette.Wet
		}
		f.Designs = append(f.Designs, d)
		return d
	}
	for k := range 25 {
		cost := 20 + 5*float64(k)
		d := priced(cost, 0.03*math.Exp(-cost/25), true)
		f.Front = append(f.Front, d)
		if d.Verdict == palette.Dry && f.Best.Cost == 0 {
			f.Best = d
		}
		priced(1.3*cost, 1.2*d.Content, k%5 > 0)
	}
	now := priced(150, 0.0009, true)
	f.Now = &now
	return f
}
