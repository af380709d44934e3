package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

func TestGridRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		radius  float64
		nodes   int
		stretch float64
		says    string
	}{
		{0, 20, 3, "radius 0"}, {-1e-3, 20, 3, "radius -0.001"}, {nan, 20, 3, "radius NaN"}, {inf, 20, 3, "radius +Inf"},
		{1, 0, 3, "0 nodes: allowed 6 to 4096"}, {1, -5, 3, "-5 nodes"},
		{1, radial.MinNodes - 1, 3, "5 nodes"}, {1, radial.MaxNodes + 1, 3, "4097 nodes"},
		{1, 20, -0.1, "stretch -0.1: allowed 0 to 20"}, {1, 20, 20.1, "stretch 20.1"}, {1, 20, nan, "stretch NaN"}, {1, 20, inf, "stretch +Inf"},
	} {
		g, err := radial.NewGrid(c.radius, c.nodes, c.stretch)
		require.ErrorContains(t, err, c.says)
		require.Nil(t, g)
	}
}

func TestAdvanceRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		duration float64
		s        rosenbrock.Settings
		says     string
	}{
		{-1, usual, "duration -1 s"}, {nan, usual, "duration NaN s"}, {inf, usual, "duration +Inf s"},
		{1, rosenbrock.Settings{}, "tolerance 0: must be positive"},
		{1, rosenbrock.Settings{Tolerance: -1e-3}, "tolerance -0.001"},
		{1, rosenbrock.Settings{Tolerance: nan}, "tolerance NaN"},
		{1, rosenbrock.Settings{Tolerance: inf}, "tolerance +Inf"},
		{0, rosenbrock.Settings{}, "tolerance 0"},
		{1, rosenbrock.Settings{Tolerance: 1e-3, Floor: nan}, "floor NaN"},
		{1, rosenbrock.Settings{Tolerance: 1e-3, Floor: -1}, "floor -1"},
		{1, rosenbrock.Settings{Steps: 3, Floor: inf}, "floor +Inf"},
	} {
		m := started(usualGrid(t, 3), 1)
		require.ErrorContains(t, m.Advance(stepChange(1), c.duration, c.s), c.says)
		require.Zero(t, m.Time)
		require.Zero(t, m.Lost)
		require.Equal(t, 1.0, surface(m))
	}
	require.ErrorContains(t, new(radial.March).Advance(stepChange(1), 1, usual), "not been started")
}

// No time passes, nothing happens; not even a jump at the surface.
func TestNoTime(t *testing.T) {
	m := started(usualGrid(t, 3), 1)
	through(t, m, stepChange(math.Inf(1)), 0, usual)
	require.Equal(t, 1.0, surface(m))
	require.Zero(t, m.Stats)
}

// What a march cannot get over it says, in bounded time, and leaves off at its last
// good step.
func TestStalled(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	flux := func(f radial.Exchange) radial.Problem {
		return radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Exponential(1), Surface: f}
	}
	source := flux(film(1, 0))
	source.Source = func(_ float64, _, s []float64) { s[3] = nan }
	conductance, potential := stepChange(1), stepChange(1)
	conductance.Conductance = radial.Uniform(nan)
	potential.Potential = radial.Exponential(1e4)
	few := usual
	few.MaxSteps = 3
	for name, c := range map[string]struct {
		p radial.Problem
		s rosenbrock.Settings
	}{
		"flux NaN":           {flux(func(_, _, _ float64) (j, dc, dq float64) { return nan, 0, 0 }), usual},
		"slope NaN":          {flux(func(_, c, _ float64) (j, dc, dq float64) { return c, nan, 0 }), usual},
		"slope on q NaN":     {flux(func(_, c, _ float64) (j, dc, dq float64) { return c, 1, nan }), usual},
		"flux Inf":           {flux(func(_, _, _ float64) (j, dc, dq float64) { return inf, 0, 0 }), usual},
		"flux huge":          {flux(func(_, _, _ float64) (j, dc, dq float64) { return -1e300, 0, 0 }), usual},
		"flux NaN, even":     {flux(func(_, _, _ float64) (j, dc, dq float64) { return nan, 0, 0 }), rosenbrock.Settings{Steps: 5}},
		"source NaN":         {source, usual},
		"conductance NaN":    {conductance, usual},
		"potential overflow": {potential, usual},
		"given NaN":          {radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: held(nan)}, usual},
		"steps run out":      {stepChange(100), few},
	} {
		m := started(usualGrid(t, 4), 1)
		require.ErrorIs(t, m.Advance(c.p, 1, c.s), rosenbrock.ErrStalled, name)
		require.Less(t, m.Time, 1.0, name)
		if name != "given NaN" {
			require.False(t, math.IsNaN(m.Grid.Mean(m.C)+m.Lost), name)
		}
		// And it is as good as new.
		m.Start(m.Grid, 1)
		through(t, m, stepChange(10), 0.1, usual)
		fresh := started(m.Grid, 1)
		through(t, fresh, stepChange(10), 0.1, usual)
		requireSame(t, fresh, m, name)
	}
}

// A flux that is no number from some moment on stops the march there.
func TestStalledOnTheWay(t *testing.T) {
	m := started(usualGrid(t, 4), 1)
	p := stepChange(1)
	p.Surface = radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
		if t > 0.25 {
			return math.NaN(), 0, 0
		}
		return c, 1, 0
	})
	require.ErrorIs(t, m.Advance(p, 1, usual), rosenbrock.ErrStalled)
	requireDelta(t, 0.25, m.Time, 1e-6)
	require.NotZero(t, m.Stats.Rejected)
}

// A step that leaves the range in which the flux is defined is taken again in
// smaller parts.
func TestRecovers(t *testing.T) {
	bad := 0
	p := stepChange(1)
	p.Surface = radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) {
		if c < 0.099 {
			bad++
		}
		return 500 * math.Log(c/0.1), 500 / c, 0 // NaN below zero
	})
	m := started(usualGrid(t, 2.5), 1)
	through(t, m, p, 3, rosenbrock.Settings{Tolerance: 1e-2})
	for _, c := range m.C {
		requireDelta(t, 0.1, c, 1e-3)
	}
	require.NotZero(t, m.Stats.Rejected)
	require.NotZero(t, bad, "the flux was never asked outside its range")
}
