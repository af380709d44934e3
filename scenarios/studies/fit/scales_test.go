package fit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A scale that is stated stands among the others in its place.
func TestScaleSteps(t *testing.T) {
	for own, want := range map[float64][]float64{
		1e-3: {1e-3, 1e-4, 1e-5, 1e-6}, 1e-4: {1e-3, 1e-4, 1e-5, 1e-6}, 1e-5: {1e-3, 1e-4, 1e-5, 1e-6}, 1e-6: {1e-3, 1e-4, 1e-5, 1e-6},
		2e-5: {1e-3, 1e-4, 2e-5, 1e-5, 1e-6}, 1e-7: {1e-3, 1e-4, 1e-5, 1e-6, 1e-7}, 5e-3: {5e-3, 1e-3, 1e-4, 1e-5, 1e-6},
	} {
		require.InEpsilonSlice(t, want, scaleSteps(own), 1e-9, own)
	}
}
