package rosenbrock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/rosenbrock"
)

// The first step by hand, at a tolerance of 1e-4, whose fourth root is a tenth: the shortest of what holds.
func TestFirstStepByHand(t *testing.T) {
	s := rosenbrock.Settings{Tolerance: 1e-4}
	for name, c := range map[string]struct {
		b    rosenbrock.Beginning
		want float64
	}{
		"all of it":                  {rosenbrock.Beginning{Crossing: 9}, 5},
		"the outermost gap":          {rosenbrock.Beginning{Crossing: 2}, 2},
		"what changes":               {rosenbrock.Beginning{Crossing: 2, Changes: 0.25}, 0.4},
		"a front too small to count": {rosenbrock.Beginning{Crossing: 2, Front: 0.0016, Answer: 1}, 2},
		"a front":                    {rosenbrock.Beginning{Crossing: 2, Front: 0.0017, Answer: 1}, 0.3},
	} {
		require.InDelta(t, c.want, c.b.Step(s, 5), 1e-12, name)
	}
}

// A front is what has changed over the outermost gap beside the field, and what the surroundings ask for changes against what is there.
func TestBeginningAtTheSurface(t *testing.T) {
	b := rosenbrock.Beginning{Changes: 1}
	b.Surface(-3, -8, 0.5, 4, 0.02) // 3 × √0.04 = 0.6 beside 4
	require.InDelta(t, 0.6/math.Hypot(0.6, 4), b.Front, 1e-12)
	require.InDelta(t, 1+8.0/7, b.Changes, 1e-12)
	b = rosenbrock.Beginning{}
	b.Surface(0, 2, 0, 0, 0.02)
	require.Equal(t, rosenbrock.Beginning{Front: 1}, b, "all that there will be comes from the surface")
	b = rosenbrock.Beginning{}
	b.Surface(0, 0, 0, 0, 0.02)
	require.Equal(t, rosenbrock.Beginning{}, b)
	require.InDelta(t, math.Sqrt(5), rosenbrock.Size([]float64{1, 3}, []float64{2, 2}, 4, 0), 1e-12)
	require.InDelta(t, 7, rosenbrock.Size([]float64{1, 3}, []float64{2, 2}, 4, 7), 0)
}
