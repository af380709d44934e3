package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// A smaller tolerance takes more steps and leaves a smaller error, about in
// proportion.
func TestTolerance(t *testing.T) {
	g := newGrid(t, 60, 3)
	run := func(tolerance float64) *radial.March {
		m := started(g, 1)
		p := radial.Problem{Conductance: rising, Potential: radial.Exponential(2), Surface: film(20, 0)}
		through(t, m, p, 1, rosenbrock.Settings{Tolerance: tolerance})
		return m
	}
	best := g.Mean(run(1e-10).C)
	steps := 0
	for _, tolerance := range []float64{1e-2, 1e-3, 1e-4, 1e-5, 1e-6} {
		m := run(tolerance)
		t.Logf("tolerance %.0e: %.1e after %+v", tolerance, g.Mean(m.C)-best, m.Stats)
		requireDelta(t, best, g.Mean(m.C), tolerance)
		require.Greater(t, m.Stats.Steps, steps)
		steps = m.Stats.Steps
	}
}

// Below the floor the error is not relative to the field any more: a nearly dry
// field takes fewer steps, and the error stays within the tolerance of the floor.
func TestFloor(t *testing.T) {
	g := newGrid(t, 40, 3)
	run := func(tolerance, floor float64) *radial.March {
		m := started(g, 1e-3)
		through(t, m, stepChange(20), 1, rosenbrock.Settings{Tolerance: tolerance, Floor: floor})
		return m
	}
	best, free, floored := run(1e-10, 0), run(1e-5, 0), run(1e-5, 1)
	require.Less(t, floored.Stats.Steps, free.Stats.Steps/2)
	requireDelta(t, g.Mean(best.C), g.Mean(floored.C), 1e-5)
	// The unit of c does not matter as long as the floor goes with it.
	m := started(g, 1)
	through(t, m, stepChange(20), 1, rosenbrock.Settings{Tolerance: 1e-5, Floor: 1e3})
	require.Equal(t, floored.Stats, m.Stats)
	requireDelta(t, 1e-3*g.Mean(m.C), g.Mean(floored.C), 1e-15)
}

// A field that is zero everywhere, and has no size to be relative to, stays zero,
// and takes up from surroundings that are not.
func TestFromZero(t *testing.T) {
	s := rosenbrock.Settings{Tolerance: 1e-3}
	m := started(usualGrid(t, 3.5), 0)
	through(t, m, stepChange(5), 1, s)
	for _, c := range m.C {
		require.Zero(t, c)
	}
	require.Zero(t, m.Lost)

	m = started(usualGrid(t, 3.5), 0)
	p := stepChange(5)
	p.Surface = film(5, 1)
	through(t, m, p, 10, s)
	for _, c := range m.C {
		requireDelta(t, 1, c, 1e-3)
	}
}

// A conductance that varies along the radius is taken as constant within each gap,
// which leaves the second order: k = 1 + r² with c = 0.4 + exp(-t)(1 - 0.6 r²), made
// exact by a source.
func TestConductanceAlongRadius(t *testing.T) {
	at := func(r, t float64) float64 { return 0.4 + math.Exp(-t)*(1-0.6*r*r) }
	var before float64
	for _, nodes := range []int{20, 40, 80} {
		g := newGrid(t, nodes, 2)
		p := radial.Problem{
			Conductance: along{g}, Potential: radial.Linear{},
			Surface: radial.Prescribed(func(t float64) float64 { return at(1, t) }),
			Source: func(t float64, r, s []float64) {
				for i, r := range r {
					s[i] = math.Exp(-t) * (-1 + 0.6*r*r + 1.2*(2+4*r*r))
				}
			},
		}
		m := started(g, 0)
		for i := range m.C {
			m.C[i] = at(g.Node(i), 0)
		}
		through(t, m, p, 0.5, tight)
		var off worst
		for i, c := range m.C {
			off.add(at(g.Node(i), 0.5), c)
		}
		t.Logf("%d nodes: %.1e", nodes, off)
		if before != 0 {
			ratio := (float64(nodes) - 0.5) / (float64(nodes)/2 - 0.5)
			requireDelta(t, 2, slope(before, float64(off), ratio), 0.3, "%d nodes", nodes)
		}
		before = float64(off)
	}
}

// along is k = 1 + r² at the mean radius of each gap.
type along struct{ grid *radial.Grid }

func (a along) Conductance(_ float64, k []float64) bool {
	for i := range k {
		r := a.grid.Gap(i)
		k[i] = 1 + r*r
	}
	return false
}
