package humidair_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/humidair"
)

func TestSaltSolutions(t *testing.T) {
	// Greenspan, J. Res. NBS 81A (1977) 89, printed values at 25 °C: per cent,
	// two decimals; the fits give them to 0.01.
	for salt, want := range map[humidair.Salt]float64{
		humidair.LithiumChloride: 11.30, humidair.MagnesiumChloride: 32.78, humidair.MagnesiumNitrate: 52.89,
		humidair.SodiumChloride: 75.29, humidair.PotassiumChloride: 84.34, humidair.PotassiumSulfate: 97.30,
	} {
		got, err := humidair.GreenspanSaltHumidity(salt, celsius(25))
		require.NoError(t, err)
		require.InDelta(t, want, 100*got, 0.011, salt.String())
	}
	// The fits at 10 °C and 50 °C (computed).
	for salt, want := range map[humidair.Salt][2]float64{
		humidair.LithiumChloride: {11.293, 11.107}, humidair.MagnesiumChloride: {33.48, 30.545},
		humidair.MagnesiumNitrate: {57.37, 45.444}, humidair.SodiumChloride: {75.678, 74.432},
		humidair.PotassiumChloride: {86.776, 81.201}, humidair.PotassiumSulfate: {98.189, 95.827},
	} {
		for i, c := range []float64{10, 50} {
			got, err := humidair.GreenspanSaltHumidity(salt, celsius(c))
			require.NoError(t, err)
			require.InDelta(t, want[i], 100*got, 6e-4, "%v at %g °C", salt, c)
		}
	}
}

func TestSaltSolutionsOutsideTheFit(t *testing.T) {
	_, err := humidair.GreenspanSaltHumidity(humidair.MagnesiumNitrate, celsius(60))
	require.ErrorContains(t, err, "magnesium nitrate: humidity asked at 60.00 °C; known from 0 °C to 50 °C")
	_, err = humidair.GreenspanSaltHumidity(humidair.Salt(17), celsius(25))
	require.ErrorContains(t, err, "unknown salt")
	_, err = humidair.CalciumChlorideHumidity(celsius(40))
	require.ErrorContains(t, err, "known from 15 °C to 25 °C")
}

func TestCalciumChloride(t *testing.T) {
	// CRC Handbook, constant humidity solutions: 29 % at 25 °C, ±2 %.
	got, err := humidair.CalciumChlorideHumidity(celsius(25))
	require.NoError(t, err)
	require.InDelta(t, 0.29, got, 0.02)
	require.InDelta(t, 0.2813218, got, 1e-6) // A exp(B/T) with the printed A and B
	// The air over it at 25 °C and 29 %: dew point 5.749 °C, 6.6803 g/m3 (computed).
	pv := humidair.VapourPressureAt(0.29, celsius(25))
	require.InDelta(t, celsius(5.7489), humidair.DewPoint(pv), 1e-3)
	require.InEpsilon(t, 6.68026e-3, humidair.VapourDensity(pv, celsius(25)), 1e-5)
}
