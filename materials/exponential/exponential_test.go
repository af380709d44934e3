package exponential_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/exponential"
)

// Against the standard library, over all that a number can hold.
func TestAgainstTheStandardLibrary(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	worst := 0.0
	check := func(x float64) {
		got, want := exponential.Of(x), math.Exp(x)
		off := math.Abs(got/want - 1)
		require.False(t, math.IsNaN(off), "%g", x)
		worst = max(worst, off)
	}
	for range 200_000 {
		check(1400 * (random.Float64() - 0.5))
		check(10 * (random.Float64() - 0.5))
	}
	for i := range 64 { // the ends of the pieces
		edge := (float64(i) - 32.5) * math.Ln2 / 32
		check(edge)
		check(math.Nextafter(edge, 1))
	}
	t.Logf("off by %.1e at most", worst)
	require.Less(t, worst, 4e-12)
}

// Where there is nothing to compute the value is exact, and what the table cannot hold is that of the standard library.
func TestEnds(t *testing.T) {
	require.Equal(t, 1.0, exponential.Of(0))
	for _, x := range []float64{-701, -740, -800, 701, 709, 800, math.Inf(1), math.Inf(-1)} {
		require.Equal(t, math.Exp(x), exponential.Of(x), "%g", x)
	}
	require.True(t, math.IsNaN(exponential.Of(math.NaN())))
}
