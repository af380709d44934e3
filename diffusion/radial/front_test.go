package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
)

// A front that runs into a core with a thousandth of the diffusivity does not draw the
// dry side below its start on a lumped grid, from the first step on; the balance closes, and
// the grid converges with the second order.
func TestLumpedGridKeepsTheDrySideUp(t *testing.T) {
	uptake := func(g *radial.Grid, allowed float64) float64 {
		m, s := started(g, 0), usual
		lowest := 0.0
		m.Observe = func(_ float64, c []float64) {
			for _, v := range c {
				lowest = min(lowest, v)
			}
		}
		p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Exponential(math.Log(1000)), Surface: held(1)}
		through(t, m, p, 3e-4, s)
		require.Greater(t, lowest, -allowed)
		requireDelta(t, 0, g.Content(m.C)+m.Lost, 1e-13)
		return g.Mean(m.C)
	}
	for _, stretch := range []float64{2.5, 4, 6} {
		coarse := uptake(newGrid(t, 40, stretch).Lumped(), 1e-3)
		fine := uptake(newGrid(t, 80, stretch).Lumped(), 1e-3)
		finest := uptake(newGrid(t, 320, stretch), 0.1)
		t.Logf("stretch %g: %.4f, off by %.1e and %.1e", stretch, finest, coarse-finest, fine-finest)
		requireDelta(t, finest, coarse, 5e-4)
		requireDelta(t, 4, (coarse-finest)/(fine-finest), 0.8)
	}
}
