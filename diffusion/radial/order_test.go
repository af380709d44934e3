package radial_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// slope is the order between two errors at two spacings or steps, the coarse ratio
// times the fine.
func slope(coarse, fine, ratio float64) float64 { return math.Log(coarse/fine) / math.Log(ratio) }

// A compact scheme of fourth order has to show it in the content, at the surface
// and in every node, on even and on graded grids, with either surface condition.
func TestOrderInSpace(t *testing.T) {
	exactInTime := rosenbrock.Settings{Tolerance: 1e-10}
	var table strings.Builder
	fmt.Fprintf(&table, "%-14s %7s %5s  %7s %5s  %7s %5s  %7s %5s\n", "problem", "stretch", "nodes", "mean", "order",
		"surface", "order", "field", "order")
	for _, p := range smoothProblems(t) {
		for _, stretch := range []float64{0, 3.5} {
			nodes := 10 + int(3*stretch)
			before := p.follow(t, newGrid(t, nodes, stretch), exactInTime)
			for range 2 {
				nodes *= 2
				now := p.follow(t, newGrid(t, nodes, stretch), exactInTime)
				// The spacing goes with 1/(nodes - 1/2).
				ratio := (float64(nodes) - 0.5) / (float64(nodes/2) - 0.5)
				mean, field := slope(before.mean, now.mean, ratio), slope(before.field, now.field, ratio)
				where := fmt.Sprintf("%s, stretch %g, %d nodes", p.name, stretch, nodes)
				requireDelta(t, 4, mean, 0.3, where)
				requireDelta(t, 4, field, 0.3, where)
				skin := math.NaN()
				if _, given := p.problem.Surface.(radial.Prescribed); given {
					requireDelta(t, 0, now.surface, 1e-15, where)
				} else {
					skin = slope(before.surface, now.surface, ratio)
					requireDelta(t, 4, skin, 0.3, where)
				}
				fmt.Fprintf(&table, "%-14s %7.1f %5d  %7.1e %5.2f  %7.1e %5.2f  %7.1e %5.2f\n",
					p.name, stretch, nodes, now.mean, mean, now.surface, skin, now.field, field)
				before = now
			}
		}
	}
	t.Log("\n" + table.String())
}

// inSteps gives the mean and the field after even steps.
func (p smooth) inSteps(t *testing.T, g *radial.Grid, steps int) []float64 {
	t.Helper()
	m := started(g, 0)
	for i := range m.C {
		m.C[i] = p.at(g.Node(i), 0)
	}
	through(t, m, p.problem, p.until, rosenbrock.Settings{Steps: steps})
	require.Equal(t, steps, m.Stats.Steps)
	return append([]float64{g.Mean(m.C)}, m.C...)
}

// timeOrders marches with doubled numbers of steps and gives the orders seen in the
// mean and in the worst node, against many steps on the same grid.
func (p smooth) timeOrders(t *testing.T, g *radial.Grid, steps, doublings int) (mean, field []float64) {
	t.Helper()
	best := p.inSteps(t, g, steps<<(doublings+2))
	var meanBefore, fieldBefore float64
	for k := 0; k <= doublings; k++ {
		now := p.inSteps(t, g, steps<<k)
		meanNow, fieldNow := math.Abs(now[0]-best[0]), 0.0
		for i := range now[1:] {
			fieldNow = math.Max(fieldNow, math.Abs(now[i+1]-best[i+1]))
		}
		if k > 0 {
			mean = append(mean, slope(meanBefore, meanNow, 2))
			field = append(field, slope(fieldBefore, fieldNow, 2))
		}
		t.Logf("%-14s order %d, %2d nodes, %3d steps: mean %.1e field %.1e", p.name, rosenbrock.Order, g.Len(), steps<<k, meanNow, fieldNow)
		meanBefore, fieldBefore = meanNow, fieldNow
	}
	t.Logf("%-14s order %d, %2d nodes: orders of mean %.2f, of field %.2f", p.name, rosenbrock.Order, g.Len(), mean, field)
	return mean, field
}

// Where the surroundings do not change, the method keeps its order however fine
// the grid.
func TestOrderInTimeOfTheMode(t *testing.T) {
	g := newGrid(t, 40, 2.5)
	for _, p := range smoothProblems(t)[:2] {
		mean, field := p.timeOrders(t, g, 4, 3)
		for k := range mean {
			requireDelta(t, rosenbrock.Order, mean[k], 0.3, "%s", p.name)
			requireDelta(t, rosenbrock.Order, field[k], 0.3, "%s", p.name)
		}
	}
}

// lively has everything that can vary: conductance, source and surface in time,
// diffusivity with c, a flux that is not linear and answers to what has left. It is
// slow in space beside its own frequencies, so that a coarse grid is not stiff.
func lively() radial.Problem {
	return radial.Problem{
		Conductance: inTime(func(t float64) float64 { return 0.02 * (1 + 0.5*math.Sin(6*t)) }),
		Potential:   radial.Exponential(1.2),
		Surface: radial.Exchange(func(t, c, q float64) (j, dc, dq float64) {
			return 0.3 * (c*c - 0.5 - 0.4*math.Sin(5*t) - 2*q), 0.6 * c, -0.6
		}),
		Source: func(t float64, r, s []float64) {
			for i := range r {
				s[i] = r[i] * math.Cos(4*t)
			}
		},
	}
}

// With all of that, every order condition of the method counts, those for problems
// that depend on time among them.
func TestOrderInTimeNotStiff(t *testing.T) {
	g := newGrid(t, radial.MinNodes, 0)
	given := lively()
	given.Surface = radial.Prescribed(func(t float64) float64 { return 1 + 0.4*math.Sin(5*t) })
	start := func(float64, float64) float64 { return 1 }
	for _, p := range []smooth{
		{name: "lively, film", problem: lively(), at: start, until: 2},
		{name: "lively, given", problem: given, at: start, until: 2},
	} {
		mean, field := p.timeOrders(t, g, 40, 2)
		for k := range mean {
			require.Greater(t, mean[k], rosenbrock.Order-0.3, "%s", p.name)
			requireDelta(t, rosenbrock.Order, field[k], 0.3, "%s", p.name)
		}
	}
}

// On a fine grid the same problem is stiff, and the order falls, as it does for any
// Rosenbrock method of stage order one: Hairer & Wanner, Solving Ordinary
// Differential Equations II (1996), section IV.15, and Ostermann & Roche, SIAM J.
// Numer. Anal. 30 (1993) 1084 (from memory). Two is what is left at the worst node.
func TestOrderInTimeStiff(t *testing.T) {
	g := newGrid(t, 40, 2.5)
	for _, p := range smoothProblems(t)[2:] {
		_, field := p.timeOrders(t, g, 16, 2)
		for k := range field {
			require.Greater(t, field[k], 2-0.3, "%s", p.name)
		}
	}
}
