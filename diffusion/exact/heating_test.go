package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
)

// Çengel, Heat Transfer, the long shaft cooled in air (solutions manual, problem
// 4-60 or 11-41 by edition): 0.35 m across, k 14.9, ρ 7900, c 477, α 3.95e-6,
// 400 °C into 150 °C, h 60, 20 min. Printed: ζ1 1.0904, C1 1.1548, one-term
// centre 0.9607, Q/Qmax 0.1761. Since Fo < 0.2 the one-term answer is not the
// true one; the full series was computed with 40 digits (independent code).
func TestShaftCooling(t *testing.T) {
	Bi, Fo := 60*0.175/14.9, 3.95e-6*1200/(0.175*0.175)
	mode, err := exact.FirstMode(Bi)
	require.NoError(t, err)
	requireDelta(t, 1.0904, mode.Root, 2e-4)        // printed from a table read between its rows
	requireDelta(t, 1.1548, mode.Coefficient, 1e-4) // the same
	requireDelta(t, 0.9607, mode.Coefficient*mode.At(0, Fo), 1e-4)
	requireDelta(t, 0.1761, 1-mode.Coefficient*mode.Mean(Fo), 2e-3) // printed with J1 read from a table
	requireDelta(t, 1.09030127486601, mode.Root, 1e-12)
	requireDelta(t, 0.175149404597989, 1-mode.Coefficient*mode.Mean(Fo), 1e-12)
	requireDelta(t, 0.9429322353693467, exact.RobinProfile(Bi, 0, Fo), 1e-12)
	requireDelta(t, 0.17452994262274363, 1-exact.RobinMean(Bi, Fo), 1e-12)
	requireDelta(t, 385.7330588423367, 150+250*exact.RobinProfile(Bi, 0, Fo), 1e-9)
}

// One term is good to 2 % of the initial difference at the centre from Fo = 0.2
// on: Incropera & DeWitt, sec. 5.5 (from memory).
func TestOneTermFromFourierFifth(t *testing.T) {
	for _, Bi := range []float64{0.01, 0.1, 1, 10, 100, math.Inf(1)} {
		mode, err := exact.FirstMode(Bi)
		require.NoError(t, err)
		at := func(Fo float64) float64 {
			return math.Abs(mode.Coefficient*mode.At(0, Fo) - exact.RobinProfile(Bi, 0, Fo))
		}
		require.Less(t, at(0.2), 0.02, "Bi %g", Bi)
		// The second mode leaves at least as fast as exp(−3.83² Fo).
		require.Less(t, at(0.4), at(0.2)*math.Exp(-3.8317*3.8317*0.2), "Bi %g", Bi)
	}
}

// Heating of a thin cylinder: a 0.875 mm, k 0.20, ρc 1200·1700, h 40, from 23
// into 70 °C. Series with 40 digits (independent code), printed to 12 digits.
func TestThinCylinderHeating(t *testing.T) {
	const a, k, rhoc, h = 0.875e-3, 0.20, 1200 * 1700.0, 40.0
	const Bi, alpha = h * a / k, k / rhoc
	at := func(x, seconds float64) float64 {
		return 70 - 47*exact.RobinProfile(Bi, x, alpha*seconds/(a*a))
	}
	for _, row := range []struct{ t, centre, surface, mean, lumped float64 }{
		{5, 30.4663456416, 33.7095932722, 32.0993164666, 32.435555956586},
		{10, 38.100559239, 40.7177051819, 39.4183326179, 39.976862632112},
		{20, 49.2312028777, 50.9351504127, 50.0891667649, 50.821515374232},
		{60, 66.2681477428, 66.5743224537, 66.4223114361, 66.806645372991},
	} {
		mean := 70 - 47*exact.RobinMean(Bi, alpha*row.t/(a*a))
		requireDelta(t, row.centre, at(0, row.t), 1e-9)
		requireDelta(t, row.surface, at(1, row.t), 1e-9)
		requireDelta(t, row.mean, mean, 1e-9)
		requireDelta(t, row.lumped, mean, 0.9) // lumped body: off by less than Bi/4 of the step
	}
	requireDelta(t, 70-0.05*47, at(0, 70.7772023351797), 1e-9) // 95 % of the step
}
