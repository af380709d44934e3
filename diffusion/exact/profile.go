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
	modes        int
	surroundings float64
	Bi           float64
	roots        []float64 // nil while the profile is still flat
	weights      []float64
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
	return Profile{modes: modes, surroundings: c}, nil
}

// At returns c at the relative radius x in [0, 1] [-], in the unit of c.
func (p Profile) At(x float64) float64 {
	if !inUnit(x) {
		return math.NaN()
	}
	sum := 0.0
	for n := len(p.roots) - 1; n >= 0; n-- {
		sum += p.weights[n] * math.J0(p.roots[n]*x)
	}
	return p.surroundings + sum
}

// Mean returns the volume mean, in the unit of c.
func (p Profile) Mean() float64 {
	sum := 0.0
	for n := len(p.roots) - 1; n >= 0; n-- {
		sum += p.weights[n] * 2 * math.J1(p.roots[n]) / p.roots[n]
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
// Orthogonality: Abramowitz & Stegun, eq. 11.4.5; Carslaw & Jaeger, sec. 7.7
// (numbers from memory). It reports an error for a stage outside its ranges or
// a profile not made by Uniform.
func (p Profile) After(s Stage) (Profile, error) {
	switch {
	case p.modes < 2:
		return Profile{}, fmt.Errorf("exact: an empty profile: make the first with Uniform")
	case !(s.Biot > 0) || math.IsInf(s.Biot, 1):
		return Profile{}, fmt.Errorf("exact: Biot number %g of a stage: must be above 0 and finite", s.Biot)
	case !(s.Fourier >= 0):
		return Profile{}, fmt.Errorf("exact: Fourier number %g of a stage: must be 0 or more", s.Fourier)
	case math.IsNaN(s.Surroundings) || math.IsInf(s.Surroundings, 0):
		return Profile{}, fmt.Errorf("exact: surroundings %g of a stage: must be finite", s.Surroundings)
	}
	roots, err := RobinRoots(s.Biot, p.modes)
	if err != nil {
		return Profile{}, err
	}
	next := Profile{modes: p.modes, surroundings: s.Surroundings, Bi: s.Biot, roots: roots, weights: make([]float64, p.modes)}
	for n, z := range roots {
		sum := (p.surroundings - s.Surroundings) * math.J1(z) / z
		for m := len(p.roots) - 1; m >= 0; m-- {
			sum += p.weights[m] * overlap(p.roots[m], p.Bi, z, s.Biot, m == n)
		}
		next.weights[n] = sum / norm(z) * math.Exp(-z*z*s.Fourier)
	}
	return next, nil
}

// norm returns ∫ J0²(ζ x) x dx over 0 < x < 1 at a root for any Biot number.
func norm(z float64) float64 {
	j0, j1 := math.J0(z), math.J1(z)
	return (j0*j0 + j1*j1) / 2
}

// overlap returns ∫ J0(u x) J0(v x) x dx over 0 < x < 1 for roots u and v that
// belong to the Biot numbers Bu and Bv,
//
//	[u J1(u) J0(v) − v J1(v) J0(u)] / (u² − v²),
//
// and which are of the same rank if same is set. Where two roots of the same
// rank nearly coincide, the quotient loses its digits; the integral is then the
// norm at their middle, to the second order in their distance.
func overlap(u, Bu, v, Bv float64, same bool) float64 {
	const close = 1e-5
	if same && math.Abs(u-v) < close*v {
		return norm((u + v) / 2)
	}
	if Bu == Bv {
		return 0
	}
	return (u*math.J1(u)*math.J0(v) - v*math.J1(v)*math.J0(u)) / ((u - v) * (u + v))
}
