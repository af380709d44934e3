package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
)

// fourStages returns the stages of a cylinder of 0.875 mm with
// D = 1.5e-12 exp[−(45 000/R)(1/T − 1/298.15)] m²/s behind a film of 1.2e-7 m/s:
// 45, 80, 100 and 55 °C for 120, 300, 300 and 180 s.
func fourStages() []exact.Stage {
	const a, film, R = 0.875e-3, 1.2e-7, 8.31446261815324
	var stages []exact.Stage
	for _, s := range []struct{ celsius, seconds, around float64 }{
		{45, 120, 0.012}, {80, 300, 0.004}, {100, 300, 0.002}, {55, 180, 0.008},
	} {
		D := 1.5e-12 * math.Exp(-45000/R*(1/(s.celsius+273.15)-1/298.15))
		stages = append(stages, exact.Stage{
			Biot:         film * a / D,
			Fourier:      exact.ReducedTime(a, exact.Hold{Duration: s.seconds, Diffusivity: D}),
			Surroundings: s.around,
		})
	}
	return stages
}

// Eigenfunction projection with 60, 100 and 140 modes (equal to 1e-15) and, as
// a second method, Galerkin spectral elements with a stiff integrator: mean to
// 3e-13, surface to 3e-12 (independent code).
func TestProfileFourStages(t *testing.T) {
	profile, err := exact.Uniform(0.030, 100)
	require.NoError(t, err)
	want := []struct{ mean, centre, surface float64 }{
		{0.029599839953424967, 0.03, 0.022099446666459334},
		{0.028112536909173733, 0.029999999999299767, 0.02025829668361726},
		{0.02655842735901072, 0.029992610403789303, 0.020110852820122954},
		{0.02611216388544189, 0.02998884358661039, 0.015903950026843486},
	}
	for i, stage := range fourStages() {
		profile, err = profile.After(stage)
		require.NoError(t, err)
		requireDelta(t, want[i].mean, profile.Mean(), 1e-14, "stage %d", i+1)
		requireDelta(t, want[i].centre, profile.At(0), 1e-13, "stage %d", i+1)
		requireDelta(t, want[i].surface, profile.At(1), 1e-13, "stage %d", i+1)
	}
}

// One stage is the film series; the same stage cut in two changes nothing; nor
// does a stage cut in two with a Biot number that differs in the 9th digit,
// where the integral of two modes is taken at their middle.
func TestProfileAgreesWithSeries(t *testing.T) {
	start, err := exact.Uniform(1, 60)
	require.NoError(t, err)
	for _, Bi := range []float64{1e-6, 0.3, 20, 1e8} {
		whole, err := start.After(exact.Stage{Biot: Bi, Fourier: 0.05})
		require.NoError(t, err)
		half, err := start.After(exact.Stage{Biot: Bi, Fourier: 0.025})
		require.NoError(t, err)
		for _, factor := range []float64{1, 1 + 1e-9} {
			both, err := half.After(exact.Stage{Biot: Bi * factor, Fourier: 0.025})
			require.NoError(t, err)
			requireDelta(t, exact.RobinMean(Bi, 0.05), both.Mean(), 1e-9)
			requireDelta(t, exact.RobinProfile(Bi, 0.8, 0.05), both.At(0.8), 1e-9)
		}
		for _, x := range []float64{0, 0.3, 0.8, 1} {
			requireDelta(t, exact.RobinProfile(Bi, x, 0.05), whole.At(x), 1e-12, "Bi %g, x %g", Bi, x)
		}
		requireDelta(t, exact.RobinMean(Bi, 0.05), whole.Mean(), 1e-12, "Bi %g", Bi)
		requireDelta(t, meanOf(whole.At), whole.Mean(), 1e-12, "Bi %g", Bi)
	}
}

// A projection keeps the amount it holds: a stage of no length leaves the mean
// as it was, up to the modes left out; a start in balance stays there.
func TestProfileConserves(t *testing.T) {
	profile, err := exact.Uniform(1, 200)
	require.NoError(t, err)
	before, err := profile.After(exact.Stage{Biot: 5, Fourier: 0.02, Surroundings: 0.2})
	require.NoError(t, err)
	after, err := before.After(exact.Stage{Biot: 0.5, Fourier: 0, Surroundings: 0.2})
	require.NoError(t, err)
	requireDelta(t, before.Mean(), after.Mean(), 1e-8)   // left out: Σ 4 Bi ΔBi/ζ⁴ from ζ = 200 π on
	requireDelta(t, before.At(0.5), after.At(0.5), 3e-5) // first term left out: 2 ΔBi/ζ²
	balance, err := profile.After(exact.Stage{Biot: 5, Fourier: 0.02, Surroundings: 1})
	require.NoError(t, err)
	require.Equal(t, 1.0, balance.At(1))
	require.Equal(t, 1.0, balance.Mean())
}

func TestProfileRefuses(t *testing.T) {
	_, err := exact.Uniform(math.Inf(1), 10)
	require.ErrorContains(t, err, "finite")
	_, err = exact.Uniform(1, 1)
	require.ErrorContains(t, err, "modes")
	_, err = exact.Profile{}.After(exact.Stage{Biot: 1})
	require.ErrorContains(t, err, "Uniform")
	profile, err := exact.Uniform(1, 10)
	require.NoError(t, err)
	require.Equal(t, 1.0, profile.Mean())
	require.True(t, math.IsNaN(profile.At(1.5)))
	for text, stage := range map[string]exact.Stage{
		"Biot":         {Biot: 0, Fourier: 1},
		"finite":       {Biot: math.Inf(1), Fourier: 1},
		"Fourier":      {Biot: 1, Fourier: -1},
		"surroundings": {Biot: 1, Fourier: 1, Surroundings: math.NaN()},
	} {
		_, err := profile.After(stage)
		require.ErrorContains(t, err, text)
	}
}
