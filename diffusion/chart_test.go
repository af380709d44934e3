package diffusion

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A value is that at its deviate, from end to end; the middle of the range, by its logarithm, is the median, and beyond the ends there is nothing.
func TestVariedThereAndBack(t *testing.T) {
	v := Varied{From: 2, To: 800}
	for _, value := range []float64{2, 2.1, 40, 333, 800} {
		require.InEpsilon(t, value, v.value(v.deviate(value)), 1e-9)
	}
	require.InDelta(t, 0, v.deviate(40), 1e-12)
	require.InEpsilon(t, 800, v.value(9), 1e-12)
	require.InEpsilon(t, 2, v.value(-9), 1e-12)
}
