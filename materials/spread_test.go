package materials

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is drawn at a deviate lies so many standard deviations of its logarithm from the median, by the width of its side.
func TestSpread(t *testing.T) {
	v := Value{Value: 2, Low: 0.5, High: 3}
	median, below, above := v.Spread()
	for _, deviate := range []float64{-2.3, -0.1, 0, 0.7, 3} {
		width := above
		if deviate < 0 {
			width = below
		}
		require.InDelta(t, math.Log(v.LogNormal(deviate)), median+deviate*width, 1e-12)
	}
	_, below, above = Value{Value: 2, Low: 0, High: 2}.Spread()
	require.Zero(t, below)
	require.Zero(t, above)
}
