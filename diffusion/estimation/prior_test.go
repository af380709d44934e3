package estimation_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
)

// mean is the problem of one value that is read again and again, with a noise and a step.
func mean(value, noise, step float64, count int) *estimation.Problem {
	r := rand.New(rand.NewPCG(11, 12))
	p := &estimation.Problem{Lower: []float64{-100}, Upper: []float64{100}, Predict: func(x, out []float64) error {
		for i := range out {
			out[i] = x[0]
		}
		return nil
	}}
	for range count {
		v := value + noise*r.NormFloat64()
		if step > 0 {
			v = step * math.Round(v/step)
		}
		p.Readings = append(p.Readings, estimation.Reading{Value: v, Resolution: step})
	}
	return p
}

// What is known beforehand and what is read are weighed by their variances; a prior moves the draws, and not what is the least sum of squares.
func TestPriorCounts(t *testing.T) {
	const noise, count, before = 1.0, 40, 0.2
	p := mean(5, noise, 0, count)
	e, err := p.LeastSquares([]float64{0})
	require.NoError(t, err)
	p.Prior = []estimation.Prior{{Mean: 4.5, Deviation: before}}
	again, err := p.LeastSquares([]float64{0})
	require.NoError(t, err)
	within(t, e.Parameters[0], again.Parameters[0], 1e-9)
	s, err := p.Sample(e, estimation.UsualEffort())
	require.NoError(t, err)
	read := e.Noise() / math.Sqrt(count)
	weight := before * before / (before*before + read*read)
	deviation := math.Sqrt(weight) * read
	q := s.Quantiles(func(x []float64) float64 { return x[0] }, 0.05, 0.5, 0.95)
	within(t, weight*e.Parameters[0]+(1-weight)*4.5, q[1], 0.01)
	within(t, 2*1.645*deviation, q[2]-q[0], 0.08)
	c, err := p.Covariance(e.Jacobian, e.Noise())
	require.NoError(t, err)
	within(t, deviation*deviation, c.At(0, 0), 1e-3)
}

// Where nothing is read, what is known is an even spread between the bounds, or the prior.
func TestNothingRead(t *testing.T) {
	p := mean(5, 1, 0, 9)
	p.Lower, p.Upper = append(p.Lower, 2), append(p.Upper, 8)
	e, err := p.LeastSquares([]float64{0, 5})
	require.NoError(t, err)
	require.Equal(t, 7, e.Freedom)
	c, err := p.Covariance(e.Jacobian, e.Noise())
	require.NoError(t, err)
	within(t, 6.0*6/12, c.At(1, 1), 1e-3)
	s, err := p.Sample(e, estimation.UsualEffort())
	require.NoError(t, err)
	q := s.Quantiles(func(x []float64) float64 { return x[1] }, 0.05, 0.5, 0.95)
	for i, want := range []float64{2.3, 5, 7.7} {
		require.InDelta(t, want, q[i], 0.35)
	}
}

// The noise that is drawn is that of the readings, whether they are rounded or not; where a display does nothing but round it is next to none.
func TestNoise(t *testing.T) {
	for _, c := range []struct{ noise, step, low, high float64 }{{1, 0, 0.85, 1.15}, {1, 1, 0.8, 1.2}, {1, 1e-3, 0.85, 1.15}, {0.01, 1, 0, 0.15}} {
		p := mean(5.2, c.noise, c.step, 200)
		e, err := p.LeastSquares([]float64{0})
		require.NoError(t, err)
		s, err := p.Sample(e, estimation.UsualEffort())
		require.NoError(t, err)
		draws := estimation.Posterior{}
		for _, noise := range s.Noise {
			draws.Draws = append(draws.Draws, []float64{noise})
		}
		q := draws.Quantiles(func(x []float64) float64 { return x[0] }, 0.5)
		require.Greater(t, q[0], c.low, "%v", c)
		require.Less(t, q[0], c.high, "%v", c)
		require.Greater(t, s.Effective, 1000.0)
		require.Less(t, s.Effective, 5000.0, "draws of a chain hang together")
	}
}
