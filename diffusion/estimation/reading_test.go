package estimation

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The probabilities of all that a display may show are one in sum, for a noise much finer and much coarser than its step, and each is that of the normal distribution.
func TestReadingSums(t *testing.T) {
	for _, noise := range []float64{0.05, 0.3, 1, 40, 600} {
		sum := 0.0
		for shown := -4000; shown <= 4000; shown++ {
			sum += math.Exp(Reading{Value: float64(shown), Resolution: 1}.logProbability(0.37, noise))
		}
		require.InDelta(t, 1, sum, 1e-6, "%g", noise)
		require.False(t, math.IsNaN(sum))
	}
	phi := func(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
	for _, off := range []float64{-2.2, 0, 0.4, 3} {
		want := math.Log(phi((off+0.5)/0.7) - phi((off-0.5)/0.7))
		require.InDelta(t, want, Reading{Value: 5 + off, Resolution: 1}.logProbability(5, 0.7), 1e-9)
	}
	require.InDelta(t, -2-math.Log(0.5*math.Sqrt(2*math.Pi)), Reading{Value: 6}.logProbability(5, 0.5), 1e-12)
}

// Far out the tail goes on without a jump, and a little step is a density times its width.
func TestReadingFar(t *testing.T) {
	for _, width := range []float64{0.01, 1, 5} {
		near, far := logBetween(25-1e-9, 25+width), logBetween(25+1e-9, 25+width)
		require.InDelta(t, near, far, 3e-3, "%g", width)
		require.Less(t, logBetween(30, 30+width), logBetween(29, 29+width))
	}
	require.False(t, math.IsInf(logBetween(1e4, 1e4+1), 0))
	const noise = 1.0
	fine, finer := Reading{Value: 1, Resolution: 2.001e-3}, Reading{Value: 1, Resolution: 1.999e-3}
	require.InDelta(t, fine.logProbability(0, noise)-math.Log(2.001), finer.logProbability(0, noise)-math.Log(1.999), 1e-6)
}
