package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
)

// Numerical inversion of the Laplace transform (independent code, about 1e-12;
// the means at Fo 0.05 to 1 also with 40 digits).
func TestRampTable(t *testing.T) {
	for _, row := range []struct{ Fo, mean, centre, half, outer float64 }{
		{1e-4, 1.499497991594e-06, 0, 0, 5.915e-18},
		{0.05, 0.0155223909719, 9.58459780443e-05, 0.002661329218818, 0.03101639049965},
		{0.2, 0.112628482571, 0.0370511019897, 0.07088420184952, 0.1638655734944},
		{1, 0.875368230642, 0.750852869813, 0.8130713628512, 0.9526111066586},
	} {
		requireDelta(t, row.mean, exact.RampMean(row.Fo), 2e-12, "Fo %g", row.Fo)
		requireDelta(t, row.centre, exact.RampProfile(0, row.Fo), 2e-12, "Fo %g", row.Fo)
		requireDelta(t, row.half, exact.RampProfile(0.5, row.Fo), 2e-12, "Fo %g", row.Fo)
		requireDelta(t, row.outer, exact.RampProfile(0.9, row.Fo), 2e-12, "Fo %g", row.Fo)
		requireDelta(t, row.Fo, exact.RampProfile(1, row.Fo), 1e-14, "Fo %g", row.Fo)
	}
	// Late: the mean lags the surface by a²/(8 D).
	requireDelta(t, 5-1.0/8, exact.RampMean(5), 1e-12)
	require.Zero(t, exact.RampMean(0))
	require.Zero(t, exact.RampProfile(0.3, 0))
}

// As TestRampTable; b = 20 and 1000 lie beyond the first and tenth zero of J0.
func TestApproachTable(t *testing.T) {
	for _, row := range []struct{ b, Fo, mean, centre, half, outer float64 }{
		{1, 0.05, 0.0152119735832, 9.527625723359e-05, 0.002631742942626, 0.03037008126087},
		{1, 0.2, 0.103820743412, 0.0353045178757, 0.06646305552231, 0.1497211389019},
		{1, 1, 0.577324323749, 0.5202672532545, 0.5495083896644, 0.6119060266615},
		{3, 1e-4, 4.497953901034e-06, 0, 0, 0},
		{3, 0.05, 0.0438515557547, 0.0002824614604078, 0.007722237666295, 0.08739693723976},
		{3, 0.2, 0.266835918358, 0.0965050482949, 0.1762811937771, 0.3783299395866},
		{3, 1, 0.914507616933, 0.8741043732999, 0.8958223373802, 0.9378725448829},
		{20, 0.2, 0.6889112881468, 0.3425820121149, 0.5309498820441, 0.886361722169},
		{20, 1, 0.9970041857203, 0.9930613142496, 0.9953515644122, 0.9990960671798},
		{1000, 1e-4, 0.00144116247201, 0, 0, 0},
		{1000, 0.05, 0.4481020864132, 0.01169560983715, 0.1591479576355, 0.7928777493539},
		{1000, 1, 0.9978580665231, 0.995039004912, 0.9966764818555, 0.9993537119277},
	} {
		requireDelta(t, row.mean, exact.ApproachMean(row.b, row.Fo), 3e-12, "b %g, Fo %g", row.b, row.Fo)
		requireDelta(t, row.centre, exact.ApproachProfile(row.b, 0, row.Fo), 3e-12, "b %g, Fo %g", row.b, row.Fo)
		requireDelta(t, row.half, exact.ApproachProfile(row.b, 0.5, row.Fo), 3e-12, "b %g, Fo %g", row.b, row.Fo)
		requireDelta(t, row.outer, exact.ApproachProfile(row.b, 0.9, row.Fo), 3e-12, "b %g, Fo %g", row.b, row.Fo)
		requireDelta(t, -math.Expm1(-row.b*row.Fo), exact.ApproachProfile(row.b, 1, row.Fo), 1e-14)
	}
}

// A slow approach is a ramp of slope b to first order, a fast one a step; next
// to the square of a zero of J0 the value stays on a smooth curve.
func TestApproachLimits(t *testing.T) {
	requireRelative(t, exact.RampMean(0.2), exact.ApproachMean(1e-5, 0.2)/1e-5, 1e-5)
	requireDelta(t, exact.ConstantUptake(0.2), exact.ApproachMean(1e7, 0.2), 1e-6)
	square := 2.404825557695773 * 2.404825557695773
	require.True(t, math.IsNaN(exact.ApproachMean(square, 0.2)))
	require.True(t, math.IsNaN(exact.ApproachProfile(square, 0.5, 0.2)))
	pair := func(off float64) float64 {
		return (exact.ApproachMean(square*(1-off), 0.2) + exact.ApproachMean(square*(1+off), 0.2)) / 2
	}
	// The curvature is taken out by the pairs at 2 and 4 %; the fourth power of
	// the distance that is left is some 1e-8.
	requireDelta(t, (4*pair(0.02)-pair(0.04))/3, (4*pair(0.003)-pair(0.006))/3, 1e-7)
	require.Zero(t, exact.ApproachMean(3, 0))
	for name, value := range map[string]float64{
		"ramp Fo":      exact.RampMean(-1),
		"ramp x":       exact.RampProfile(2, 0.1),
		"ramp tiny Fo": exact.RampProfile(0.5, 1e-12),
		"b 0":          exact.ApproachMean(0, 0.1),
		"b negative":   exact.ApproachProfile(-1, 0.5, 0.1),
		"approach x":   exact.ApproachProfile(1, 1.5, 0.1),
		"approach Fo":  exact.ApproachMean(1, math.NaN()),
	} {
		require.True(t, math.IsNaN(value), name)
	}
}

// Three temperatures, surface held: D = 2e-12 exp[−(50 000/R)(1/T − 1/298.15)]
// m²/s, a = 0.875 mm. Computed with 40 digits from Crank's eqs. 5.22 and 5.23
// at the reduced time (independent code).
func TestReducedTime(t *testing.T) {
	const a = 0.875e-3
	D := func(celsius float64) float64 {
		return 2e-12 * math.Exp(-50000/8.31446261815324*(1/(celsius+273.15)-1/298.15))
	}
	holds := []exact.Hold{{600, D(50)}, {1200, D(80)}, {900, D(65)}}
	require.Zero(t, exact.ReducedTime(a))
	for i, row := range []struct{ Fo, mean, centre float64 }{
		{0.007461732457256075, 0.81264877409, 1},
		{0.0799769085174244, 0.447144685689, 0.917788371778},
		{0.10552968496652243, 0.380990032142, 0.827758878993},
	} {
		Fo := exact.ReducedTime(a, holds[:i+1]...)
		requireRelative(t, row.Fo, Fo, 1e-12)
		requireDelta(t, row.mean, 1-exact.ConstantUptake(Fo), 1e-11)
		requireDelta(t, row.centre, exact.ConstantProfile(0, Fo), 1e-11)
	}
}
