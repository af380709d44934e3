package exact_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"

	"strandry/diffusion/exact"
)

// A field is a solution c(x, t) with its diffusivity and source; the
// differential equation is checked by central differences.
type field struct {
	name        string
	c           func(x, t float64) float64
	diffusivity func(c float64) float64
	source      func(x, t float64) float64
	times       []float64
}

func one(float64) float64           { return 1 }
func none(float64, float64) float64 { return 0 }

// slope is the derivative of f at x by central differences over ±h.
func slope(f func(float64) float64, x, h float64) float64 {
	return fd.Derivative(f, x, &fd.Settings{Formula: fd.Central, Step: h})
}

// flow returns x D ∂c/∂x.
func (f field) flow(x, t float64) float64 {
	const h = 1e-3
	return x * f.diffusivity(f.c(x, t)) * slope(func(x float64) float64 { return f.c(x, t) }, x, h)
}

// requireEquation checks ∂c/∂t = (1/x) ∂/∂x (x D ∂c/∂x) + S inside the body.
// With steps h = 1e-3 in x and 1e-3 t in time, the truncation is about
// h²/4 ∂⁴c/∂x⁴ and (1e-3 t)²/6 ∂³c/∂t³, the rounding 1e-13/h²: 2e-4 of the
// largest term covers both for the smooth fields at the times chosen.
func (f field) requireEquation(t *testing.T) {
	t.Helper()
	for _, time := range f.times {
		for _, x := range []float64{0.1, 0.35, 0.6, 0.8} {
			rate := slope(func(s float64) float64 { return f.c(x, s) }, time, 1e-3*time)
			divergence := slope(func(x float64) float64 { return f.flow(x, time) }, x, 1e-3) / x
			source := f.source(x, time)
			size := math.Max(math.Max(math.Abs(rate), math.Abs(divergence)), math.Abs(source))
			requireDelta(t, rate, divergence+source, 2e-4*math.Max(size, 0.05), "%s, x %g, t %g", f.name, x, time)
		}
	}
}

func TestEveryFieldMeetsItsEquation(t *testing.T) {
	var made exact.Manufactured
	front := exact.Front{Amplitude: 0.01}
	mode, err := exact.FirstMode(3)
	require.NoError(t, err)
	late := []float64{0.05, 0.1, 0.5}
	fields := []field{
		{"surface held", exact.ConstantProfile, one, none, late},
		{"first mode", mode.At, one, none, late},
		{"surface rising", exact.RampProfile, one, none, late},
		{"manufactured", made.At, made.Diffusivity, made.Source, []float64{0.5, 1, 2}},
		{"front", front.At, front.Diffusivity, none, []float64{40}}, // the front is beyond 1
	}
	for _, Bi := range []float64{0.01, 1, 100} {
		fields = append(fields, field{"film", func(x, t float64) float64 { return exact.RobinProfile(Bi, x, t) }, one, none, late})
	}
	for _, b := range []float64{1, 20} {
		fields = append(fields, field{"surface approaching", func(x, t float64) float64 { return exact.ApproachProfile(b, x, t) }, one, none, late})
	}
	for _, f := range fields {
		f.requireEquation(t)
	}
}

// The front's own terms are small (1e-5), so it is checked relative to them.
func TestFrontMeetsItsEquation(t *testing.T) {
	front := exact.Front{Amplitude: 0.01}
	for _, time := range []float64{4, 16} {
		for _, r := range []float64{0.1, 0.3, 0.5} {
			rate := slope(func(s float64) float64 { return front.At(r, s) }, time, 1e-3*time)
			flow := func(r float64) float64 {
				c := front.At(r, time)
				return r * front.Diffusivity(c) * slope(func(r float64) float64 { return front.At(r, time) }, r, 1e-3)
			}
			// (1e-3)² from the steps; differences of second order are exact for
			// the parabola in r.
			requireRelative(t, rate, slope(flow, r, 1e-3)/r, 1e-4, "r %g, t %g", r, time)
		}
	}
}

// Steady: the flow through every radius is the same in the shell, and is what
// the source puts in within that radius in the rod.
func TestSteadyStatesMeetTheirEquation(t *testing.T) {
	const h = 1e-4 // truncation h²/6 of the third derivative, some 1e-8
	for _, K := range []float64{-2, 0, 2} {
		shell := exact.Shell{InnerRadius: 1e-3, OuterRadius: 3e-3, Inner: 1, Outer: 0.2, Diffusivity: 3e-11, Exponent: K}
		flow := func(r float64) float64 { return r * math.Exp(K*shell.At(r)) * slope(shell.At, r, h*r) }
		for _, r := range []float64{1.2e-3, 2.8e-3} {
			requireRelative(t, flow(2e-3), flow(r), 1e-6, "K %g, r %g", K, r)
		}
		rod := exact.Rod{Radius: 2e-3, Surface: 0.1, Source: 1e-5, Diffusivity: 3e-11, Exponent: K}
		for _, x := range []float64{0.1, 0.5, 0.9} {
			D := rod.Diffusivity * math.Exp(K*rod.At(x))
			out := -D * slope(rod.At, x, h) / rod.Radius
			requireRelative(t, rod.Source*x*rod.Radius/2, out, 1e-6, "K %g, x %g", K, x)
		}
	}
}

// At the surface: −∂c/∂x = Bi c for the film, from inside by a one-sided
// difference of the first order, twice, extrapolated.
func TestFilmMeetsItsSurfaceCondition(t *testing.T) {
	inward := func(c func(float64) float64) float64 {
		const h = 1e-4
		once := (c(1) - c(1-h)) / h
		twice := (c(1) - c(1-2*h)) / (2 * h)
		return 2*once - twice // error of order h² ∂³c/∂x³
	}
	for _, Bi := range []float64{0.01, 1, 100} {
		film := func(x float64) float64 { return exact.RobinProfile(Bi, x, 0.05) }
		requireRelative(t, Bi*film(1), -inward(film), 1e-4, "Bi %g", Bi)
		mode, err := exact.FirstMode(Bi)
		require.NoError(t, err)
		at := func(x float64) float64 { return mode.At(x, 0.1) }
		requireRelative(t, Bi*at(1), -inward(at), 1e-4, "Bi %g", Bi)
	}
	profile, err := exact.Uniform(1, 60)
	require.NoError(t, err)
	for _, stage := range []exact.Stage{{Biot: 8, Fourier: 0.03, Surroundings: 0.1}, {Biot: 0.5, Fourier: 0.05, Surroundings: 0.3}} {
		profile, err = profile.After(stage)
		require.NoError(t, err)
		requireRelative(t, stage.Biot*(profile.At(1)-stage.Surroundings), -inward(profile.At), 1e-4)
	}
	var made exact.Manufactured
	for _, Fo := range []float64{0, 1} {
		at := func(x float64) float64 { return made.At(x, Fo) }
		flux := -made.Diffusivity(at(1)) * inward(at)
		requireRelative(t, made.Film()*(at(1)-made.Surroundings(Fo)), flux, 1e-6)
	}
}

// Means are the integrals of their profiles, by Gauss-Legendre quadrature.
func TestMeansAreIntegrals(t *testing.T) {
	mode, err := exact.FirstMode(2)
	require.NoError(t, err)
	for _, Fo := range []float64{0.02, 0.2, 1} {
		for name, pair := range map[string]struct {
			mean float64
			c    func(x float64) float64
		}{
			"held":     {1 - exact.ConstantUptake(Fo), func(x float64) float64 { return exact.ConstantProfile(x, Fo) }},
			"film":     {exact.RobinMean(7, Fo), func(x float64) float64 { return exact.RobinProfile(7, x, Fo) }},
			"ramp":     {exact.RampMean(Fo), func(x float64) float64 { return exact.RampProfile(x, Fo) }},
			"approach": {exact.ApproachMean(2, Fo), func(x float64) float64 { return exact.ApproachProfile(2, x, Fo) }},
			"mode":     {mode.Mean(Fo), func(x float64) float64 { return mode.At(x, Fo) }},
		} {
			requireDelta(t, meanOf(pair.c), pair.mean, 1e-12, "%s at Fo %g", name, Fo)
		}
	}
}
