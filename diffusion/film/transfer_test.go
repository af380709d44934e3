package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

func TestMixed(t *testing.T) {
	// Computed (independent code), Incropera & DeWitt sec. 9.9.
	require.InEpsilon(t, 3.120125735, film.Mixed(3, 1.5, 3), 1e-9)
	require.InEpsilon(t, 3.045814777, film.Mixed(3, 1.5, 4), 1e-9)
	require.Equal(t, 3.0, film.Mixed(3, 0, 4))
	require.Equal(t, 1.5, film.Mixed(0, 1.5, 3))
	require.Zero(t, film.Mixed(0, 0, 4))
}

func TestMassCoefficient(t *testing.T) {
	// Computed (independent code), Chilton & Colburn 1934.
	require.InEpsilon(t, 0.042752288, film.MassCoefficient(40, 1.029, 1008, 2.87e-5/3.35e-5), 1e-6)
	require.InEpsilon(t, 0.037707964, film.MassCoefficient(40, 1.16, 1007, 22.5/26), 1e-6)
}

func TestEvaporativeCooling(t *testing.T) {
	// Incropera & DeWitt, Example 6.7: a wet can in 313 K air, h_fg 100 kJ/kg,
	// M 200 kg/kmol, p_sat 5000 Pa, D 0.2e-4; printed 5.9 °C, computed 5.86438.
	const heat = 50.0 // [W/(m2 K)], cancels
	mass := film.MassCoefficient(heat, 1.16, 1007, 22.5e-6/0.2e-4)
	surface := 313.0
	for range 200 {
		surface = 313 - 100e3*mass/heat*5000*200/(8314*surface)
	}
	require.InDelta(t, 5.86438, surface-273, 1e-4)
	require.InDelta(t, 5.9, surface-273, 0.05)
}

func TestRadiationOfNearEqualTemperatures(t *testing.T) {
	// Limit 4 ε σ T³: 6.12 W/(m2 K) at 300 K for a black body.
	require.InEpsilon(t, 4*5.670374419e-8*27e6, film.Radiation(1, 300, 300), 1e-12)
	require.InDelta(t, 6.12, film.Radiation(1, 300, 300), 0.01)
	// The exchanged heat is the difference of the fourth powers.
	require.InEpsilon(t, 0.9*5.670374419e-8*(math.Pow(373, 4)-math.Pow(296, 4)), film.Radiation(0.9, 373, 296)*(373-296), 1e-12)
}

func TestSolidSideCoefficient(t *testing.T) {
	// k_g = 0.01 m/s on a strand at 70 °C with a linear isotherm u = 0.10 a and
	// 1150 kg/m3: 1.71311070e-5 m/s on the solid side, Biot number 1249.1432 with
	// a = 0.875 mm and D = 1.2e-11 m2/s; computed with IAPWS R7-97(2012) and R_v
	// 461.526, which is 4e-6 from ours.
	const T = 343.15
	solid := 0.01 * humidair.VapourDensity(humidair.SaturationPressure(T), T) / (0.10 * 1150)
	require.InEpsilon(t, 1.71311070e-5, solid, 1e-5)
	require.InEpsilon(t, 1249.1432, solid*0.875e-3/1.2e-11, 1e-5)
}
