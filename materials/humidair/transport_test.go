package humidair_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/humidair"
)

func TestViscosityAndConductivity(t *testing.T) {
	for _, r := range []struct{ T, viscosity, conductivity float64 }{
		// Computed (independent code) from the U.S. Standard Atmosphere, 1976
		// formulas; the first row is its printed sea-level value, 1.7894e-5 and
		// 0.02533.
		{288.15, 1.7893803e-05, 0.02532588},
		{296.15, 1.8277263e-05, 0.02595229},
		{323.15, 1.9535502e-05, 0.02803045},
		{343.15, 2.0434234e-05, 0.02953488},
		{363.15, 2.1306924e-05, 0.03101053},
		{400.00, 2.2852665e-05, 0.03365715},
	} {
		require.InEpsilon(t, r.viscosity, humidair.Viscosity(r.T), 1e-6, "%g K", r.T)
		require.InEpsilon(t, r.conductivity, humidair.Conductivity(r.T), 1e-6, "%g K", r.T)
	}
}

func TestAirAgainstHandbookTable(t *testing.T) {
	// Incropera & DeWitt, Table A.4, dry air. Its density, 1.1614 kg/m3 at 300 K,
	// is that of 1 bar, so that is the pressure here. The formulas and the table
	// differ by up to 0.8 %, and α also by the constant heat capacity (0.8 % at
	// 400 K). Pr carries all of these.
	const p = 1e5
	require.InEpsilon(t, 1.1614, humidair.Density(300, 0, p), 2e-4)
	for _, r := range []struct{ T, nu, k, alpha, prandtl float64 }{
		{300, 15.89e-6, 0.0263, 22.5e-6, 0.707},
		{350, 20.92e-6, 0.0300, 29.9e-6, 0.700},
		{400, 26.41e-6, 0.0338, 38.3e-6, 0.690},
	} {
		require.InEpsilon(t, r.nu, humidair.KinematicViscosity(r.T, 0, p), 8e-3, "%g K", r.T)
		require.InEpsilon(t, r.k, humidair.Conductivity(r.T), 8e-3, "%g K", r.T)
		require.InEpsilon(t, r.alpha, humidair.ThermalDiffusivity(r.T, 0, p), 1.6e-2, "%g K", r.T)
		require.InEpsilon(t, r.prandtl, humidair.PrandtlNumber(r.T, 0, p), 2e-2, "%g K", r.T)
	}
}

func TestVapourDiffusivity(t *testing.T) {
	const p = humidair.StandardPressure
	// Computed (independent code): Marrero & Mason 1972 as in Kreith 1999.
	for T, want := range map[float64]float64{
		293.15: 2.419089e-05, 298.15: 2.505362e-05, 319.0: 2.882013e-05, 323.15: 2.960241e-05,
		343.15: 3.352467e-05, 363.15: 3.769987e-05, 383.15: 4.212907e-05,
	} {
		require.InEpsilon(t, want, humidair.VapourDiffusivity(T, p), 1e-6, "%g K", T)
		require.InEpsilon(t, 2*want, humidair.VapourDiffusivity(T, p/2), 1e-6, "%g K", T)
	}
	// Incropera & DeWitt, Table A.8: 0.26e-4 m2/s at 298 K, two digits.
	require.InEpsilon(t, 0.26e-4, humidair.VapourDiffusivity(298, p), 0.05)
	// The two formulas cross at 450.18 K and pass into each other smoothly: neither is
	// left by more than 0.32 % between 405 and 495 K, and the slope of the logarithm
	// falls from one power to the other without a jump.
	previous := 2.072
	for T := 390.0; T < 510; T += 0.1 {
		got, h := humidair.VapourDiffusivity(T, p), 1e-4
		lower, upper := 1.87e-10*math.Pow(T, 2.072), 2.75e-9*math.Pow(T, 1.632)
		require.InEpsilon(t, min(lower, upper), got, 3.2e-3, "%g K", T)
		if math.Abs(T-450.18) > 45.1 {
			require.InEpsilon(t, min(lower, upper), got, 1e-12, "%g K", T)
		}
		power := math.Log(humidair.VapourDiffusivity(T*(1+h), p)/humidair.VapourDiffusivity(T*(1-h), p)) / math.Log((1+h)/(1-h))
		require.InDelta(t, previous, power, 0.01, "%g K", T)
		previous = power
	}
	require.InDelta(t, 1.632, previous, 1e-6)
}

func TestVapourDiffusivityUncertainty(t *testing.T) {
	// The three published formulas: 5 % apart at 20 °C, 11 % at 110 °C, and
	// crossing near 320 K, where the floor of 5 % stands.
	require.InDelta(t, 0.05, humidair.VapourDiffusivityUncertainty(293.15), 0.002)
	require.InDelta(t, 4.212907e-05/3.790550e-05-1, humidair.VapourDiffusivityUncertainty(383.15), 1e-6)
	require.Equal(t, 0.05, humidair.VapourDiffusivityUncertainty(319))
}

func TestLewisNumber(t *testing.T) {
	// 343.15 K, dry, one atmosphere, cp = 1008: 0.849617 computed; our cp is
	// 1006 J/(kg K), 0.2 % less.
	const p = humidair.StandardPressure
	lewis := func(T, pv float64) float64 {
		return humidair.ThermalDiffusivity(T, pv, p) / humidair.VapourDiffusivity(T, p)
	}
	require.InEpsilon(t, 0.849617, lewis(343.15, 0), 3e-3)
	require.InEpsilon(t, 0.849617*1008/1006, lewis(343.15, 0), 1e-5)
	// Common practice, no source: 0.82 to 0.90 from 20 °C to 110 °C.
	for c := 20.0; c <= 110; c++ {
		Le := lewis(celsius(c), 1405)
		require.Greater(t, Le, 0.82, "%g °C", c)
		require.Less(t, Le, 0.90, "%g °C", c)
	}
}

// Half steam, half air by pressure, at 100 °C: 18.015268/(18.015268 + 28.966) = 0.38346 of its mass is vapour (molar masses,
// ASHRAE Handbook of Fundamentals, 2017, ch. 1), so that a kilogram takes 0.61654·1006 + 0.38346·1860 = 1333.5 J/K.
func TestHeatCapacityOfAKilogramOfMoistAir(t *testing.T) {
	const T, p = 373.15, humidair.StandardPressure
	got := humidair.Conductivity(T) / (humidair.Density(T, p/2, p) * humidair.ThermalDiffusivity(T, p/2, p))
	require.InEpsilon(t, 1333.5, got, 1e-4)
	require.InEpsilon(t, 1333.5*humidair.Viscosity(T)/humidair.Conductivity(T), humidair.PrandtlNumber(T, p/2, p), 1e-4)
}

func TestEverythingIsFiniteAndPositive(t *testing.T) {
	const p = humidair.StandardPressure
	for T := celsius(-60); T <= celsius(350); T += 0.5 {
		pv := min(humidair.SaturationPressure(T), 0.9*p)
		for name, value := range map[string]float64{
			"saturation":   humidair.SaturationPressure(T),
			"dew point":    humidair.DewPoint(pv),
			"latent heat":  humidair.LatentHeat(T),
			"density":      humidair.Density(T, pv, p),
			"viscosity":    humidair.Viscosity(T),
			"conductivity": humidair.Conductivity(T),
			"Prandtl":      humidair.PrandtlNumber(T, pv, p),
			"uncertainty":  humidair.VapourDiffusivityUncertainty(T),
		} {
			require.Greater(t, value, 0.0, "%s at %g K", name, T)
			require.False(t, math.IsInf(value, 0), "%s at %g K", name, T)
		}
	}
}

func TestRanges(t *testing.T) {
	for _, r := range []humidair.Range{
		humidair.VapourDiffusivityRange(), humidair.HeatCapacityRange(), humidair.CalciumChlorideRange(),
	} {
		require.NotEmpty(t, r.Source)
		require.True(t, r.Holds(r.Min))
		require.True(t, r.Holds(r.Max))
		require.False(t, r.Holds(r.Max+1))
		require.False(t, r.Holds(r.Min-1))
		require.False(t, r.Holds(math.NaN()))
	}
}
