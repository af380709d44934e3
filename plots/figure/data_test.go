package figure

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/plots/canvas"
	"strandry/scenarios"
)

// textsOf reads where text stands on a figure, from the baseline to the top of the capitals.
func textsOf(t *testing.T, f Figure) (texts []canvas.Rectangle) {
	t.Helper()
	files, err := Encode(f, canvas.SVG)
	require.NoError(t, err)
	return textsIn(t, files[0])
}

func textsIn(t *testing.T, svg []byte) (texts []canvas.Rectangle) {
	t.Helper()
	for _, part := range regexp.MustCompile(`<text textLength="([0-9.]+)"[^>]* x="([0-9.-]+)" y="([0-9.-]+)"[^>]*font-size:([0-9.]+)px`).FindAllSubmatch(svg, -1) {
		var n [4]canvas.Length
		for i := range n {
			v, err := strconv.ParseFloat(string(part[i+1]), 64)
			require.NoError(t, err)
			n[i] = canvas.Length(v)
		}
		at := canvas.Point{X: n[1], Y: -n[2]}
		texts = append(texts, canvas.Rectangle{Min: at, Max: at.Add(canvas.Point{X: n[0], Y: n[3] * 0.72})})
	}
	require.Equal(t, bytes.Count(svg, []byte("<text ")), len(texts))
	return texts
}

// clean tells that no two texts overlap and none leaves the sheet, to the last digit that a file has of their places.
func clean(t *testing.T, name string, f Figure) {
	t.Helper()
	apart(t, name, textsOf(t, f), f.height())
}

// apart is the same of texts on a sheet of a height.
func apart(t *testing.T, name string, texts []canvas.Rectangle, height canvas.Length) {
	t.Helper()
	const rounded = 0.06 // [pt]
	require.Greater(t, len(texts), 5, name)
	sheet := canvas.Rectangle{Max: canvas.Point{X: canvas.Width, Y: height}}
	for i, a := range texts {
		a = canvas.Grown(a, -rounded)
		require.True(t, canvas.Within(a, sheet), "%s: text %d leaves the sheet: %v", name, i, a)
		for j, b := range texts[:i] {
			free := a.Min.X >= b.Max.X || b.Min.X >= a.Max.X || a.Min.Y >= b.Max.Y || b.Min.Y >= a.Max.Y
			require.True(t, free, "%s: texts %d and %d overlap: %v, %v", name, j, i, b, a)
		}
	}
}

func TestNothingOverlaps(t *testing.T) {
	t.Parallel()
	for name, f := range all() {
		apart(t, name, textsIn(t, svg(t, name)), f.height())
	}
	for _, name := range samples.Each(2, scenarios.Demos()) {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		tr, err := diffusion.NewMarch().Trace(&s.Model, diffusion.CoarseSettings())
		require.NoError(t, err)
		clean(t, name+" path", Path{Frame: FrameOf(s, "0.0.0"), Design: &s.Design, Trace: tr})
		clean(t, name+" profiles", Profiles{Frame: FrameOf(s, "0.0.0"), Design: &s.Design, Trace: tr})
		clean(t, name+" heatmap", Heatmap{FrameOf(s, "0.0.0"), &s.Design, tr})
	}
}

// A long title, a long name of a zone and many lines must not break the sheet.
func TestNothingOverlapsAtTheWorst(t *testing.T) {
	t.Parallel()
	long := "A scenario whose title goes on and on, as titles do that were written by somebody who wanted to say everything in it, twice"
	p := aPath()
	p.Notes = []string{long}
	p.Design.Path[0].Name, p.Design.Path[1].Name = "the drum that was wound last winter", "the guide between the drum and the nozzle"
	clean(t, "path", p)
	clean(t, "heatmap", Heatmap{p.Frame, p.Design, p.Trace})
	n := aNeeded()
	n.Speeds = []float64{0.001, 0.00101, 0.00102, 0.00103, 0.00104, 0.00105, 0.00106}
	n.Lengths = nil
	for range n.Speeds {
		n.Lengths = append(n.Lengths, aNeeded().Lengths[1])
	}
	clean(t, "needed", n)
}

func TestHeadlines(t *testing.T) {
	for name, want := range map[string]string{
		// Mean at 12.6 m: 2.5 % exp(-12.6/5)/2 + 2 %/21 = 0.196 %.
		"path": "PA6 reaches the nozzle with 0.2 % (0.098 to 0.39) of water, within the limit of 0.2 %",
		// 5000 s ln(0.025/0.00199) = 12654 s, times 2 mm/s; read off a bilinear grid.
		"map":  "At a feed speed of 2 mm/s the limit of 0.2 % asks for a length of drum of at least 25.3 m (19 to 33 m, eight times in ten)",
		"line": "The limit of 0.2 % asks for a length of drum of at least 25.2 m (19 to 33 m, eight times in ten)",
		// 12000 s times 1 mm/s is 12 m, times 2 mm/s 24 m.
		"needed": "At 2 mm/s PA6 needs 24 m (9.6 to 60, eight times in ten) of drum at 80 °C; 20 m can be built",
		// 2, 3.8, 7.2, 13.7 m are below 20 m; 6 m, the spread's end, of the first alone, and any of the other.
		"suits": "20 m of drum dries 5 of 15 materials at the medians, 3 of them nine times in ten",
		// 3 % exp(-cost/25) is no more than 0.1 % from 85.03 on, the next design costs 90.
		"front": "PA6 is dry nine times in ten for 90 EUR, the cheapest of 51 designs: it leaves 0.082 % (0.041 to 0.16), the limit being 0.2 %; as drawn it costs 150 EUR",
		// exp(-12.6/5) 2.5 % = 0.2012 %
		// 25.16 turns of 2π·75.875 mm are 12 m; 25.16 · 3 mm and 81.75 mm beside them, 150 mm and 83.5 mm.
		"machine": "12 m on a drum: 157 × 234 × 234 mm, fits the box",
		// 0.45 m; 12 · 0.4 m and 11 turns of π · 30.875 mm; 60.4 turns of 2π · 50.875 mm and of 2π · 52.625 mm.
		"machines": "3 chambers hold 45.6 m of strand; passes does not fit the box",
		"filling":  "500 g of molecular sieve 4A holds a dew point of -20 °C for 60 (48 to 72) h",
		"profiles": "From start to nozzle the centre of PA6 goes from 2.5 % to 0.2 %, its mean from 2.5 % to 0.2 % (0.1 to 0.3)",
	} {
		got := all()[name].Headline()
		require.Equal(t, want, plain(got), name)
	}
}

func TestSuitsHeadlines(t *testing.T) {
	f := aSuits()
	f.Rows = f.Rows[3:6]
	require.Equal(t, "20 m of drum dries 2 of 3 materials at the medians (Polymer C, Polymer D), none of them nine times in ten", plain(f.Headline()))
	f.Rows = f.Rows[2:]
	require.Equal(t, "20 m of drum dries none of 1 materials at the medians", plain(f.Headline()))
}

func plain(s string) string {
	out := []rune(s)
	for i, r := range out {
		if r == '\u00a0' {
			out[i] = ' '
		}
	}
	return string(out)
}

// 0.025 exp(-2)(1 - s²) = 0.002 at 10 m: s² = 1 - 0.08 e² = 0.409.
func TestSectionWithinTheLimit(t *testing.T) {
	f := Heatmap{frame(), model(), trace()}
	for i, p := range f.Trace.Points {
		if p.Zone == 1 || p.Position < 1 {
			continue
		}
		depth, share := f.within(i)
		s2 := max(0, 1-0.08*math.Exp(p.Position/5))
		require.InDelta(t, 1-s2, share, 0.01) // 21 nodes
		require.InDelta(t, radius*(1-math.Sqrt(s2)), depth, radius/40)
	}
}

// A wet skin around a dry core: the share counts the core.
func TestWetSkinAroundADryCore(t *testing.T) {
	f := Heatmap{frame(), model(), trace()}
	for i := range f.Trace.Points {
		p := &f.Trace.Points[i]
		for k, r := range f.Trace.Radius {
			p.Profile[k] = 0
			if r > 0.8*radius {
				p.Profile[k] = 0.01
			}
		}
		p.Mean, p.Centre, p.Skin = 0.0036, 0, 0.01
	}
	depth, share := f.within(3)
	require.Zero(t, depth)
	require.InDelta(t, 0.64, share, 0.06) // 21 nodes
	require.Contains(t, f.Headline(), "% of the section of PA6 is within the limit")
}

func TestCrossing(t *testing.T) {
	y, content := aMap().row(aMap().Content)
	x, up, ok := aMap().crossing(content, aMap().Limit)
	require.True(t, ok)
	require.True(t, up)
	require.Equal(t, 2.0, y)
	require.InEpsilon(t, 2*5*math.Log(0.025/0.00199), x, 0.02)
}
