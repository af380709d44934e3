package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// harmonic is a + b (r/R)ⁿ cos nθ, a steady field on a disc, at nodes like those of the solver.
func harmonic(arcs int, content func(r, angle float64) float64) *diffusion.Section {
	s := &diffusion.Section{Arcs: arcs, Exposed: 0.6}
	for i := range 20 {
		s.Radius = append(s.Radius, math.Sinh(0.15*float64(i+1)-3)+math.Sinh(3))
	}
	s.Radius = s.Radius[:20]
	last := s.Radius[19]
	for i := range s.Radius {
		s.Radius[i] *= radius / last
	}
	for _, share := range []float64{0.12, 0.37, 0.55, 0.6, 0.75, 0.92} {
		s.Angle = append(s.Angle, share*math.Pi/float64(arcs))
	}
	for _, r := range s.Radius {
		var row []float64
		for _, a := range s.Angle {
			row = append(row, content(r/radius, a))
		}
		s.Content = append(s.Content, row)
	}
	return s
}

// The disc shows the field between its nodes, in its sector and round by symmetry; the middle of the first cover is at the bottom.
func TestRoundelShowsTheField(t *testing.T) {
	for _, arcs := range []int{1, 2, 4} {
		n := float64(arcs)
		field := func(r, angle float64) float64 { return 0.01 - 0.006*math.Pow(r, n)*math.Cos(n*angle) }
		d := newRoundel(harmonic(arcs, field))
		for k := range 120 {
			direction := 2 * math.Pi * float64(k) / 120
			for _, r := range []float64{0, 0.01, 0.3, 0.72, 0.99, 1} {
				sin, cos := math.Sincos(direction)
				fromCover := direction - downwards // the field is even about each cover and each exposed middle
				want := field(r, fromCover+math.Pi/n)
				require.InDelta(t, want, d.at(r*cos*(1-1e-12), r*sin*(1-1e-12)), 4e-4, "%d arcs, r %g, direction %g", arcs, r, direction)
			}
		}
	}
}

// Between nodes nothing is shown that is far beyond its neighbours, a sharp edge included.
func TestSmoothStaysBetween(t *testing.T) {
	x, y := []float64{0, 1, 2, 3, 4, 5}, []float64{-5, -5, -5, 1, 1.1, 1.1}
	var at []float64
	for k := range 501 {
		at = append(at, float64(k)/100)
	}
	for i, v := range smooth(x, y, at) {
		k := cell(x, at[i])
		require.GreaterOrEqual(t, v, math.Min(y[k], y[k+1])-bulge-1e-12)
		require.LessOrEqual(t, v, math.Max(y[k], y[k+1])+bulge+1e-12)
	}
	for i, v := range smooth(x, y, x) {
		require.InDelta(t, y[i], v, 1e-12)
	}
}

// The scale has the limit on it wherever the contents lie, turns from sand to blue there, and its lightness falls to each side.
func TestTintTurnsAtTheLimit(t *testing.T) {
	for _, c := range [][2]float64{{1e-5, 0.03}, {0.01, 0.03}, {1e-4, 1e-3}, {1e-12, 1e-12}, {0.003, 0.003}} {
		s := tintOf(c[0], c[1], 0.002)
		require.True(t, s.scale.holds(0.002))
		require.True(t, s.scale.holds(c[1]) || c[1] < s.scale.min)
		below, above := s.of(0.002*0.999), s.of(0.002)
		require.Greater(t, int(below.R), int(below.B), "dry is sand")
		require.Greater(t, int(above.B), int(above.R), "wet is blue")
		for ratio := 1.1; ratio < 100; ratio *= 1.1 {
			require.GreaterOrEqual(t, luminance(s.of(0.00199/ratio)), luminance(s.of(0.00199/ratio/1.1)))
			require.GreaterOrEqual(t, luminance(s.of(0.002*ratio)), luminance(s.of(0.002*ratio*1.1)))
		}
		for _, level := range s.levels {
			require.True(t, s.scale.holds(level))
		}
	}
}

func TestSectionHeadlines(t *testing.T) {
	f := aSection()
	// 0.025 exp(-6/8) = 1.181 %, of which 0.002 + 0.998·0.8·w remains: w = sin⁴(π/28) at the first angle, cos⁴(π/28) at the last.
	require.Equal(t, "Behind the covers the skin of PA6 still holds 0.92 % as it leaves drum; where the air reaches it, 0.0025 %", plain(f.Headline()))
	skin := func(change func(row []float64)) Section {
		f := aSection()
		change(f.Trace.Sections[2].Content[19])
		f.Trace.Sections[2].Arcs = 1
		return f
	}
	wetted := skin(func(row []float64) { row[0], row[6] = 0.03, 0.001 })
	require.Equal(t, "Behind the cover the skin of PA6 holds only 0.1 % as it leaves drum; where the air reaches it, 3 %", plain(wetted.Headline()))
	even := skin(func(row []float64) { row[0], row[6] = 0.00300001, 0.003 })
	require.Equal(t, "Behind the cover the skin of PA6 holds as much as where the air reaches it, 0.3 %, as it leaves drum", plain(even.Headline()))
}

// Of several zones the one that is left least even is drawn; a strand that nothing covers has no such figure.
func TestSectionOfTheLeastEvenZone(t *testing.T) {
	m, trace := crossing()
	m.Path[1].Contact = diffusion.Contact{Covered: 0.2, Arcs: 2}
	even := trace.Sections[2]
	even.Zone, even.Content = 1, append([][]float64(nil), even.Content...)
	even.Content[19] = []float64{0.01, 0.01, 0.01, 0.01, 0.01, 0.01, 0.01}
	trace.Sections = append(trace.Sections, even)
	f, ok := SectionOf(m, trace, frame())
	require.True(t, ok)
	require.Zero(t, f.Zone)
	require.Equal(t, "drum: 30 % of the strand's perimeter is covered, by 2 arcs that keep their places. Of 2 such zones it is left least even.", plain(f.told()))
	trace.Sections = nil
	_, ok = SectionOf(m, trace, frame())
	require.False(t, ok)
}
