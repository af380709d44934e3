package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
)

// Abramowitz & Stegun, Table 9.5 (table number from memory): zeros of J0 and
// J1 there, recomputed with 40 digits (independent code).
func TestJ0ZerosTable(t *testing.T) {
	zeros := exact.J0Zeros(10)
	for _, row := range []struct {
		n        int
		zero, j1 float64
	}{
		{1, 2.4048255576958, 0.519147497289},
		{2, 5.5200781102863, -0.340264806558},
		{3, 8.653727912911, 0.271452299928},
		{4, 11.791534439014, -0.232459831365},
		{5, 14.930917708488, 0.206546433078},
		{10, 30.634606468432, -0.144165977686},
	} {
		// 1e-12: the last digit printed.
		requireDelta(t, row.zero, zeros[row.n-1], 1e-12, "zero %d", row.n)
		requireDelta(t, row.j1, math.J1(zeros[row.n-1]), 1e-12, "J1 at zero %d", row.n)
	}
	require.Nil(t, exact.J0Zeros(0))
}

// Four decimals of the first root and the coefficient: Çengel, Heat Transfer,
// Table 4-2 (the same in Incropera & DeWitt, Table 5.1). The other digits:
// computed from the equation by bisection with 40 digits (independent code).
func TestRobinRootsTable(t *testing.T) {
	for _, row := range []struct {
		Bi, printedRoot, printedCoefficient float64
		roots                               [6]float64
		coefficient                         float64
	}{
		{0.01, 0.1412, 1.0025, [6]float64{0.14124476373, 3.83431487971, 7.01701192162, 10.1744510362, 13.3244424578, 16.4712371809}, 1.00249582903},
		{0.1, 0.4417, 1.0246, [6]float64{0.441681782875, 3.8577099051, 7.02982523392, 10.183292565, 13.33119511, 16.4767002709}, 1.02457935885},
		{1, 1.2558, 1.2071, [6]float64{1.25578371179, 4.0794777108, 7.15579917464, 10.2709853619, 13.3983974864, 16.5311589326}, 1.20709205839},
		{10, 2.1795, 1.5677, [6]float64{2.17949659666, 5.0332119757, 7.95688341733, 10.9363301988, 13.9580304455, 17.0098782098}, 1.5676918418},
		{100, math.NaN(), math.NaN(), [6]float64{2.38090166349, 5.46520700224, 8.5678316499, 11.6747354332, 14.7834208578, 17.8931366463}, 1.60152387406},
	} {
		roots, err := exact.RobinRoots(row.Bi, 6)
		require.NoError(t, err)
		for k, want := range row.roots {
			requireDelta(t, want, roots[k], 1e-10, "Bi %g, root %d", row.Bi, k+1) // 12 digits printed
		}
		mode, err := exact.FirstMode(row.Bi)
		require.NoError(t, err)
		requireDelta(t, row.coefficient, mode.Coefficient, 1e-11, "Bi %g", row.Bi)
		if !math.IsNaN(row.printedRoot) { // Bi = 100 was not read in the printed table
			requireDelta(t, row.printedRoot, mode.Root, 5e-5+1e-12)
			requireDelta(t, row.printedCoefficient, mode.Coefficient, 5e-5+1e-12)
		}
	}
}

// The equation itself, and the place of each root between the zeros of J1 and
// J0 (Abramowitz & Stegun, sec. 9.5), over the whole range of Bi.
func TestRobinRootsSolveTheEquation(t *testing.T) {
	zeros := exact.J0Zeros(60)
	for exponent := -6; exponent <= 8; exponent++ {
		Bi := math.Pow(10, float64(exponent))
		roots, err := exact.RobinRoots(Bi, 60)
		require.NoError(t, err)
		before := 0.0
		for k, z := range roots {
			require.Greater(t, z, before)
			require.Less(t, z, zeros[k])
			before = zeros[k]
			// Newton's correction at the root: its distance from the true one.
			j0, j1 := math.J0(z), math.J1(z)
			requireDelta(t, 0, (z*j1-Bi*j0)/(z*j0+Bi*j1), 1e-13, "Bi %g, root %d", Bi, k+1)
		}
	}
}

func TestRobinRootsLimits(t *testing.T) {
	zeros := exact.J0Zeros(20)
	// Bi → ∞: ζ = j (1 − 1/Bi + …), from the first term of the expansion at j.
	roots, err := exact.RobinRoots(1e8, 20)
	require.NoError(t, err)
	for k := range roots {
		requireDelta(t, zeros[k]*(1-1e-8), roots[k], 1e-13)
	}
	// Bi → 0: ζ1² = 2 Bi (1 − Bi/4 + Bi²/24 …), from the power series of J0 and J1.
	for _, Bi := range []float64{1e-300, 1e-12, 1e-6, 1e-4} {
		mode, err := exact.FirstMode(Bi)
		require.NoError(t, err)
		requireRelative(t, 2*Bi*(1-Bi/4), mode.Root*mode.Root, Bi*Bi+1e-14)
		requireDelta(t, 1, mode.Coefficient, Bi/4+1e-14) // C1 = 1 + Bi/4 + …
	}
	held, err := exact.RobinRoots(math.Inf(1), 20)
	require.NoError(t, err)
	require.Equal(t, zeros, held)
}

func TestRobinRootsRefuse(t *testing.T) {
	for _, Bi := range []float64{0, -1, math.NaN(), math.Inf(-1)} {
		_, err := exact.RobinRoots(Bi, 3)
		require.ErrorContains(t, err, "Biot number")
		_, err = exact.FirstMode(Bi)
		require.Error(t, err)
	}
	_, err := exact.RobinRoots(1, 0)
	require.ErrorContains(t, err, "at least 1")
}
