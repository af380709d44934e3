package exact

import "math"

// Front is the spreading of a fixed amount with D = 2 c: a profile that ends
// in a sharp front and moves without a change of form,
//
//	c(r, t) = t^(−1/2) max(0, A − r² t^(−1/2)/16),
//
// with every quantity dimensionless. Inside a sealed cylinder of radius 1 it is
// exact until the front comes to the wall. Barenblatt 1952, the source-type
// solution of the porous-medium equation in two dimensions (from memory,
// verified against the equation).
type Front struct {
	Amplitude float64 // A [-], above 0
}

// At returns c [-] at the radius r ≥ 0 [-] and the time t > 0 [-].
func (f Front) At(r, t float64) float64 {
	if !(f.Amplitude > 0) || !(r >= 0) || !(t > 0) {
		return math.NaN()
	}
	root := math.Sqrt(t)
	return math.Max(0, f.Amplitude-r*r/(16*root)) / root
}

// Diffusivity returns D = 2 c [-].
func (f Front) Diffusivity(c float64) float64 { return 2 * c }

// Position returns the radius of the front [-], 4 √A t^(1/4), at the time
// t > 0 [-].
func (f Front) Position(t float64) float64 {
	if !(f.Amplitude > 0) || !(t > 0) {
		return math.NaN()
	}
	return 4 * math.Sqrt(f.Amplitude) * math.Pow(t, 0.25)
}

// Mean returns the volume mean over a cylinder of radius 1 [-], 8 A²; it is the
// same at all times until the front is at the wall.
func (f Front) Mean() float64 {
	if !(f.Amplitude > 0) {
		return math.NaN()
	}
	return 8 * f.Amplitude * f.Amplitude
}

// Manufactured is a solution chosen at will, for which the source and the
// surroundings that make it exact are then worked out; it exercises a
// diffusivity that varies with c together with a film. Dimensionless, with the
// relative radius x in [0, 1] and the Fourier number Fo ≥ 0 at D(0) = 1:
//
//	c(x, Fo) = 0.4 + 0.5 e (1 − 0.6 x²),   e = exp(−Fo),   D = exp(1.2 c),
//	−D ∂c/∂x = 4 (c − ce(Fo)) at x = 1.
//
// All functions are finite for any finite argument.
type Manufactured struct{}

const (
	madeBase      = 0.4 // c at late times
	madeAmplitude = 0.5 // rise of the centre above it at Fo = 0
	madeCurvature = 0.6
	madeExponent  = 1.2 // of the diffusivity
	madeFilm      = 4.0 // film coefficient, the Biot number at D = 1
)

// Film returns the film coefficient k a/D(0) [-], which is 4.
func (Manufactured) Film() float64 { return madeFilm }

// At returns c [-] at the relative radius x and the Fourier number Fo.
func (Manufactured) At(x, Fo float64) float64 {
	return madeBase + madeAmplitude*math.Exp(-Fo)*(1-madeCurvature*x*x)
}

// Mean returns the volume mean [-], 0.4 + 0.35 exp(−Fo).
func (Manufactured) Mean(Fo float64) float64 {
	return madeBase + madeAmplitude*math.Exp(-Fo)*(1-madeCurvature/2)
}

// Diffusivity returns D = exp(1.2 c) [-].
func (Manufactured) Diffusivity(c float64) float64 { return math.Exp(madeExponent * c) }

// Source returns the source that keeps the solution exact, ∂c/∂Fo less the
// divergence of D ∂c/∂x [-]:
//
//	−0.5 e (1 − 0.6 x²) − exp(1.2 c) (−1.2 e + 0.432 e² x²).
func (m Manufactured) Source(x, Fo float64) float64 {
	e := math.Exp(-Fo)
	slope := -2 * madeAmplitude * madeCurvature * e // ∂c/∂x = slope x
	rate := -madeAmplitude * e * (1 - madeCurvature*x*x)
	return rate - m.Diffusivity(m.At(x, Fo))*(2*slope+madeExponent*slope*slope*x*x)
}

// Surroundings returns ce [-], the value outside the film at the Fourier number
// Fo: cs − 0.15 e exp(1.2 cs) with cs = c(1, Fo).
func (m Manufactured) Surroundings(Fo float64) float64 {
	surface := m.At(1, Fo)
	slope := -2 * madeAmplitude * madeCurvature * math.Exp(-Fo)
	return surface + m.Diffusivity(surface)*slope/madeFilm
}
