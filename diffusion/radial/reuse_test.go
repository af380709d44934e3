package radial_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// requireSame compares two marches bit for bit.
func requireSame(t *testing.T, want, got *radial.March, message ...any) {
	t.Helper()
	require.Equal(t, want.C, got.C, message...)
	require.Equal(t, want.Lost, got.Lost, message...)
	require.Equal(t, want.Time, got.Time, message...)
	require.Equal(t, want.Stats, got.Stats, message...)
}

// One march that goes from grid to grid and problem to problem
// gives the same bits as a new one each time.
func TestReuse(t *testing.T) {
	kept := &radial.March{}
	for _, nodes := range []int{20, 12, 30, radial.MinNodes, 20, 31} {
		g := newGrid(t, nodes, 3)
		for name, p := range balances() {
			s := rosenbrock.Settings{Tolerance: 1e-2}
			kept.Start(g, 0.7)
			fresh := started(g, 0.7)
			for range 2 {
				through(t, kept, p, 0.2, s)
				through(t, fresh, p, 0.2, s)
			}
			requireSame(t, fresh, kept, "%s, %d nodes", name, nodes)
		}
	}
}

// After the first march on the largest grid nothing is allocated any more.
func TestNoAllocation(t *testing.T) {
	problems := balances()
	for _, p := range smoothProblems(t) {
		problems[p.name] = p.problem
	}
	large, small := newGrid(t, 40, 4), newGrid(t, 20, 4)
	m := started(large, 0.7)
	steps := 0
	m.Observe = func(float64, []float64) { steps++ }
	for name, p := range problems {
		s := rosenbrock.Settings{Tolerance: 1e-3}
		allocations := testing.AllocsPerRun(5, func() {
			for _, g := range [2]*radial.Grid{large, small} {
				m.Start(g, 0.7)
				if m.Advance(p, 0.1, s) != nil {
					t.Errorf("%s: stalled", name)
				}
			}
		})
		require.Zero(t, allocations, name)
	}
	require.Greater(t, steps, 1000)
}

// Marching on is marching in one: the same solution within the tolerance, and the
// time adds up.
func TestInParts(t *testing.T) {
	mode, err := exact.FirstMode(3)
	require.NoError(t, err)
	g := newGrid(t, 40, 3)
	m := started(g, 0)
	for i := range m.C {
		m.C[i] = mode.At(g.Node(i), 0)
	}
	for range 7 {
		through(t, m, stepChange(3), 0.05, tight)
	}
	requireDelta(t, 0.35, m.Time, 1e-15)
	requireDelta(t, mode.Mean(0.35), g.Mean(m.C), 1e-7)
	requireDelta(t, (mode.Mean(0)-mode.Mean(0.35))/2, m.Lost, 1e-7)
}

// Nodes rise to the surface, the outermost spacing is as documented, and the mean
// radius of a gap lies in it.
func TestGridNodes(t *testing.T) {
	for _, stretch := range []float64{0, 2.5, 6, radial.MaxStretch} {
		for _, nodes := range []int{radial.MinNodes, 60, radial.MaxNodes} {
			g, err := radial.NewGrid(0.875e-3, nodes, stretch)
			require.NoError(t, err)
			require.Equal(t, nodes, g.Len())
			require.Equal(t, 0.875e-3, g.Radius())
			require.Equal(t, g.Radius(), g.Node(nodes-1))
			require.Positive(t, g.Node(0))
			for i := range nodes - 1 {
				require.Less(t, g.Node(i), g.Gap(i))
				require.Less(t, g.Gap(i), g.Node(i+1))
			}
			require.Equal(t, g.Node(nodes-1)-g.Node(nodes-2), g.Spacing())
		}
	}
}
