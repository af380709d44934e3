package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
)

// The table's origin stands in its head: series with 40 digits and the
// inversion of the Laplace transform. 1e-11: it is printed to 1e-12.
func TestStepTable(t *testing.T) {
	rows := readTable(t, "robin-cylinder.csv")
	require.Len(t, rows, 45)
	for _, row := range rows {
		Bi, Fo := row["biot"], row["fourier"]
		require.InDelta(t, row["uptake"], 1-exact.RobinMean(Bi, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		require.InDelta(t, row["centre"], exact.RobinProfile(Bi, 0, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		require.InDelta(t, row["surface"], exact.RobinProfile(Bi, 1, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		if math.IsInf(Bi, 1) {
			require.InDelta(t, row["uptake"], exact.ConstantUptake(Fo), 1e-11, "Fo %g", Fo)
			require.InDelta(t, row["centre"], exact.ConstantProfile(0, Fo), 1e-11, "Fo %g", Fo)
		}
	}
}

// Computed from Crank's eqs. 5.22 and 5.23 (independent code, 40 digits).
func TestConstantSingleValues(t *testing.T) {
	require.InDelta(t, 0.5, exact.ConstantUptake(0.0630581941915), 1e-11) // slope there is 3
	for Fo, want := range map[float64]float64{0.05: 0.835542374852, 0.1: 0.610246786515, 0.2: 0.337974334875, 0.5: 0.0595500800363} {
		require.InDelta(t, want, exact.ConstantProfile(0.5, Fo), 1e-11, "Fo %g", Fo)
	}
}
