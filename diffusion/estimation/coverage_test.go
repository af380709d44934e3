package estimation_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"strandry/diffusion/estimation"
	"strandry/diffusion/samples"
)

// lines with true values of their own, as often as asked, and whether the interval of nine in ten holds the slope, and the end.
func coverage(t *testing.T, noise, step float64, count, sets int) (slope, end, lack float64) {
	r := rand.New(rand.NewPCG(8, uint64(1000*noise)+uint64(count)))
	for range sets {
		a, b := 10*r.Float64(), 1+9*r.Float64()
		p := straight(a, b, noise, step, count, r)
		e, err := p.LeastSquares([]float64{0, 0})
		require.NoError(t, err)
		effort := estimation.UsualEffort()
		effort.Effective = 300
		s, err := p.Sample(e, effort)
		require.NoError(t, err)
		holds := func(f func([]float64) float64) float64 {
			q := s.Quantiles(f, 0.05, 0.95)
			if truth := f([]float64{a, b}); q[0] <= truth && truth <= q[1] {
				return 1 / float64(sets)
			}
			return 0
		}
		slope += holds(func(x []float64) float64 { return x[1] })
		end += holds(func(x []float64) float64 { return x[0] + x[1] })
		shapes := mat.NewDense(count, 2, nil)
		for i := range count {
			x := float64(i) / float64(count-1)
			shapes.SetRow(i, []float64{x * x, x * x * x})
		}
		l, err := p.LackOfFit(e, s, shapes, 1)
		require.NoError(t, err)
		if l.Probability < 0.05 {
			lack += 1 / float64(sets)
		}
	}
	return slope, end, lack
}

// Nine times in ten the interval holds the truth, whatever rounds; and one time in twenty the lack of fit is as rare as one in twenty.
func TestCoverage(t *testing.T) {
	sets := samples.Of(100, 600, 2000)
	for _, c := range []struct {
		noise, step float64
		count       int
	}{{0, 1, 24}, {0.3, 1, 24}, {0.1, 1, 24}, {0, 1, 12}, {0.3, 1, 12}, {0.5, 1, 24}, {1, 1, 24}} {
		slope, end, lack := coverage(t, c.noise, c.step, c.count, sets)
		t.Logf("noise %g, step %g, %d readings: slope %.3f, end %.3f, lack of fit %.3f", c.noise, c.step, c.count, slope, end, lack)
	}
}
