package estimation

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// lineOf is a line a + b x read by a display that does nothing but round to whole numbers.
func lineOf(a, b float64, count int) *Problem {
	p := &Problem{Lower: []float64{-100, -100}, Upper: []float64{100, 100}}
	x := func(i int) float64 { return float64(i) / float64(count-1) }
	for i := range count {
		p.Readings = append(p.Readings, Reading{Value: math.Round(a + b*x(i)), Resolution: 1})
	}
	p.Predict = func(q, out []float64) error {
		for i := range out {
			out[i] = q[0] + q[1]*x(i)
		}
		return nil
	}
	return p
}

// Bends are a square and a cube, for readings evenly over a run.
func Bends(count int) *mat.Dense {
	shapes := mat.NewDense(count, 2, nil)
	for i := range count {
		x := float64(i) / float64(count-1)
		shapes.SetRow(i, []float64{x * x, x * x * x})
	}
	return shapes
}

// A line that rises by a few steps shows as stairs, whose residuals have a shape; that is rounding, and no lack of fit.
func TestStairsAreNoLack(t *testing.T) {
	const count = 24
	least := 1.0
	for _, c := range [][2]float64{{0.1, 1.7}, {0.3, 1.5}, {0.45, 2.3}, {0.7, 1.2}} {
		p := lineOf(c[0], c[1], count)
		e, err := p.LeastSquares([]float64{0, 0})
		require.NoError(t, err)
		s, err := p.Sample(e, Effort{Seed: 1, Effective: 300, Most: 40_000})
		require.NoError(t, err)
		l, err := p.LackOfFit(e, s, Bends(count), 1)
		require.NoError(t, err)
		require.Greater(t, l.Probability, 0.02, "%v", c)
		least = math.Min(least, l.Probability)
	}
	t.Logf("at the least %.3f", least)
}

// What the parameters can do counts neither as shape nor as the rest, and a residual that is a shape has all in it.
func TestShareOfShape(t *testing.T) {
	const count = 12
	p := lineOf(3, 20, count)
	e, err := p.LeastSquares([]float64{0, 0})
	require.NoError(t, err)
	shape := newShapeTest(e, Bends(count))
	residuals, moved, pure := make([]float64, count), make([]float64, count), make([]float64, count)
	for i := range count {
		x := float64(i) / (count - 1)
		residuals[i] = math.Sin(float64(7 * i * i))
		moved[i] = residuals[i] + 40 - 90*x
		pure[i] = 5 - 3*x + 2*x*x
	}
	share := shape.share(residuals)
	require.True(t, share > 0 && share < 0.9, "%g", share)
	require.InDelta(t, share, shape.share(moved), 1e-9)
	require.InDelta(t, 1, shape.share(pure), 1e-9)
	require.Zero(t, shape.share(make([]float64, count)))
	e.Freedom = 2*spare - 1
	require.Nil(t, newShapeTest(e, Bends(count)))
	l, err := p.LackOfFit(e, nil, Bends(count), 1)
	require.NoError(t, err)
	require.Equal(t, Lack{Probability: 1}, l)
}
