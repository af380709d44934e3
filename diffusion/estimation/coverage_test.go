package estimation_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
	"strandry/diffusion/samples"
)

// coverage of lines with true values of their own: the share of intervals of nine in ten that hold the slope, and the end; and the share of sets that are said at one
// in twenty to be no line.
func coverage(t *testing.T, noise, step float64, count, sets int) (slope, end, lack float64) {
	r := rand.New(rand.NewPCG(8, uint64(1000*noise)+uint64(count)))
	for range sets {
		a, b := 10*r.Float64(), 1+9*r.Float64()
		p := straight(a, b, noise, step, count, r)
		e, err := p.LeastSquares([]float64{0, 0})
		require.NoError(t, err)
		s, err := p.Sample(e, estimation.Effort{Seed: 1, Effective: 300, Most: 40_000})
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
		l, err := p.LackOfFit(e, s, estimation.Bends(count), 1)
		require.NoError(t, err)
		if l.Probability < 0.05 {
			lack += 1 / float64(sets)
		}
	}
	return slope, end, lack
}

// Nine times in ten the interval holds the truth, whatever rounds, and one time in twenty a line is called none. Where a display does nothing but round they may hold it somewhat more often, where
// noise is a third of a step somewhat less.
func TestCoverage(t *testing.T) {
	sets := samples.Of(10, 25, 600)
	const close = 3.5 // deviations of the share that chance alone gives
	spread := close * 0.3 / math.Sqrt(float64(sets))
	for _, c := range samples.Each(3, []struct {
		noise, step float64
		count       int
	}{{0.3, 0, 12}, {1, 1, 24}, {0.3, 1, 24}, {0, 1, 24}, {0.3, 0.01, 12}}) {
		slope, end, lack := coverage(t, c.noise, c.step, c.count, sets)
		t.Logf("noise %g, step %g, %d readings: slope %.3f, end %.3f, lack of fit %.3f", c.noise, c.step, c.count, slope, end, lack)
		for _, share := range []float64{slope, end} {
			require.Greater(t, share, 0.88-spread)
			require.LessOrEqual(t, share, 0.92+spread)
		}
		require.Less(t, lack, 0.05+spread)
	}
}

// Ten readings that all show the same tell no more than one: the value lies anywhere in the step.
func TestStepIsNoNoise(t *testing.T) {
	for _, count := range []int{5, 50} {
		p := &estimation.Problem{Lower: []float64{0}, Upper: []float64{10}, Predict: func(x, out []float64) error {
			for i := range out {
				out[i] = x[0]
			}
			return nil
		}}
		for range count {
			p.Readings = append(p.Readings, estimation.Reading{Value: 5, Resolution: 1})
		}
		e, err := p.LeastSquares([]float64{4})
		require.NoError(t, err)
		s, err := p.Sample(e, estimation.UsualEffort())
		require.NoError(t, err)
		q := s.Quantiles(func(x []float64) float64 { return x[0] }, 0.05, 0.95)
		require.InDelta(t, 4.55, q[0], 0.12, "a normal error would have it within a tenth of that for fifty readings")
		require.InDelta(t, 5.45, q[1], 0.12)
	}
}

// A bend beyond the noise is found, and no bend is not.
func TestLackOfFit(t *testing.T) {
	for _, bent := range []float64{0, 6} {
		p := straight(3, 2, 0.3, 0.1, 30, rand.New(rand.NewPCG(3, 4)))
		for i := range p.Readings {
			x := float64(i) / 29
			p.Readings[i].Value += bent * x * (1 - x)
		}
		e, err := p.LeastSquares([]float64{0, 0})
		require.NoError(t, err)
		s, err := p.Sample(e, estimation.UsualEffort())
		require.NoError(t, err)
		l, err := p.LackOfFit(e, s, estimation.Bends(30), 1)
		require.NoError(t, err)
		require.Equal(t, bent > 0, l.Probability < 0.01, "%v", l)
	}
}

// What is unfit is refused, with what is allowed.
func TestRefused(t *testing.T) {
	for want, change := range map[string]func(p *estimation.Problem){
		"bounds must rise":  func(p *estimation.Problem) { p.Upper[1] = -2e3 },
		"each parameter":    func(p *estimation.Problem) { p.Lower = p.Lower[:1] },
		"must be finite":    func(p *estimation.Problem) { p.Readings[2].Value = math.NaN() },
		"too few readings":  func(p *estimation.Problem) { p.Readings = p.Readings[:3] },
		"shown in steps of": func(p *estimation.Problem) { p.Readings[0].Resolution = -1 },
		"no such march": func(p *estimation.Problem) {
			p.Predict = func(_, _ []float64) error { return errors.New("no such march") }
		},
	} {
		p := straight(3, 2, 0.3, 0.1, 9, rand.New(rand.NewPCG(3, 4)))
		change(p)
		_, err := p.LeastSquares([]float64{0, 0})
		require.ErrorContains(t, err, want)
	}
}
