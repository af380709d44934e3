package radial_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// firstStep is the first step that is taken.
func firstStep(t *testing.T, start float64, p radial.Problem, s rosenbrock.Settings) float64 {
	m, first := started(newGrid(t, 20, 3), start), 0.0
	m.Observe = func(time float64, _ []float64) {
		if first == 0 {
			first = time
		}
	}
	require.NoError(t, m.Advance(p, 1, s))
	return first
}

// A companion that changes fast shortens the first step: a tenth, the fourth root of the tolerance, over how fast it changes, which is by its load and
// its drift.
func TestFirstStepFollowsTheCompanion(t *testing.T) {
	s := rosenbrock.Settings{Tolerance: 1e-4}
	p := radial.Problem{Potential: radial.Linear{}, Companion: pair{0.01, 1e-4, 0, 300, 300, 1}}
	require.InEpsilon(t, 0.1/300, firstStep(t, 1, p, s), 1e-5)
	p.Companion = pair{0.01, 1e-4, 0, 1, 0, 3e6}
	require.InEpsilon(t, 0.1/300, firstStep(t, 1, p, s), 1e-2)
}
