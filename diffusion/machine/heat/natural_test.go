package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
	"strandry/diffusion/machine/heat"
)

// near is within a relative tolerance, and fails on NaN.
func near(t *testing.T, want, got, within float64, what ...any) {
	t.Helper()
	require.LessOrEqual(t, math.Abs(got-want), within*max(math.Abs(want), 1e-300), what...)
}

func TestVerticalPlate(t *testing.T) {
	// Incropera & DeWitt, Example 9.2: glass 1.02 m wide, 0.71 m high, 232 °C in 23 °C: 1060 W; more digits by independent code.
	ra := 9.8 * (1 / 400.0) * 209 * 0.71 * 0.71 * 0.71 / (38.3e-6 * 26.4e-6)
	near(t, 1.813e9, ra, 1e-3)
	near(t, 147.1537, heat.VerticalPlate(1.81438e9, 0.690), 1e-5)
	near(t, 1060, heat.VerticalPlate(ra, 0.690)*0.0338/0.71*1.02*0.71*209, 2e-3)
	near(t, 0.825*0.825, heat.VerticalPlate(0, 0.7), 1e-14)
}

func TestLevelPlates(t *testing.T) {
	near(t, 5.4, heat.PlateUp(1e4), 1e-12)
	near(t, 0.15*1000, heat.PlateUp(1e9), 1e-12)
	near(t, 2.7, heat.PlateDown(1e4), 1e-12)
	near(t, 48.0131, heat.PlateDown(1e9), 1e-5)
	// A heated plate of 0.6 m, 90 °C in 30 °C, looking down: 64.2 W in a textbook (from memory).
	near(t, 64.2, heat.PlateDown(9.81/333*60*0.15*0.15*0.15/(1.896e-5*1.896e-5)*0.7202)*0.02808/0.15*0.36*60, 5e-3)
	for ra := 1e3; ra < 1e11; ra *= 1.01 {
		near(t, heat.PlateUp(ra), heat.PlateUp(ra*1.01), 0.004)
		require.Greater(t, heat.PlateUp(ra), heat.PlateDown(ra))
	}
}

func TestVerticalCylinder(t *testing.T) {
	const ra, pr = 1e6, 0.7
	plate := heat.VerticalPlate(ra, pr)
	near(t, plate, heat.VerticalCylinder(ra, pr, 1e-9), 1e-9) // wide: a plate
	require.Greater(t, heat.VerticalCylinder(ra, pr, 10), plate)
	// Slender: Le Fevre & Ede, the other way to tell it, within the fifth that either claims.
	near(t, film.VerticalSlender(ra, pr, 20), heat.VerticalCylinder(ra, pr, 20), 0.2)
	// The plate's own limit, D/L = 35/Gr^¼: there a plate is too low by 4 to 6 % (from memory, about 5).
	slender := math.Pow(ra/pr, 0.25) / 35
	near(t, 1.05, heat.VerticalCylinder(ra, pr, slender)/plate, 0.03)
}

func TestDuctFlow(t *testing.T) {
	near(t, 3.66, heat.DuctFlow(1000, 0.7, 0), 1e-12)
	// By hand: Gz = 70, 3.66 + 4.676/(1 + 0.04·16.9849) = 6.4437.
	near(t, 6.4437, heat.DuctFlow(1000, 0.7, 0.1), 1e-4)
	// Gnielinski at 10 000 and 0.7: f = (0.79·9.21034 - 1.64)^-2 = 0.0314798; 0.00393497·9000·0.7/(1 - 12.7·0.0627294·0.211626).
	near(t, 29.8173, heat.DuctFlow(1e4, 0.7, 0.1), 1e-5)
	half := (heat.DuctFlow(2300, 0.7, 0.1) + heat.DuctFlow(4000, 0.7, 0.1)) / 2
	near(t, half, heat.DuctFlow(3150, 0.7, 0.1), 1e-12)
	for re := 1.0; re < 1e5; re *= 1.01 {
		require.GreaterOrEqual(t, heat.DuctFlow(re*1.01, 0.7, 0.1), heat.DuctFlow(re, 0.7, 0.1))
		near(t, heat.DuctFlow(re, 0.7, 0.1), heat.DuctFlow(re*1.01, 0.7, 0.1), 0.03)
	}
}
