package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// swinging is a companion whose load changes in time by itself, x' = cos t - x, beside a sealed field.
type swinging struct{ pair }

func (swinging) Exchange(t, _, _, _ float64) radial.Response {
	return radial.Response{Load: math.Cos(t)}
}

func (swinging) Drift(_, x float64) float64 { return -x }

func (swinging) Steady(float64) bool { return false }

// idle is a companion to which nothing happens, steadily.
type idle struct{ swinging }

func (idle) Exchange(_, _, _, _ float64) radial.Response { return radial.Response{} }

func (idle) Steady(float64) bool { return true }

// What changes in time is followed to the order of the method, beside a field of nothing too: the load on a companion,
// (cos t + sin t - exp(-t))/2, and a source beside a companion that does not change, sin t.
func TestCompanionAndTime(t *testing.T) {
	loaded := radial.Problem{Potential: radial.Linear{}, Companion: swinging{pair{mix: 1}}}
	fed := radial.Problem{Potential: radial.Linear{}, Source: func(t float64, _, s []float64) {
		for i := range s {
			s[i] = math.Cos(t)
		}
	}}
	fed.Companion = idle{swinging{pair{mix: 1}}}
	off := func(p radial.Problem, steps int) float64 {
		m := started(newGrid(t, 8, 0), 0)
		through(t, m, p, 1, rosenbrock.Settings{Steps: steps})
		if p.Source != nil {
			return m.Grid.Mean(m.C) - math.Sin(1)
		}
		return m.Beside - (math.Cos(1)+math.Sin(1)-math.Exp(-1))/2
	}
	for name, p := range map[string]radial.Problem{"load": loaded, "source": fed} {
		got := math.Abs(off(p, 8))
		t.Logf("%s: off %.1e", name, got)
		require.Less(t, got, 2e-8, name)
	}
}

// exacting is a companion whose own error sets the step.
type exacting struct{ pair }

func (exacting) Scale() float64 { return 1e-6 }

// The error of the companion is weighed by its scale: a small one makes the steps serve it.
func TestScaleOfACompanion(t *testing.T) {
	p := pair{1e4, 1, 0.5, 60, 20, 30}
	run := func(c radial.Companion, s rosenbrock.Settings) *radial.March {
		m := started(usualGrid(t, 3), 1)
		through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: c}, 0.05, s)
		return m
	}
	plain, exact := run(p, rosenbrock.Settings{Tolerance: 1e-2}), run(exacting{p}, rosenbrock.Settings{Tolerance: 1e-2})
	x := run(p, rosenbrock.Settings{Steps: 1000}).Beside
	t.Logf("off %.1e after %d steps, %.1e after %d", plain.Beside-x, plain.Stats.Steps, exact.Beside-x, exact.Stats.Steps)
	require.Greater(t, exact.Stats.Steps, 2*plain.Stats.Steps)
	requireDelta(t, x, exact.Beside, 1e-7)
}

// On a cylinder of radius two, twice the flux changes the mean as much, and the load on the companion, for half of it
// each, is the same: the eigenvalues are those of radius one.
func TestCompanionOfAWideCylinder(t *testing.T) {
	p := pair{1e4, 1, 0.2, 5, 2, 1}
	wide := pair{1e4, 2, 0.4, 5, 2, 0.5}
	g, err := radial.NewGrid(2, 20, 3)
	require.NoError(t, err)
	m := started(g, 1)
	through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: wide}, 0.7, rosenbrock.Settings{Tolerance: 1e-6})
	c, x := p.after(0.7)
	requireDelta(t, c, g.Mean(m.C), 1e-4)
	requireDelta(t, x, m.Beside, 1e-4)
}

// What is gathered along the way gets the rate of the companion at both ends of a step: by the trapezium it
// gives the companion back, to the third order of the step, from the first step on.
func TestAlongACompanion(t *testing.T) {
	p := pair{1e4, 1, 0.2, 5, 2, 1}
	m := &radial.March{}
	sum, steps := 0.0, 0
	m.Along = func(from, to radial.Instant) float64 {
		by := (to.Time - from.Time) * (from.BesideRate + to.BesideRate) / 2
		requireDelta(t, to.Beside-from.Beside, by, 1e-5)
		sum += by
		steps++
		return by
	}
	m.Start(usualGrid(t, 3), 1)
	through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: p}, 0.7, rosenbrock.Settings{Steps: 200})
	_, x := p.after(0.7)
	require.Equal(t, 200, steps)
	requireDelta(t, x, sum, 1e-4)
	require.Equal(t, sum, m.Gathered)
}

// At a prescribed surface the rate is that of the step as a whole, at both of its ends: what has been lost.
func TestAlongAPrescribedSurface(t *testing.T) {
	m := &radial.March{}
	m.Along = func(from, to radial.Instant) float64 {
		h := to.Time - from.Time
		requireDelta(t, to.Mean-from.Mean, h*from.Rate, 1e-12)
		requireDelta(t, to.Mean-from.Mean, h*to.Rate, 1e-12)
		return h * from.Rate
	}
	m.Start(usualGrid(t, 3), 1)
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: radial.Prescribed(func(t float64) float64 { return 1 - t })}
	through(t, m, p, 0.3, usual)
	requireDelta(t, -2*m.Lost, m.Gathered, 1e-12)
	require.Less(t, m.Gathered, -0.05)
}
