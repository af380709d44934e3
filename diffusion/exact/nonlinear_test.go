package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion/exact"
)

// meanOf integrates 2 c x over 0 < x < 1 by Gauss-Legendre quadrature.
func meanOf(c func(x float64) float64) float64 {
	return quad.Fixed(func(x float64) float64 { return 2 * c(x) * x }, 0, 1, 60, nil, 0)
}

// Kirchhoff transform, computed by an adaptive boundary-value solver to 1e-13
// (independent code).
func TestShellTable(t *testing.T) {
	shell := exact.Shell{InnerRadius: 1, OuterRadius: 3, Inner: 1, Outer: 0, Diffusivity: 1, Exponent: 2}
	requireDelta(t, 0.8078139166476469, shell.At(1.5), 1e-12)
	requireDelta(t, 0.6056743440777701, shell.At(2), 1e-12)
	requireDelta(t, 0.36142669511105363, shell.At(2.5), 1e-12)
	require.Equal(t, 1.0, shell.At(1))
	requireDelta(t, 0, shell.At(3), 1e-15)
	linear := shell
	linear.Exponent = 0
	requireDelta(t, 1-math.Log(2)/math.Log(3), linear.At(2), 1e-15)
	shell.Exponent = 1e-9 // the limit K → 0
	requireDelta(t, linear.At(2), shell.At(2), 1e-9)
	require.True(t, math.IsNaN(shell.At(0.9)))
	require.True(t, math.IsNaN(exact.Shell{}.At(0)))
}

// Computed from the Kirchhoff transform; the mean by adaptive quadrature
// (independent code).
func TestRodTable(t *testing.T) {
	rod := exact.Rod{Radius: 1, Surface: 0.1, Source: 1.6, Diffusivity: 1, Exponent: 2}
	requireDelta(t, 0.3518958525688208, rod.At(0), 1e-13)
	requireDelta(t, 0.29980347522910167, rod.At(0.5), 1e-13)
	requireDelta(t, 0.2364787139396523, rod.Mean(), 1e-13)
	require.Equal(t, 0.1, rod.At(1))
	// D constant: a paraboloid, S a²/(4 D) high, with half of that as its mean
	// rise; sources in SI.
	linear := exact.Rod{Radius: 1e-3, Surface: 0.1, Source: 4e-6, Diffusivity: 1e-11}
	requireDelta(t, 0.2, linear.At(0), 1e-15)
	requireDelta(t, 0.15, linear.Mean(), 1e-15)
	// The two forms of the mean on either side of their change, and quadrature.
	for _, K := range []float64{1e-9, 0.9e-3, 1.1e-3, 3, -3} {
		rod := linear
		rod.Exponent = K
		requireDelta(t, meanOf(rod.At), rod.Mean(), 1e-12, "K %g", K)
	}
	sink := exact.Rod{Radius: 1, Surface: 0, Source: -3, Diffusivity: 1, Exponent: 2}
	require.True(t, math.IsNaN(sink.At(0)), "no steady state: 1 − 2·3/4 is negative")
	require.True(t, math.IsNaN(sink.Mean()))
	require.True(t, math.IsNaN(rod.At(-0.1)))
}

// Closed form of Barenblatt 1952 (from memory) with A = 0.01; the values at
// t = 16 are exact fractions.
func TestFrontTable(t *testing.T) {
	front := exact.Front{Amplitude: 0.01}
	requireDelta(t, 0.01, front.At(0, 1), 1e-17)
	requireDelta(t, 0.0025, front.At(0, 16), 1e-17)
	requireDelta(t, 0.0021484375, front.At(0.3, 16), 1e-17)
	requireDelta(t, 0.00109375, front.At(0.6, 16), 1e-17)
	requireDelta(t, 0.8, front.Position(16), 1e-15)
	require.Zero(t, front.At(0.8001, 16))
	requireDelta(t, 8e-4, front.Mean(), 1e-18)
	for _, time := range []float64{1, 4, 16} { // the amount is conserved
		edge := front.Position(time)
		amount := quad.Fixed(func(r float64) float64 { return 2 * r * front.At(r, time) }, 0, edge, 20, nil, 0)
		requireRelative(t, front.Mean(), amount, 1e-12)
	}
	require.True(t, math.IsNaN(front.At(0, 0)))
	require.True(t, math.IsNaN(front.Position(-1)))
	require.True(t, math.IsNaN(exact.Front{}.Mean()))
}

// Computed from the formulas of the type's description (independent code);
// a spectral run with this source came within 2e-11 of the mean, centre and
// surface.
func TestManufacturedTable(t *testing.T) {
	var made exact.Manufactured
	requireDelta(t, 0.2918350184034169, made.Surroundings(0), 1e-14)
	requireDelta(t, 0.37616613320118053, made.Surroundings(1), 1e-14)
	requireDelta(t, 2.513828043805394, made.Source(0.5, 0), 1e-13)
	requireDelta(t, 0.6024972188414416, made.Source(1, 1), 1e-13)
	for _, row := range []struct{ Fo, mean, centre, surface float64 }{
		{0.5, 0.6122857308994217, 0.7032653298563167, 0.5213061319425267},
		{1, 0.5287578044100049, 0.5839397205857212, 0.4735758882342885},
		{2, 0.44736734913281445, 0.4676676416183064, 0.4270670566473226},
	} {
		requireDelta(t, row.mean, made.Mean(row.Fo), 1e-14)
		requireDelta(t, row.centre, made.At(0, row.Fo), 1e-14)
		requireDelta(t, row.surface, made.At(1, row.Fo), 1e-14)
		requireDelta(t, meanOf(func(x float64) float64 { return made.At(x, row.Fo) }), made.Mean(row.Fo), 1e-13)
	}
}

// The table of the exponential diffusivity has no closed form to be compared
// with, but its late times have: in absorption D has become the ratio times D0
// and the slowest mode is left, −d ln(1 − F)/dT → ratio·j²; 1 %, since the last
// 1 % of the exchange is only nearly linear. Both directions rise with time,
// and absorption leads where D rises with c (Crank, ch. 9, from memory).
func TestExponentialDiffusivityTable(t *testing.T) {
	rows := readTable(t, "exponential-diffusivity.csv")
	require.Len(t, rows, 16)
	left := map[float64]float64{}
	for i, row := range rows {
		require.Greater(t, row["absorption"], row["desorption"])
		if i > 0 && rows[i-1]["ratio"] == row["ratio"] {
			require.Greater(t, row["desorption"], rows[i-1]["desorption"])
			require.GreaterOrEqual(t, row["absorption"], rows[i-1]["absorption"])
		}
		if row["ratio"] == 10 {
			left[row["time"]] = 1 - row["absorption"]
		}
	}
	requireRelative(t, 10*5.783185963, math.Log(left[0.1]/left[0.2])/0.1, 0.01)
}
