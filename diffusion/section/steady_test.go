package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// The steady flux from a core through n held arcs: a unit per radian brings the core to ln(R/r) plus the resistance that the
// covers add, (2/n) ln sec(π covered/2), exactly (conformal mapping; Philip, ZAMP 23 (1972) 353, from memory). Two arcs, and
// others. The steady field is held by the basis, so that the error falls by orders with each few angles.
func TestSteadyFlux(t *testing.T) {
	r, err := radial.NewGrid(1, 15, 3)
	require.NoError(t, err)
	for _, arcs := range []int{1, 2, 5} {
		for _, exposed := range []float64{0.1, 0.25, 0.5, 0.9} {
			added := 2 / float64(arcs) * math.Log(1/math.Cos(math.Pi*(1-exposed)/2))
			for angles, delta := range map[int]float64{CoarseAngles: 0.03, UsualAngles: 3e-3, RefinedAngles: 6e-4} {
				g, err := NewGrid(r, Shape{Exposed: exposed, Arcs: arcs}, angles)
				require.NoError(t, err)
				m := &March{}
				m.Start(g, 0)
				held := radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return 1e10 * c, 1e10, 0 })
				m.bind(radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: held}, rosenbrock.Settings{})
				m.evaluateStart()
				require.True(t, m.assemble(0)) // no storage: the steady problem
				clear(m.rhs)
				copy(m.rhs, g.share)
				m.matrix.solve(m.rhs)
				got := g.Round(m.rhs, 0) + math.Log(r.Node(0))
				t.Logf("%d arcs, %g exposed, %d angles: %.6f of %.6f", arcs, exposed, angles, got, added)
				require.False(t, math.IsNaN(got))
				require.InDelta(t, 1, got/added, delta, "%d arcs, %g exposed, %d angles", arcs, exposed, angles)
			}
		}
	}
}
