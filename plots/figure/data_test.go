package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgsvg"

	"strandry/diffusion"
	"strandry/scenarios"
)

// witness is a canvas that notes where text is set: from the baseline to the top of the capitals.
type witness struct {
	*vgsvg.Canvas
	texts []vg.Rectangle
}

func (w *witness) FillString(face font.Face, at vg.Point, text string) {
	w.texts = append(w.texts, vg.Rectangle{Min: at, Max: at.Add(vg.Point{X: face.Width(text), Y: face.Font.Size * 0.72})})
}

// drawn draws a figure and returns its sheet.
func drawn(t *testing.T, f Figure) (*sheet, *witness) {
	t.Helper()
	require.NoError(t, f.check())
	height := vg.Length(f.height())
	w := &witness{Canvas: vgsvg.New(sheetWidth, height)}
	s := newSheet(w, sheetWidth, height)
	f.draw(s, f.Headline())
	return s, w
}

// clean tells that no two texts overlap and none leaves the sheet.
func clean(t *testing.T, name string, f Figure) {
	t.Helper()
	s, w := drawn(t, f)
	require.Greater(t, len(w.texts), 5, name)
	for i, a := range w.texts {
		require.True(t, within(a, s.Rectangle), "%s: text %d leaves the sheet: %v", name, i, a)
		for j, b := range w.texts[:i] {
			apart := a.Min.X >= b.Max.X || b.Min.X >= a.Max.X || a.Min.Y >= b.Max.Y || b.Min.Y >= a.Max.Y
			require.True(t, apart, "%s: texts %d and %d overlap: %v, %v", name, j, i, b, a)
		}
	}
}

func TestNothingOverlaps(t *testing.T) {
	for name, f := range all() {
		clean(t, name, f)
	}
	for _, name := range scenarios.Demos() {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		tr, err := diffusion.NewMarch().Trace(&s.Model, diffusion.CoarseSettings())
		require.NoError(t, err)
		clean(t, name+" path", Path{Frame: FrameOf(s, "0.0.0"), Model: &s.Design, Trace: tr})
		clean(t, name+" profiles", Profiles{Frame: FrameOf(s, "0.0.0"), Model: &s.Design, Trace: tr})
		clean(t, name+" heat map", HeatMap{FrameOf(s, "0.0.0"), &s.Design, tr})
	}
}

// A long title, a long name of a zone and many lines must not break the sheet.
func TestNothingOverlapsAtTheWorst(t *testing.T) {
	long := "A scenario whose title goes on and on, as titles do that were written by somebody who wanted to say everything in it, twice"
	p := aPath()
	p.Notes = []string{long}
	p.Model.Path[0].Name, p.Model.Path[1].Name = "the drum that was wound last winter", "the guide between the drum and the nozzle"
	clean(t, "path", p)
	clean(t, "heat map", HeatMap{p.Frame, p.Model, p.Trace})
	n := aNeeded()
	n.Speeds = []float64{0.001, 0.00101, 0.00102, 0.00103, 0.00104, 0.00105, 0.00106}
	n.Lengths = nil
	for range n.Speeds {
		n.Lengths = append(n.Lengths, aNeeded().Lengths[1])
	}
	clean(t, "needed", n)
}

// The limit's contour lies where content = limit: for 2.5 % exp(-t/5000 s) + 0.001 % that is at
// t = 5000 s ln(2.5/0.199), whatever the speed.
func TestLimitContourLiesWhereItShould(t *testing.T) {
	f := aMap()
	s, _ := drawn(t, f)
	p := s.inside(s.Rectangle, axes{x: f.X.scale(), y: f.Y.scale()})
	m := newFilled(p, f.X.Values, f.Y.Values, f.Content, f.Limit, 0.025)
	require.GreaterOrEqual(t, m.bands.limit, 0)
	lines := m.lines[m.bands.limit]
	require.Len(t, lines, 1)
	require.Greater(t, len(lines[0]), 50)
	want := 5000 * math.Log(0.025/0.00199)
	for _, q := range lines[0] {
		x := f.X.scale().value(float64((q.X - p.box.Min.X) / p.box.Size().X))
		y := f.Y.scale().value(float64((q.Y - p.box.Min.Y) / p.box.Size().Y))
		// Bilinear in the logarithms over cells of a factor 1.2: the content's logarithm curves by
		// (ln 1.2)² t/(8·5000 s), 1 % of t.
		require.InEpsilon(t, want, x/(y/1000), 0.02)
	}
}

// Contours of r² are circles; the chain closes on itself.
func TestContoursOfACircle(t *testing.T) {
	f := field{}
	for k := range 81 {
		f.u = append(f.u, float64(k)/80)
		f.v = append(f.v, float64(k)/80)
	}
	for _, v := range f.v {
		var row []float64
		for _, u := range f.u {
			row = append(row, (u-0.5)*(u-0.5)+(v-0.5)*(v-0.5))
		}
		f.z = append(f.z, row)
	}
	lines := f.contours(0.09)
	require.Len(t, lines, 1)
	require.Equal(t, lines[0][0], lines[0][len(lines[0])-1])
	length := 0.0
	for i, s := range lines[0] {
		// Linear along edges of 1/80: off by at most (1/80)²/8 in z, a third of that over r in r.
		require.InDelta(t, 0.3, math.Hypot(s.u-0.5, s.v-0.5), 1e-4)
		if i > 0 {
			length += math.Hypot(s.u-lines[0][i-1].u, s.v-lines[0][i-1].v)
		}
	}
	require.InEpsilon(t, 2*math.Pi*0.3, length, 1e-3)
	require.Len(t, f.contours(0.3), 4) // four corners
	require.Empty(t, f.contours(2))
}

// A saddle with its middle above the level: the high ground goes through, and each line cuts off one of the low corners.
func TestContoursOfASaddle(t *testing.T) {
	f := field{u: []float64{0, 1}, v: []float64{0, 1}, z: [][]float64{{1, 0}, {0, 1}}}
	for level, high := range map[float64]bool{0.4: true, 0.6: false} {
		lines := f.contours(level)
		require.Len(t, lines, 2)
		for _, line := range lines {
			require.Len(t, line, 2)
			right, above := line[0].u+line[1].u > 1, line[0].v+line[1].v > 1
			require.Equal(t, high, right != above, "%v at %g", line, level)
		}
	}
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
		"keeps": "At 20 °C and 60 % humidity Polymer A is too wet after 10 min at the medians; one night (12 h) leaves 6 of 11 materials dry nine times in ten",
		// exp(-12.6/5) 2.5 % = 0.2012 %
		"profiles": "From start to nozzle the centre of PA6 goes from 2.5 % to 0.2 %, its mean from 2.5 % to 0.2 % (0.1 to 0.3)",
	} {
		got := all()[name].Headline()
		require.Equal(t, want, plain(got), name)
	}
}

func TestSuitsHeadlines(t *testing.T) {
	f := aSuits()
	f.Rows, f.State = f.Rows[3:6], "After 6 h in the room"
	require.Equal(t, "After 6 h in the room: 20 m of drum dries 2 of 3 materials at the medians (Polymer C, Polymer D), none of them nine times in ten", plain(f.Headline()))
	f.Rows, f.State, f.Zone = f.Rows[2:], "", ""
	require.Equal(t, "20 m of path dries none of 1 materials at the medians", plain(f.Headline()))
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
	f := HeatMap{frame(), model(), trace()}
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
	f := HeatMap{frame(), model(), trace()}
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

func TestSpread(t *testing.T) {
	at := func(y ...vg.Length) []label {
		var out []label
		for _, v := range y {
			out = append(out, label{at: vg.Point{Y: v}})
		}
		return out
	}
	labels := at(50, 50, 52, 90, 3)
	spread(labels, 15, 0, 100)
	for i := 1; i < len(labels); i++ {
		require.GreaterOrEqual(t, float64(labels[i].y-labels[i-1].y), 15-1e-9)
	}
	require.GreaterOrEqual(t, float64(labels[0].y), 0.0)
	require.LessOrEqual(t, float64(labels[4].y), 100.0)
	far := at(10, 60)
	spread(far, 15, 0, 100)
	require.InDelta(t, 10, float64(far[0].y), 1e-12)
	require.InDelta(t, 60, float64(far[1].y), 1e-12)
	crowded := at(50, 50, 50, 50, 50, 50)
	spread(crowded, 30, 0, 100)
	require.InDelta(t, 0, float64(crowded[0].y), 1e-9)
	require.InDelta(t, 100, float64(crowded[5].y), 1e-9)
}
