package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/machine/shape"
)

const d = 1.75e-3 // [m]

// near fails on NaN, on either side, which testify's InDelta does not.
func near(t *testing.T, want, got, within float64, words ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), words...)
	require.LessOrEqual(t, math.Abs(want-got), within, "want %.12g, got %.12g: %v", want, got, words)
}

func lead(t *testing.T, w shape.Way) shape.Lead {
	t.Helper()
	l, err := w.Lead(d)
	require.NoError(t, err)
	return l
}

var (
	tube    = shape.Tube{Length: 2, Bore: 6e-3, Wall: 1e-3}
	passes  = shape.Passes{Span: 0.3, Roller: 40e-3, Count: 5, Gap: 5e-3, Wall: 2e-3}
	wide    = shape.Passes{Span: 0.3, Roller: 20e-3, Spacing: 60e-3, Count: 4, Gap: 5e-3, Wall: 2e-3}
	winding = shape.Winding{Drum: 0.12, Pitch: 2.5e-3, Turns: 30.25, Layers: 3, Gap: 6e-3, Wall: 1.5e-3}
)

// By hand: a tube of 6 mm bore and 8 mm outside, two metres long.
func TestTube(t *testing.T) {
	l := lead(t, tube)
	near(t, 2, l.Length, 0)
	require.Equal(t, shape.Housing{Length: 2, Width: 8e-3, Height: 8e-3, Diameter: 8e-3}, l.Housing)
	near(t, math.Pi*8e-3*2+2*math.Pi*16e-6, l.WallArea, 1e-12)
	near(t, 25.869052e-6, l.AirSection, 1e-12, "28.274334 - 2.405282 mm²")
	require.Empty(t, l.Wraps)
	require.Empty(t, l.Layers)
	require.Zero(t, l.BendRadius)
	require.Zero(t, l.BendStrain)
	require.Equal(t, shape.Cover{Share: 0.1, Arcs: 1, Stays: true}, l.Cover)
}

// By hand: five passes of 300 mm over four rollers of 40 mm, on which the centre line runs at 20.875 mm.
func TestPasses(t *testing.T) {
	l := lead(t, passes)
	near(t, 5*0.3+4*math.Pi*20.875e-3, l.Length, 1e-12)
	near(t, 0.3+0.04+2*d+0.01+0.004, l.Housing.Length, 1e-12)
	near(t, 4*41.75e-3+d+0.01+0.004, l.Housing.Width, 1e-12)
	near(t, d+0.01+0.004, l.Housing.Height, 1e-12)
	require.Zero(t, l.Housing.Diameter)
	a, b, c := l.Housing.Length, l.Housing.Width, l.Housing.Height
	near(t, 2*(a*b+b*c+c*a), l.WallArea, 1e-12)
	strand := math.Pi / 4 * d * d
	section := (b-4e-3)*(c-4e-3) - 5*strand
	near(t, section, l.AirSection, 1e-12)
	require.Equal(t, []shape.Wrap{{Over: shape.Roller, Count: 4, Angle: math.Pi, Radius: 20.875e-3}}, l.Wraps)
	near(t, 20e-3, l.BendRadius, 0)
	near(t, 1.75/41.75, l.BendStrain, 1e-12)
	require.Zero(t, l.Cover)
}

// Passes 60 mm apart over rollers of 20 mm: two quarters and 38.25 mm between them.
func TestPassesFarApart(t *testing.T) {
	l := lead(t, wide)
	near(t, 4*0.3+3*(math.Pi*10.875e-3+38.25e-3), l.Length, 1e-12)
	require.Len(t, l.Wraps, 1)
	near(t, 10.875e-3, l.Wraps[0].Radius, 1e-12)
	l.Wraps[0].Radius = 0
	require.Equal(t, shape.Wrap{Over: shape.Roller, Count: 6, Angle: math.Pi / 2}, l.Wraps[0])
	near(t, 3*0.06+d+0.014, l.Housing.Width, 1e-12)
}

// A helix as a chain of short chords, and its bend from three points of it.
func TestWinding(t *testing.T) {
	l := lead(t, winding)
	require.Len(t, l.Layers, 3)
	require.Len(t, l.Wraps, 3)
	whole := 0.0
	for i, layer := range l.Layers {
		r := 0.06 + d/2 + float64(i)*d
		near(t, r, layer.Radius, 1e-12)
		const chords = 200_000
		at := func(k int) [3]float64 {
			turn := winding.Turns * float64(k) / chords
			sin, cos := math.Sincos(2 * math.Pi * turn)
			return [3]float64{r * cos, r * sin, turn * winding.Pitch}
		}
		chain := 0.0
		for k := range chords {
			chain += distance(at(k), at(k+1))
		}
		near(t, chain, layer.Length, 1e-6*chain)
		whole += layer.Length
		require.Equal(t, shape.Wrap{Over: shape.Drum, Count: 1, Angle: 2 * math.Pi * winding.Turns, Radius: layer.Radius}, l.Wraps[i])
		if i == 0 {
			near(t, roundThrough(at(0), at(500), at(1000))-d/2, l.BendRadius, 1e-5*r)
		}
	}
	near(t, whole, l.Length, 1e-12*whole)
	near(t, d/(2*l.BendRadius+d), l.BendStrain, 1e-12)
	outer := 0.12 + 6*d + 2*6e-3 + 2*1.5e-3
	long := 30.25*2.5e-3 + d + 2*6e-3 + 2*1.5e-3
	near(t, outer, l.Housing.Diameter, 1e-12)
	near(t, long, l.Housing.Length, 1e-12)
	near(t, outer, l.Housing.Width, 1e-12)
	near(t, outer, l.Housing.Height, 1e-12)
	near(t, math.Pi*outer*(long+outer/2), l.WallArea, 1e-12)
	near(t, math.Pi*6e-3*(0.12+6*d+6e-3), l.AirSection, 1e-12, "a ring: π × gap × mean diameter")
	require.Equal(t, []int{2, 2, 1}, []int{l.Layers[0].Touches, l.Layers[1].Touches, l.Layers[2].Touches})
	require.Equal(t, shape.Cover{Share: 0.2, Arcs: 2, Stays: true}, l.Cover)
}

// A steep helix is bent less than its drum.
func TestSteepHelixBendsLess(t *testing.T) {
	w := shape.Winding{Drum: 0.02, Pitch: 0.1, Turns: 2, Layers: 1, Gap: 5e-3}
	l := lead(t, w)
	r := 0.01 + d/2
	slope := 0.1 / (2 * math.Pi * r)
	near(t, r*(1+slope*slope)-d/2, l.BendRadius, 1e-12)
	require.Greater(t, l.BendRadius, 0.03)
}

func distance(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}

// roundThrough is the radius of the circle through three points: abc over four times the area.
func roundThrough(p, q, r [3]float64) float64 {
	a, b, c := distance(p, q), distance(q, r), distance(r, p)
	s := (a + b + c) / 2
	return a * b * c / (4 * math.Sqrt(s*(s-a)*(s-b)*(s-c)))
}

// What a strand of a layer touches, and the cover that follows from it.
func TestTouches(t *testing.T) {
	touching := shape.Winding{Drum: 0.1, Pitch: d, Turns: 5, Layers: 2, Gap: 5e-3}
	l := lead(t, touching)
	require.Equal(t, []int{4, 3}, []int{l.Layers[0].Touches, l.Layers[1].Touches})
	require.Equal(t, shape.Cover{Share: 0.4, Arcs: 4, Stays: true}, l.Cover)
	apart := touching
	apart.Pitch = 1.01 * d
	near(t, 2, float64(lead(t, apart).Layers[0].Touches), 0, "a hair apart is apart")
	lone := shape.Winding{Drum: 0.1, Pitch: 2000 * d, Turns: 0.1, Layers: 1, Gap: 5e-3}
	require.Equal(t, shape.Cover{Share: 0.1, Arcs: 1, Stays: true}, lead(t, lone).Cover)
}

// The least of a kind that holds a length holds it, and a little less would not.
func TestForLength(t *testing.T) {
	for _, target := range []float64{0.2, 1.5, 1.8, 5, 12} {
		w, err := tube.ForLength(target, d)
		require.NoError(t, err)
		near(t, target, lead(t, w).Length, 0)
		w, err = winding.ForLength(target, d)
		require.NoError(t, err)
		near(t, target, lead(t, w).Length, 1e-12*target)
		require.Equal(t, winding.Layers, w.(shape.Winding).Layers)
		for _, kind := range []shape.Passes{passes, wide} {
			w, err = kind.ForLength(target, d)
			require.NoError(t, err)
			p := w.(shape.Passes)
			require.GreaterOrEqual(t, lead(t, p).Length, target*(1-1e-9))
			if p.Count--; p.Count >= 2 {
				require.Less(t, lead(t, p).Length, target)
			}
			p.Count++
			again, err := p.ForLength(lead(t, p).Length, d)
			require.NoError(t, err)
			require.Equal(t, p, again, "what holds just so much is enough")
		}
	}
	for _, w := range []shape.Way{tube, passes, winding} {
		for _, bad := range []float64{math.NaN(), math.Inf(1), 0, -1, 1e9} {
			_, err := w.ForLength(bad, d)
			require.ErrorContains(t, err, "must lie from")
		}
	}
	_, err := shape.Passes{Span: 1e-3, Roller: 1e-3, Count: 2, Gap: 0.01}.ForLength(9999, d)
	require.ErrorContains(t, err, "number of passes that it takes")
	_, err = shape.Winding{Drum: 1e-3, Pitch: d, Layers: 1, Gap: 1e-3}.ForLength(9999, d)
	require.ErrorContains(t, err, "turns in a layer that it takes")
}

// Whatever is not refused is finite, and no length or area is negative, at the corners of what is allowed.
func TestCornersAreFinite(t *testing.T) {
	sizes := []float64{1e-6, 1e-5, 1e-2, 1, 1e4}
	taken := 0
	for _, strand := range []float64{1e-5, 1e-3, 0.1} {
		for _, a := range sizes {
			for _, b := range sizes {
				for _, c := range sizes {
					for _, w := range []shape.Way{
						shape.Tube{Length: a, Bore: b, Wall: 1}, shape.Tube{Length: a, Bore: strand * (1 + 1e-6)}, shape.Passes{Span: a, Roller: b, Gap: c, Count: 1_000_000},
						shape.Passes{Span: a, Roller: b, Spacing: c, Gap: 1e-6, Count: 2}, shape.Winding{Drum: a, Pitch: b, Turns: 1e4, Layers: 5, Gap: c, Wall: 1},
						shape.Winding{Drum: a, Pitch: b, Turns: 0.01, Layers: 1, Gap: c},
					} {
						l, err := w.Lead(strand)
						if err != nil {
							continue
						}
						taken++
						for _, x := range []float64{l.Length, l.WallArea, l.AirSection, l.Housing.Length, l.Housing.Width, l.Housing.Height} {
							require.True(t, x > 0 && x < 1e18, "%+v of %g: %+v", w, strand, l)
						}
						require.True(t, l.BendStrain >= 0 && l.BendStrain < 1 && l.BendRadius >= 0 && l.BendRadius < 1e18, "%+v", w)
					}
				}
			}
		}
	}
	require.Greater(t, taken, 500)
}
