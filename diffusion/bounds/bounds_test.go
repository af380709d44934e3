package bounds_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/bounds"
)

// The ends are inside, what is beyond them is told with its unit, temperatures in °C.
func TestBounds(t *testing.T) {
	for _, x := range []float64{1, 2, 3} {
		require.NoError(t, bounds.Of("length", x, 1, 3, "m").Check())
	}
	for _, x := range []float64{math.Nextafter(1, 0), math.Nextafter(3, 4), math.NaN(), math.Inf(1), math.Inf(-1)} {
		require.Error(t, bounds.Of("length", x, 1, 3, "m").Check(), x)
	}
	fine, long := bounds.Of("width", 2, 1, 3, "m"), bounds.Of("length", 4, 1, 3, "m")
	require.NoError(t, bounds.First("box", fine, fine))
	require.EqualError(t, bounds.First("box", fine, long, bounds.Of("height", 5, 1, 3, "m")), "box: length = 4 m: must lie from 1 to 3 m")
	require.EqualError(t, bounds.Celsius("air", 173.15, 213.15, 623.15).Check(), "air = -100 °C: must lie from -60 to 350 °C")
}
