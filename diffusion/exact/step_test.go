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
		requireDelta(t, row["uptake"], 1-exact.RobinMean(Bi, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		requireDelta(t, row["centre"], exact.RobinProfile(Bi, 0, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		requireDelta(t, row["surface"], exact.RobinProfile(Bi, 1, Fo), 1e-11, "Bi %g, Fo %g", Bi, Fo)
		if math.IsInf(Bi, 1) {
			requireDelta(t, row["uptake"], exact.ConstantUptake(Fo), 1e-11, "Fo %g", Fo)
			requireDelta(t, row["centre"], exact.ConstantProfile(0, Fo), 1e-11, "Fo %g", Fo)
		}
	}
}

// Computed from Crank's eqs. 5.22 and 5.23 (independent code, 40 digits).
func TestConstantSingleValues(t *testing.T) {
	requireDelta(t, 0.5, exact.ConstantUptake(0.0630581941915), 1e-11) // slope there is 3
	for Fo, want := range map[float64]float64{0.05: 0.835542374852, 0.1: 0.610246786515, 0.2: 0.337974334875, 0.5: 0.0595500800363} {
		requireDelta(t, want, exact.ConstantProfile(0.5, Fo), 1e-11, "Fo %g", Fo)
	}
}

// Inversion of the Laplace transform on a parabolic contour in double
// precision (independent code, about 1e-12): small Fourier numbers, where the
// series needs the most terms. x lies 2√Fo below the surface.
func TestStepAtSmallFourier(t *testing.T) {
	const within = 3e-12
	for _, row := range []struct{ Fo, Bi, uptake, inside, surface float64 }{
		{1e-8, math.Inf(1), 0.000225665833231, 0.8426850604176, 0},
		{1e-8, 1, 1.999849554444e-08, 0.9999899483704, 0.999887167083},
		{1e-8, 1e4, 0.0001111906757931, 0.9366480731796, 0.4275686152523},
		{1e-6, math.Inf(1), 0.002255758146003, 0.8425432321828, 0},
		{1e-6, 0.1, 1.999849509427e-07, 0.9999899367495, 0.9998871220618},
		{1e-6, 100, 0.0001858934866628, 0.9904770726819, 0.8964137850116},
		{1e-6, 1e4, 0.002067184267235, 0.8613474706164, 0.05609656554008},
		{1e-4, math.Inf(1), 0.02246739401682, 0.8411012007802, 0},
		{1e-4, 0.1, 1.998491477195e-05, 0.9998982387097, 0.998867599248},
		{1e-4, 1, 0.0001985004719175, 0.998987547575, 0.9887659268519},
		{1e-4, 100, 0.01110045869557, 0.9358896519183, 0.4260806778013},
		{1e-4, 1e4, 0.02227074942504, 0.843169239124, 0.005592035639257},
	} {
		x := 1 - 2*math.Sqrt(row.Fo)
		requireDelta(t, row.uptake, 1-exact.RobinMean(row.Bi, row.Fo), within, "Bi %g, Fo %g", row.Bi, row.Fo)
		requireDelta(t, row.inside, exact.RobinProfile(row.Bi, x, row.Fo), within, "Bi %g, Fo %g", row.Bi, row.Fo)
		requireDelta(t, row.surface, exact.RobinProfile(row.Bi, 1, row.Fo), within, "Bi %g, Fo %g", row.Bi, row.Fo)
	}
}

// Crank, eq. 5.25 (number from memory): the three terms of the short-time
// expansion and their error; exact values
// with 40 digits (independent code).
func TestConstantShortTime(t *testing.T) {
	for _, row := range []struct{ Fo, exact, three, error3 float64 }{
		{0.001, 0.0703588887074, 0.0703590175657, 1.2885832e-07},
		{0.005, 0.154507070289, 0.154510421781, 3.3514918e-06},
		{0.01, 0.215473938179, 0.215487770225, 1.3832045e-05},
		{0.02, 0.298563908822, 0.298621901281, 5.7992459e-05},
		{0.05, 0.452120997997, 0.452523893969, 4.0289597e-04},
	} {
		three := 4/math.SqrtPi*math.Sqrt(row.Fo) - row.Fo - math.Pow(row.Fo, 1.5)/(3*math.SqrtPi)
		got := exact.ConstantUptake(row.Fo)
		requireDelta(t, row.exact, got, 1e-11, "Fo %g", row.Fo)
		requireDelta(t, row.error3, three-got, 1e-11, "Fo %g", row.Fo)
	}
	// The change from expansion to series must not show by more than the first
	// term left out, 13 Fo³/96 = 1.4e-13 at Fo = 1e-4.
	for _, Fo := range []float64{1e-4, 1e-5} {
		below := math.Nextafter(Fo, 0)
		requireDelta(t, exact.ConstantUptake(Fo), exact.ConstantUptake(below), 3e-13)
		for _, x := range []float64{0, 0.499, 0.5, 0.9, 0.98, 0.995, 0.999} {
			requireDelta(t, exact.ConstantProfile(x, Fo), exact.ConstantProfile(x, below), 2e-11, "x %g", x)
		}
	}
	// Leading term alone, to the size of the next (Fo).
	requireRelative(t, 4/math.SqrtPi*1e-8, exact.ConstantUptake(1e-16), 1e-8)
}

// Early loss through a film, 2 Bi Fo − 8 Bi² Fo^{3/2}/(3√π) + (Bi³ − Bi²/2) Fo²,
// derived from the Laplace transform; exact values with 40 digits and relative
// errors of the expansion (independent code).
func TestRobinShortTime(t *testing.T) {
	for _, row := range []struct{ Bi, Fo, exact, off float64 }{
		{1, 0.001, 0.00195291626074, 3.6336256e-06},
		{10, 0.0001, 0.00185853287596, 2.7794420e-04},
		{10, 0.001, 0.0160451234915, 9.1748872e-03},
	} {
		b := row.Bi
		expansion := 2*b*row.Fo - 8*b*b*math.Pow(row.Fo, 1.5)/(3*math.SqrtPi) + (b*b*b-b*b/2)*row.Fo*row.Fo
		got := 1 - exact.RobinMean(b, row.Fo)
		requireDelta(t, row.exact, got, 1e-13, "Bi %g, Fo %g", b, row.Fo)
		requireDelta(t, row.off, expansion/got-1, 1e-9, "Bi %g, Fo %g", b, row.Fo)
	}
}

// −d ln(mean)/dFo at late times is ζ1²; values computed with 40 digits.
func TestLateSlope(t *testing.T) {
	for Bi, want := range map[float64]float64{math.Inf(1): 5.783185963, 1: 1.57699273, 0.1: 0.195082797} {
		slope := math.Log(exact.RobinMean(Bi, 2)/exact.RobinMean(Bi, 3)) / 1
		// The second mode, at worst exp(−2 (3.83² − 0.44²)), is below 1e-12 of the first.
		requireDelta(t, want, slope, 1e-8, "Bi %g", Bi)
	}
}

// Bi → ∞ is the surface held (difference of order 1/Bi); Bi → 0 is a lumped
// body, exp(−2 Bi Fo), flat to Bi/2.
func TestRobinLimits(t *testing.T) {
	for _, Fo := range []float64{1e-3, 0.05, 0.3, 1} {
		requireDelta(t, 1-exact.ConstantUptake(Fo), exact.RobinMean(1e8, Fo), 1e-6)
		requireDelta(t, exact.ConstantProfile(0.7, Fo), exact.RobinProfile(1e8, 0.7, Fo), 1e-6)
		requireDelta(t, 0, exact.RobinProfile(1e8, 1, Fo), 1e-6)
		require.Equal(t, exact.ConstantProfile(0.7, Fo), exact.RobinProfile(math.Inf(1), 0.7, Fo))
	}
	for _, Fo := range []float64{1, 1e3, 1e6} {
		const Bi = 1e-6
		requireDelta(t, math.Exp(-2*Bi*Fo), exact.RobinMean(Bi, Fo), Bi)
		requireDelta(t, math.Exp(-2*Bi*Fo), exact.RobinProfile(Bi, 0, Fo), Bi)
		requireDelta(t, math.Exp(-2*Bi*Fo), exact.RobinProfile(Bi, 1, Fo), Bi)
	}
}

func TestStepEndsAndRanges(t *testing.T) {
	require.Zero(t, exact.ConstantUptake(0))
	requireDelta(t, 1, exact.ConstantUptake(10), 1e-15)
	require.Equal(t, 1.0, exact.ConstantProfile(0.99, 0))
	require.Zero(t, exact.ConstantProfile(1, 0.1))
	require.Equal(t, 1.0, exact.RobinMean(2, 0))
	require.Equal(t, 1.0, exact.RobinProfile(2, 1, 0))
	nan := math.NaN()
	for name, value := range map[string]float64{
		"negative Fo":    exact.ConstantUptake(-1),
		"NaN Fo":         exact.ConstantUptake(nan),
		"x above 1":      exact.ConstantProfile(1.1, 0.1),
		"x NaN":          exact.ConstantProfile(nan, 0.1),
		"Bi 0":           exact.RobinMean(0, 0.1),
		"Fo too small":   exact.RobinMean(1, 1e-9),
		"Fo infinite":    exact.RobinMean(1, math.Inf(1)),
		"x negative":     exact.RobinProfile(1, -0.1, 0.1),
		"Bi NaN":         exact.RobinProfile(nan, 0.5, 0.1),
		"NaN Fo, film":   exact.RobinProfile(1, 0.5, nan),
		"mode, x":        exact.Mode{Root: 1}.At(2, 0),
		"mode, Fo":       exact.Mode{Root: 1}.Mean(-1),
		"reduced radius": exact.ReducedTime(0),
		"reduced hold":   exact.ReducedTime(1, exact.Hold{Duration: -1, Diffusivity: 1}),
	} {
		require.True(t, math.IsNaN(value), name)
	}
}
