package field

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Contours of r² are circles; the chain closes on itself.
func TestContoursOfACircle(t *testing.T) {
	f := Field{}
	for k := range 81 {
		f.U = append(f.U, float64(k)/80)
		f.V = append(f.V, float64(k)/80)
	}
	for _, v := range f.V {
		var row []float64
		for _, u := range f.U {
			row = append(row, (u-0.5)*(u-0.5)+(v-0.5)*(v-0.5))
		}
		f.Z = append(f.Z, row)
	}
	lines := f.Contours(0.09)
	require.Len(t, lines, 1)
	require.Equal(t, lines[0][0], lines[0][len(lines[0])-1])
	length := 0.0
	for i, s := range lines[0] {
		// Linear along edges of 1/80: off by at most (1/80)²/8 in z, a third of that over r in r.
		require.InDelta(t, 0.3, math.Hypot(s.U-0.5, s.V-0.5), 1e-4)
		if i > 0 {
			length += math.Hypot(s.U-lines[0][i-1].U, s.V-lines[0][i-1].V)
		}
	}
	require.InEpsilon(t, 2*math.Pi*0.3, length, 1e-3)
	require.Len(t, f.Contours(0.3), 4) // four corners
	require.Empty(t, f.Contours(2))
}

// A saddle with its middle above the level: the high ground goes through, and each line cuts off one of the low corners.
func TestContoursOfASaddle(t *testing.T) {
	f := Field{U: []float64{0, 1}, V: []float64{0, 1}, Z: [][]float64{{1, 0}, {0, 1}}}
	for level, high := range map[float64]bool{0.4: true, 0.6: false} {
		lines := f.Contours(level)
		require.Len(t, lines, 2)
		for _, line := range lines {
			require.Len(t, line, 2)
			right, above := line[0].U+line[1].U > 1, line[0].V+line[1].V > 1
			require.Equal(t, high, right != above, "%v at %g", line, level)
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
	for i, v := range Smooth(x, y, at) {
		k := Cell(x, at[i])
		require.GreaterOrEqual(t, v, math.Min(y[k], y[k+1])-bulge-1e-12)
		require.LessOrEqual(t, v, math.Max(y[k], y[k+1])+bulge+1e-12)
	}
	for i, v := range Smooth(x, y, x) {
		require.InDelta(t, y[i], v, 1e-12)
	}
}

// A plane is itself wherever it is looked at, and a finer grid of it too; dots are counted from the upper left.
func TestAPlaneStaysOne(t *testing.T) {
	plane := func(u, v float64) float64 { return 3 + 2*u - 5*v }
	f := Field{U: []float64{0, 0.3, 1}, V: []float64{0, 0.25, 0.5, 1}}
	for _, v := range f.V {
		f.Z = append(f.Z, []float64{plane(0, v), plane(0.3, v), plane(1, v)})
	}
	fine := f.Finer(10)
	require.GreaterOrEqual(t, len(fine.U), 10)
	for _, one := range []Field{f, fine} {
		for _, at := range [][2]float64{{0, 0}, {0.1, 0.9}, {0.3, 0.25}, {1, 1}} {
			require.InDelta(t, plane(at[0], at[1]), one.At(at[0], at[1]), 1e-12)
		}
		dots := one.Dots(8, 4)
		require.InDelta(t, plane(1./16, 7./8), dots.At(0, 0), 1e-12)
		require.InDelta(t, plane(5./16, 1./8), dots.At(2, 3), 1e-12)
	}
}

// A front along a slant is found between two lines at the place half-way, where a field that knows of none shows two half steps.
func TestSlantingFollowsAFront(t *testing.T) {
	front := func(u, v float64) float64 { return math.Tanh(20 * (u - 0.3 - 0.4*v)) }
	f := Field{V: []float64{0, 1}, Z: make([][]float64, 2)}
	for k := range 41 {
		f.U = append(f.U, float64(k)/40)
		for j, v := range f.V {
			f.Z[j] = append(f.Z[j], front(f.U[k], v))
		}
	}
	got := f.Slanting([]float64{0.45, 0.5, 0.55}, []float64{0, 0.5, 1}, 0.4)
	for i, u := range got.U {
		for j, v := range got.V {
			require.InDelta(t, front(u, v), got.Z[j][i], 0.02, "%g, %g", u, v)
		}
	}
	require.InDelta(t, 0, f.over([]float64{0.4}, []float64{0.5}).Z[0][0], 0.05)
	require.Less(t, front(0.4, 0.5), -0.9)
}

func TestThrough(t *testing.T) {
	require.Equal(t, []float64{7, 7}, Through([]float64{2}, []float64{7}, []float64{-1, 9}))
	got := Through([]float64{0, 1, 2, 3}, []float64{0, 0, 1, 1}, []float64{-5, 0.5, 1.5, 2.5, 5})
	require.InDeltaSlice(t, []float64{0, 0, 0.5, 1, 1}, got, 1e-12)
}
