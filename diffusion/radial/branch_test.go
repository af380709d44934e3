package radial_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// gather adds up something of all that an instant tells.
func gather(from, to radial.Instant) float64 {
	return (to.Time - from.Time) * (math.Exp(from.Mean) + math.Exp(to.Mean) + 1e-3*(from.Rate-to.Rate)) / 2
}

// One march hands over, for each of many durations, the bits that a march for that
// duration alone ends with: durations within the first step, close together, and
// after a sudden change that makes the control reject steps.
func TestAdvanceThrough(t *testing.T) {
	durations := []float64{1e-9, 1e-4, 1.0001e-4, 0.01, 0.29, 0.2999, 0.3, 0.301, 0.5, 0.5000001, 0.9}
	branch := &radial.March{}
	for name, p := range balances() {
		s := rosenbrock.Settings{Tolerance: 1e-3}
		m := &radial.March{Along: gather}
		m.Start(newGrid(t, 20, 4), 0.7)
		through(t, m, p, 0.05, s) // so that the time is not zero
		var alone []*radial.March
		for _, d := range durations {
			one := &radial.March{Along: gather}
			one.Start(m.Grid, 0.7)
			through(t, one, p, 0.05, s)
			through(t, one, p, d, s)
			alone = append(alone, one)
		}
		next := 0
		require.NoError(t, m.AdvanceThrough(p, durations, s, branch, func(i int, b *radial.March) error {
			require.Equal(t, next, i)
			next++
			requireSame(t, alone[i], b, "%s, duration %g", name, durations[i])
			require.Equal(t, alone[i].Gathered, b.Gathered)
			return nil
		}))
		require.Equal(t, len(durations), next)
		requireSame(t, alone[len(alone)-1], m, "%s", name)
	}
}

func TestAdvanceThroughRefused(t *testing.T) {
	called := errors.New("called")
	at := func(int, *radial.March) error { return called }
	for _, c := range []struct {
		durations []float64
		s         rosenbrock.Settings
		says      string
	}{
		{[]float64{1, 1}, usual, "must rise"},
		{[]float64{2, 1}, usual, "must rise"},
		{[]float64{0, 1}, usual, "must rise from above zero"},
		{[]float64{1, math.NaN()}, usual, "duration NaN"},
		{[]float64{-1}, usual, "duration -1"},
		{[]float64{1, math.Inf(1)}, usual, "duration +Inf"},
		{[]float64{1}, rosenbrock.Settings{}, "tolerance 0"},
		{[]float64{1}, rosenbrock.Settings{Steps: 5}, "tolerance 0"}, // it needs control
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
	require.ErrorIs(t, m.AdvanceThrough(nan, []float64{0.1, 1}, usual, &radial.March{}, at), rosenbrock.ErrStalled)
}

// The mean and its rate of change are those of the march: by Simpson's rule over them the content lost comes
// back, and the content itself at half the step by the cubic through both ends.
func TestAlong(t *testing.T) {
	var before radial.Instant
	m := &radial.March{}
	m.Along = func(from, to radial.Instant) float64 {
		if before != (radial.Instant{}) {
			require.Equal(t, before, from)
		}
		before = to
		h := to.Time - from.Time
		// The cubic through both ends has the mean rate (to.Mean - from.Mean)/h; its error is of fourth order.
		requireDelta(t, to.Mean-from.Mean, h*(from.Rate+to.Rate)/2, 3e-2*math.Abs(to.Mean-from.Mean)+1e-9)
		return h * (from.Rate + to.Rate) / 2
	}
	m.Start(usualGrid(t, 3), 1)
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(3, 0)}
	through(t, m, p, 0.5, rosenbrock.Settings{Tolerance: 1e-6})
	requireDelta(t, m.Grid.Mean(m.C)-1, m.Gathered, 1e-3)
	requireDelta(t, -2*m.Lost, m.Gathered, 1e-3)
}

// A branch that has marched beside a companion takes up a march that has none.
func TestBranchLeavesItsCompanion(t *testing.T) {
	branch := &radial.March{}
	at := func(beside bool) func(int, *radial.March) error {
		return func(_ int, b *radial.March) error {
			require.Equal(t, beside, b.Beside != 0)
			return nil
		}
	}
	p := radial.Problem{Potential: radial.Linear{}, Companion: pair{1, 1, 0.2, 5, 2, 1}}
	require.NoError(t, started(usualGrid(t, 3), 1).AdvanceThrough(p, []float64{0.1, 0.2}, usual, branch, at(true)))
	require.NoError(t, started(usualGrid(t, 3), 1).AdvanceThrough(stepChange(1), []float64{0.1, 0.2}, usual, branch, at(false)))
}
