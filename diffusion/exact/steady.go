package exact

import "math"

// Shell is a hollow cylinder in steady state, with the two surfaces held and
// D(c) = D0 exp(K c). The Kirchhoff transform turns it into the linear problem.
// Crank, ch. 9 (chapter from memory).
type Shell struct {
	InnerRadius float64 // r1 [m], above 0
	OuterRadius float64 // r2 [m], above InnerRadius
	Inner       float64 // c at InnerRadius, in the caller's unit of c
	Outer       float64 // c at OuterRadius, same unit
	Diffusivity float64 // D0, the diffusivity at c = 0 [m²/s], above 0
	Exponent    float64 // K [1/unit of c]; 0 gives a constant diffusivity
}

// At returns c at the radius r in [InnerRadius, OuterRadius] [m]:
//
//	c = c1 + (1/K) ln{ 1 + [exp(K (c2 − c1)) − 1] ln(r/r1)/ln(r2/r1) }.
func (s Shell) At(r float64) float64 {
	if !s.valid() || !(r >= s.InnerRadius && r <= s.OuterRadius) {
		return math.NaN()
	}
	share := math.Log(r/s.InnerRadius) / math.Log(s.OuterRadius/s.InnerRadius)
	if s.Exponent == 0 {
		return s.Inner + (s.Outer-s.Inner)*share
	}
	return s.Inner + math.Log1p(math.Expm1(s.Exponent*(s.Outer-s.Inner))*share)/s.Exponent
}

func (s Shell) valid() bool {
	return s.InnerRadius > 0 && s.OuterRadius > s.InnerRadius && s.Diffusivity > 0
}

// Rod is a solid cylinder in steady state with a uniform source, the surface
// held and D(c) = D0 exp(K c).
type Rod struct {
	Radius      float64 // a [m], above 0
	Surface     float64 // c at the surface, in the caller's unit of c
	Source      float64 // S [unit of c per s]
	Diffusivity float64 // D0, the diffusivity at c = 0 [m²/s], above 0
	Exponent    float64 // K [1/unit of c]; 0 gives a constant diffusivity
}

// strength is S a² / [4 D0 exp(K cs)], the rise at the centre to first order in
// K, in the unit of c.
func (r Rod) strength() float64 {
	return r.Source * r.Radius * r.Radius / (4 * r.Diffusivity * math.Exp(r.Exponent*r.Surface))
}

// At returns c at the relative radius x in [0, 1] [-]:
//
//	exp(K c) = exp(K cs) + K S a² (1 − x²)/(4 D0).
//
// A sink (S < 0) so strong that the right-hand side is not positive has no
// steady state; the result is then NaN.
func (r Rod) At(x float64) float64 {
	if !r.valid() || !inUnit(x) {
		return math.NaN()
	}
	rise := r.strength() * (1 - x*x)
	if r.Exponent == 0 {
		return r.Surface + rise
	}
	return r.Surface + math.Log1p(r.Exponent*rise)/r.Exponent
}

// Mean returns the volume mean of c:
//
//	cs + [(1 + y) ln(1 + y) − y]/(K y),   y = K S a² / [4 D0 exp(K cs)].
func (r Rod) Mean() float64 {
	const small = 1e-4 // the first term left out, y³/20, is then below 1e-13
	if !r.valid() {
		return math.NaN()
	}
	y := r.Exponent * r.strength()
	if math.Abs(y) < small {
		return r.Surface + r.strength()*(1.0/2-y*(1.0/6-y/12))
	}
	return r.Surface + ((1+y)*math.Log1p(y)-y)/(r.Exponent*y)
}

func (r Rod) valid() bool {
	return r.Radius > 0 && r.Diffusivity > 0 && r.Exponent*r.strength() > -1
}
