package humidair_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/humidair"
)

func TestRoomAirAndItsHeating(t *testing.T) {
	// Room air at 23 °C and 50 %, computed (independent code) with IAPWS
	// R7-97(2012): vapour pressure, humidity ratio, dew point, vapour density.
	T := celsius(23)
	pv := humidair.VapourPressureAt(0.5, T)
	require.InEpsilon(t, 1405.462, pv, 1e-6)
	require.InEpsilon(t, 0.00874824, humidair.HumidityRatio(pv, humidair.StandardPressure), 1e-6)
	// 12.0285 °C; the other two saturation formulas give 12.0295 and 12.0284.
	require.InDelta(t, celsius(12.0285), humidair.DewPoint(pv), 1e-3)
	require.InEpsilon(t, 0.01028284, humidair.VapourDensity(pv, T), 1e-6)

	// The same air heated; 0.1 % covers the choice of saturation formula.
	for c, want := range map[float64]float64{
		40: 0.1903278, 50: 0.1137909, 60: 0.0704640, 70: 0.0450459,
		80: 0.0296419, 90: 0.0200259, 100: 0.0138581, 110: 0.0098026,
	} {
		require.InEpsilon(t, want, humidair.RelativeHumidity(pv, celsius(c)), 1e-3, "%g °C", c)
		require.InEpsilon(t, want, humidair.RelativeHumidity(humidair.VapourPressureAt(0.5, T), celsius(c)), 1e-3, "%g °C", c)
	}
	// At 45 °C: 1405.5 Pa over 9.59 kPa of the steam tables, three digits.
	require.InEpsilon(t, 1405.5/9590, humidair.RelativeHumidity(humidair.VapourPressureAt(0.5, T), celsius(45)), 1e-3)
}

func TestSaturationHumidityRatio(t *testing.T) {
	rows := []struct{ t, ideal, table, doubt float64 }{
		// ideal: computed with R7-97, 0.621945 p/(P-p). table: ASHRAE 2017, ch.
		// 1, Table 2, real gas; the enhancement factor left out grows with t.
		{5, 0.00540249348, 0.005425, 5e-3},
		{25, 0.02008459196, 0.020173, 5e-3},
		{50, 0.08633796658, 0.086863, 1e-2},
		{85, 0.82817320011, 0.838105, 2e-2},
	}
	for _, r := range rows {
		got := humidair.HumidityRatio(humidair.SaturationPressure(celsius(r.t)), humidair.StandardPressure)
		require.InEpsilon(t, r.ideal, got, 1e-9, "%g °C", r.t)
		require.InEpsilon(t, r.table, got, r.doubt, "%g °C", r.t)
	}
}

func TestAdiabaticSaturation(t *testing.T) {
	// ASHRAE Handbook of Fundamentals, 2017, ch. 1, Example 1: 40 °C, wet bulb
	// 20 °C. Printed from the chart: W 0.0065, 14 %, dew point 7 °C, h 56.7
	// kJ/kg, v 0.896 m3/kg; computed from the equations 0.0064008, 13.9795 %,
	// 7.4336 °C, 56.7246, 0.896248.
	const p = humidair.StandardPressure
	const waterHeat = 4186.0 // [J/(kg K)] of liquid water, same chapter
	wet, dry := celsius(20), celsius(40)
	ws := humidair.HumidityRatio(humidair.SaturationPressure(wet), p)
	// The balance h(t, W) + (Ws - W) hw = h(t*, Ws) is linear in W.
	atZero := humidair.Enthalpy(dry, 0) + ws*waterHeat*20
	perRatio := humidair.Enthalpy(dry, 1) - humidair.Enthalpy(dry, 0) - waterHeat*20
	w := (humidair.Enthalpy(wet, ws) - atZero) / perRatio
	pv := p * w / (humidair.MassRatio + w) // W backwards

	require.InEpsilon(t, 0.0064008, w, 1e-3)
	require.InDelta(t, 0.0065, w, 1e-4)
	require.InEpsilon(t, 0.139795, humidair.RelativeHumidity(pv, dry), 1e-3)
	require.InDelta(t, celsius(7.4336), humidair.DewPoint(pv), 0.02)
	require.InDelta(t, celsius(7), humidair.DewPoint(pv), 0.5)
	require.InEpsilon(t, 56724.6, humidair.Enthalpy(dry, w), 1e-3)
	require.InDelta(t, 0.896248, (1+w)/humidair.Density(dry, pv, p), 1e-4)
}

func TestHeatingCoil(t *testing.T) {
	// Saturated air at 2 °C, 10 m3/s, heated to 40 °C: about 490 kW in the ASHRAE
	// Handbook of Fundamentals, ch. 1 (from memory); 490.949 kW computed.
	const p = humidair.StandardPressure
	pv := humidair.SaturationPressure(celsius(2))
	w := humidair.HumidityRatio(pv, p)
	flow := 10 * humidair.Density(celsius(2), pv, p) / (1 + w) // [kg/s] of dry air
	power := flow * (humidair.Enthalpy(celsius(40), w) - humidair.Enthalpy(celsius(2), w))
	require.InEpsilon(t, 0.00436364, w, 1e-3)
	require.InEpsilon(t, 12.73988, flow, 1e-3)
	require.InEpsilon(t, 490949, power, 1e-3)
	require.InEpsilon(t, flow*humidair.HeatCapacity(w)*38, power, 1e-12)
}

func TestDensityOfRoomAirHeated(t *testing.T) {
	// Computed (independent code) from the ideal-gas sum with 287.042 and
	// 461.524 J/(kg K), ASHRAE 2017; moist air of 1405.462 Pa, and dry air.
	const pv, p = 1405.4619099200881, humidair.StandardPressure
	for _, r := range []struct{ t, moist, dry float64 }{
		{23, 1.1857033, 1.1919538},
		{50, 1.0866348, 1.0923631},
		{70, 1.0233018, 1.0286963},
		{90, 0.9669448, 0.9720422},
		{110, 0.9164714, 0.9213027},
	} {
		require.InEpsilon(t, r.moist, humidair.Density(celsius(r.t), pv, p), 1e-6, "%g °C", r.t)
		require.InEpsilon(t, r.dry, humidair.Density(celsius(r.t), 0, p), 1e-6, "%g °C", r.t)
	}
	// Dry air at 25 °C: v = 0.8443 m3/kg, ASHRAE 2017, Table 2, four digits.
	require.InEpsilon(t, 1/0.8443, humidair.Density(celsius(25), 0, p), 1e-3)
}

func TestLatentHeat(t *testing.T) {
	// IAPWS SR1-86(1992), check table: h" - h' = 2500.5 - 0.000612 kJ/kg at
	// 273.16 K, 2675.7 - 419.05 kJ/kg at 373.1243 K. The release itself derives
	// the enthalpies by integration and allows 0.1 %.
	require.InEpsilon(t, 2.5005e6, humidair.LatentHeat(273.16), 5e-4)
	require.InEpsilon(t, 2675.7e3-419.05e3, humidair.LatentHeat(373.1243), 5e-4)
	// Steam tables: 2333 kJ/kg at 70 °C, 1940 kJ/kg at 200 °C, 893 kJ/kg at
	// 350 °C (from memory, last digit uncertain).
	require.InEpsilon(t, 2333e3, humidair.LatentHeat(celsius(70)), 2e-3)
	require.InEpsilon(t, 1940e3, humidair.LatentHeat(celsius(200)), 2e-3)
	require.InEpsilon(t, 893e3, humidair.LatentHeat(celsius(350)), 5e-3)

	previous := 3e6
	for T := celsius(-60); T <= celsius(350); T++ {
		L := humidair.LatentHeat(T)
		require.Less(t, L, previous, "%g K", T)
		require.Greater(t, L, 0.8e6, "%g K", T)
		previous = L
	}
}
