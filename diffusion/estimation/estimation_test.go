package estimation_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"strandry/diffusion/estimation"
)

func within(t *testing.T, want, got, relative float64) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got))
	require.InEpsilon(t, want, got, relative)
}

// misra is the problem Misra1a of the Statistical Reference Datasets for nonlinear regression of the National Institute of Standards and Technology
// (adsorption, Misra 1978), with its certified values.
func misra() *estimation.Problem {
	x := []float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0}
	y := []float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78}
	p := &estimation.Problem{Lower: []float64{0, 0}, Upper: []float64{2000, 0.01}}
	for _, v := range y {
		p.Readings = append(p.Readings, estimation.Reading{Value: v})
	}
	p.Predict = func(b, out []float64) error {
		for i, v := range x {
			out[i] = b[0] * (1 - math.Exp(-b[1]*v))
		}
		return nil
	}
	return p
}

// Certified: b1 238.94212918 (2.7070075241), b2 5.5015643181e-4 (7.2668688436e-6), squares 0.12455138894; from either of the starts of the set.
func TestMisra(t *testing.T) {
	for _, start := range [][]float64{{500, 1e-4}, {250, 5e-4}} {
		p := misra()
		e, err := p.LeastSquares(start)
		require.NoError(t, err)
		within(t, 2.3894212918e2, e.Parameters[0], 1e-7)
		within(t, 5.5015643181e-4, e.Parameters[1], 1e-7)
		within(t, 0.12455138894, e.Squares, 1e-9)
		c, err := p.Covariance(e.Jacobian, e.Noise())
		require.NoError(t, err)
		within(t, 2.7070075241, math.Sqrt(c.At(0, 0)), 1e-4)
		within(t, 7.2668688436e-6, math.Sqrt(c.At(1, 1)), 1e-4)
	}
}

// The draws of a problem that is all but linear are those of Student's t with the certified deviations.
func TestMisraIntervals(t *testing.T) {
	p := misra()
	e, err := p.LeastSquares([]float64{250, 5e-4})
	require.NoError(t, err)
	s, err := p.Sample(e, estimation.UsualEffort())
	require.NoError(t, err)
	student := distuv.StudentsT{Sigma: 1, Nu: 12}.Quantile(0.95)
	for k, c := range []struct{ value, deviation float64 }{{238.94212918, 2.7070075241}, {5.5015643181e-4, 7.2668688436e-6}} {
		q := s.Quantiles(func(b []float64) float64 { return b[k] }, 0.05, 0.95)
		t.Logf("%g to %g; effective %.0f", (q[0]-c.value)/c.deviation, (q[1]-c.value)/c.deviation, s.Effective)
		within(t, 2*student, (q[1]-q[0])/c.deviation, 0.06)
	}
}

// straight is a line a + b x whose readings are rounded.
func straight(a, b, noise, step float64, count int, r *rand.Rand) *estimation.Problem {
	p := &estimation.Problem{Lower: []float64{-1e3, -1e3}, Upper: []float64{1e3, 1e3}}
	for i := range count {
		v := a + b*float64(i)/float64(count-1) + noise*r.NormFloat64()
		if step > 0 {
			v = step * math.Round(v/step)
		}
		p.Readings = append(p.Readings, estimation.Reading{Value: v, Resolution: step})
	}
	p.Predict = func(q, out []float64) error {
		for i := range out {
			out[i] = q[0] + q[1]*float64(i)/float64(count-1)
		}
		return nil
	}
	return p
}

// The linear case by hand: the normal equations.
func TestLine(t *testing.T) {
	p := straight(3, 2, 0.3, 0, 9, rand.New(rand.NewPCG(1, 2)))
	e, err := p.LeastSquares([]float64{0, 0})
	require.NoError(t, err)
	var sx, sy, sxx, sxy float64
	for i, r := range p.Readings {
		x := float64(i) / 8
		sx, sy, sxx, sxy = sx+x, sy+r.Value, sxx+x*x, sxy+x*r.Value
	}
	slope := (9*sxy - sx*sy) / (9*sxx - sx*sx)
	within(t, slope, e.Parameters[1], 1e-6)
	within(t, (sy-slope*sx)/9, e.Parameters[0], 1e-6)
}
