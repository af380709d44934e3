package radial_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
)

// pace is a gauge that gathers the diffusivity at the surface.
func pace(t float64, c []float64) float64 { return (1 + t) * math.Exp(c[len(c)-1]) }

// One march hands over, for each of many durations, the bits that a march for that
// duration alone ends with: durations within the first step, close together, and
// after a sudden change that makes the control reject steps.
func TestAdvanceThrough(t *testing.T) {
	durations := []float64{1e-9, 1e-4, 1.0001e-4, 0.01, 0.29, 0.2999, 0.3, 0.301, 0.5, 0.5000001, 0.9}
	branch := &radial.March{}
	for name, p := range balances() {
		for _, scheme := range radial.Schemes() {
			s := radial.Settings{Scheme: scheme, Tolerance: 1e-3}
			m := &radial.March{Gauge: pace}
			m.Start(newGrid(t, 20, 4), 0.7)
			through(t, m, p, 0.05, s) // so that the time is not zero
			var alone []*radial.March
			for _, d := range durations {
				one := &radial.March{Gauge: pace}
				one.Start(m.Grid, 0.7)
				through(t, one, p, 0.05, s)
				through(t, one, p, d, s)
				alone = append(alone, one)
			}
			next := 0
			require.NoError(t, m.AdvanceThrough(p, durations, s, branch, func(i int, b *radial.March) error {
				require.Equal(t, next, i)
				next++
				requireSame(t, alone[i], b, "%s, %v, duration %g", name, scheme, durations[i])
				require.Equal(t, alone[i].Gauged, b.Gauged)
				return nil
			}))
			require.Equal(t, len(durations), next)
			requireSame(t, alone[len(alone)-1], m, "%s, %v", name, scheme)
		}
	}
}

func TestAdvanceThroughRefused(t *testing.T) {
	called := errors.New("called")
	at := func(int, *radial.March) error { return called }
	for _, c := range []struct {
		durations []float64
		s         radial.Settings
		says      string
	}{
		{[]float64{1, 1}, usual, "must rise"},
		{[]float64{2, 1}, usual, "must rise"},
		{[]float64{0, 1}, usual, "must rise from above zero"},
		{[]float64{1, math.NaN()}, usual, "duration NaN"},
		{[]float64{-1}, usual, "duration -1"},
		{[]float64{1, math.Inf(1)}, usual, "duration +Inf"},
		{[]float64{1}, radial.Settings{}, "tolerance 0"},
		{[]float64{1}, radial.Settings{Steps: 5}, "tolerance 0"}, // it needs control
		{[]float64{1}, usual, "called"},
		{[]float64{1, 2}, usual, "called"},
	} {
		m := started(usualGrid(t, 3), 1)
		require.ErrorContains(t, m.AdvanceThrough(stepChange(1), c.durations, c.s, &radial.March{}, at), c.says)
	}
	m := started(usualGrid(t, 3), 1)
	require.NoError(t, m.AdvanceThrough(stepChange(1), nil, usual, &radial.March{}, at))
	require.Zero(t, m.Time)
	require.ErrorContains(t, new(radial.March).AdvanceThrough(stepChange(1), []float64{1}, usual, m, at), "not been started")
	nan := stepChange(1)
	nan.Conductance = radial.Uniform(math.NaN())
	require.ErrorIs(t, m.AdvanceThrough(nan, []float64{0.1, 1}, usual, &radial.March{}, at), radial.ErrStalled)
}

// A gauge is gathered by trapezia: exactly where it is a straight line in time, and
// a sum over all that is marched.
func TestGauge(t *testing.T) {
	m := &radial.March{Gauge: func(t float64, _ []float64) float64 { return 3 - 2*t }}
	m.Start(usualGrid(t, 3), 1)
	through(t, m, stepChange(10), 0.4, usual)
	requireDelta(t, 3*0.4-0.4*0.4, m.Gauged, 1e-14)
	through(t, m, stepChange(3), 0.6, radial.Settings{Steps: 7})
	requireDelta(t, 3-1, m.Gauged, 1e-14)

	// The flux at the surface gathers to what has left.
	m = &radial.March{Gauge: func(_ float64, c []float64) float64 { return 2 * c[len(c)-1] }}
	m.Start(usualGrid(t, 3), 1)
	through(t, m, stepChange(2), 1, radial.Settings{Tolerance: 1e-7})
	requireDelta(t, m.Lost, m.Gauged, 1e-3*m.Lost)
}
