package exact

import (
	"fmt"
	"math"
)

// Profile is a concentration over the radius, held as its value outside the
// film plus a sum of Bessel modes,
//
//	c(x) = c∞ + Σ b J0(ζ x),   ζ J1(ζ) = Bi J0(ζ),
//
// so that it can pass exactly from one stage to the next, where the film, the
// diffusivity and the surroundings change at once. A Profile is a value: After
// leaves the one it starts from as it was. Make the first with Uniform.
type Profile struct {
	count        int
	surroundings float64
	modes        *Modes    // none while the profile is still flat
	weights      []float64 // one for each of them
}

// Stage is a time during which diffusivity, film and surroundings stay the
// same.
type Stage struct {
	Biot         float64 // k a/D [-], above 0 and finite
	Fourier      float64 // D Δt/a² [-], ≥ 0
	Surroundings float64 // c∞, the value outside the film, in the unit of c
}

// Uniform returns a flat profile of the value c, to be carried with the given
// number of modes, at least 2. What is left out of a stage is of the order of
// exp(−(π modes)² Fo): 100 modes carry a Fourier number of 4e-4 to rounding.
func Uniform(c float64, modes int) (Profile, error) {
	if math.IsNaN(c) || math.IsInf(c, 0) {
		return Profile{}, fmt.Errorf("exact: uniform value %g: must be finite", c)
	}
	if modes < 2 {
		return Profile{}, fmt.Errorf("exact: %d modes: at least 2 are needed", modes)
	}
	return Profile{count: modes, modes: &Modes{}, surroundings: c}, nil
}

// At returns c at the relative radius x in [0, 1] [-], in the unit of c.
func (p Profile) At(x float64) float64 {
	if !inUnit(x) {
		return math.NaN()
	}
	sum := 0.0
	for n := len(p.weights) - 1; n >= 0; n-- {
		sum += p.weights[n] * p.modes.At(n, x)
	}
	return p.surroundings + sum
}

// Mean returns the volume mean, in the unit of c.
func (p Profile) Mean() float64 {
	sum := 0.0
	for n := len(p.weights) - 1; n >= 0; n-- {
		sum += p.weights[n] * p.modes.Mean(n)
	}
	return p.surroundings + sum
}

// After returns the profile at the end of a stage that begins with this one:
// its projection on the modes of the stage, each of them then decayed by
// exp(−ζ² Fo). The projection of the old modes and of the step in surroundings
// is
//
//	{ Σ b' ∫ J0(ζ' x) J0(ζ x) x dx + (c∞' − c∞) J1(ζ)/ζ } / ½ [J0²(ζ) + J1²(ζ)].
//
// by [Modes]. It reports an error for a stage outside its ranges or a profile not made by Uniform.
func (p Profile) After(s Stage) (Profile, error) {
	switch {
	case p.count < 2:
		return Profile{}, fmt.Errorf("exact: an empty profile: make the first with Uniform")
	case !(s.Biot > 0) || math.IsInf(s.Biot, 1):
		return Profile{}, fmt.Errorf("exact: Biot number %g of a stage: must be above 0 and finite", s.Biot)
	case !(s.Fourier >= 0):
		return Profile{}, fmt.Errorf("exact: Fourier number %g of a stage: must be 0 or more", s.Fourier)
	case math.IsNaN(s.Surroundings) || math.IsInf(s.Surroundings, 0):
		return Profile{}, fmt.Errorf("exact: surroundings %g of a stage: must be finite", s.Surroundings)
	}
	next := Profile{count: p.count, modes: &Modes{}, surroundings: s.Surroundings, weights: make([]float64, p.count)}
	if err := next.modes.Find(s.Biot, p.count); err != nil {
		return Profile{}, err
	}
	for n, z := range next.modes.Root {
		amount := next.modes.Amount(n, p.surroundings-s.Surroundings, p.modes, p.weights)
		next.weights[n] = amount * math.Exp(-z*z*s.Fourier)
	}
	return next, nil
}
