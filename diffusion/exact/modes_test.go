package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion/exact"
)

// The modes of small and of large Biot numbers: their means, norms and overlaps are the integrals, and what they are inside is J0.
func TestModes(t *testing.T) {
	integral := func(f func(x float64) float64) float64 { return quad.Fixed(f, 0, 1, 200, nil, 0) }
	var before exact.Modes
	require.NoError(t, before.Find(0.3, 12))
	for _, biot := range []float64{1e-6, 0.01, 0.3, 2, 50, 1e6, math.Inf(1)} {
		var m exact.Modes
		require.NoError(t, m.Find(biot, 12))
		radii := []float64{0, 0.3, 0.7, 0.9, 0.95, 0.99, 1}
		for n, z := range m.Root {
			shape := func(x float64) float64 { return math.J0(z * x) }
			require.InDelta(t, integral(func(x float64) float64 { return 2 * x * shape(x) }), m.Mean(n), 1e-12)
			require.InDelta(t, integral(func(x float64) float64 { return x * shape(x) * shape(x) }), m.Norm(n), 1e-12)
			for k, u := range before.Root {
				require.InDelta(t, integral(func(x float64) float64 { return x * shape(x) * math.J0(u*x) }), before.Overlap(k, &m, n), 1e-10)
			}
			for i, v := range m.Inside(n, radii, nil) {
				require.False(t, math.IsNaN(v))
				require.InDelta(t, shape(radii[i])-shape(1), v, 2e-10, "mode %d of Bi %g at %g", n, biot, radii[i])
			}
		}
	}
	require.Error(t, before.Find(0, 3))
	require.Error(t, before.Find(1, 0))
}
