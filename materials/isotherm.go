package materials

import "math"

// Isotherm is the sorption isotherm at one temperature, prepared by [Sorption.At].
// Its methods allocate nothing.
type Isotherm struct {
	form                           Form
	whole                          bool    // the exponent n is a whole number
	p, q, n                        float64 // parameters of the form
	factor                         float64 // van 't Hoff
	atOne, slopeAtOne, slopeAtZero float64 // of the shape
	perContent                     float64 // activity for each unit of content where the isotherm is a straight line [kg dry/kg]; else zero
}

// Content returns the content [kg/kg dry] at activity a [-].
func (i Isotherm) Content(a float64) float64 {
	switch {
	case a < 0:
		return i.factor * i.slopeAtZero * a
	case a > 1:
		return i.factor * (i.atOne + i.slopeAtOne*(a-1))
	}
	content, _ := i.shape(a)
	return i.factor * content
}

// Activity returns the activity [-] at content C [kg/kg dry], and its slope da/dC
// [kg dry/kg].
func (i *Isotherm) Activity(C float64) (a, slope float64) {
	if i.perContent > 0 {
		return C * i.perContent, i.perContent
	}
	w := C / i.factor
	switch {
	case w <= 0:
		return w / i.slopeAtZero, 1 / (i.factor * i.slopeAtZero)
	case w >= i.atOne:
		return 1 + (w-i.atOne)/i.slopeAtOne, 1 / (i.factor * i.slopeAtOne)
	}
	switch i.form {
	case GAB:
		a = i.inverseGAB(w)
	case TwoTerm:
		a = i.inverseTwoTerm(w)
	default:
		a = w / i.p
	}
	_, rise := i.shape(a)
	return a, 1 / (i.factor * rise)
}

// MixingShare is the share of the enthalpy of mixing that sorption at activity a [-] takes up or sets
// free: R ∂ln a/∂(1/T) at a constant content, over that enthalpy. It is 1 where the van 't Hoff factor
// acts on the whole content; in the two-term form, where it acts on L a alone, L a/(L a + n P a^n).
func (i Isotherm) MixingShare(a float64) float64 {
	if i.form != TwoTerm || a <= 0 {
		return 1
	}
	a = min(a, 1)
	return i.p / (i.p + i.n*i.q*i.power(a))
}

// shape returns the content at the reference temperature and its slope, for an
// activity in 0 to 1.
func (i *Isotherm) shape(a float64) (content, slope float64) {
	switch i.form {
	case GAB:
		x := i.n * a
		below := (1 - x) * (1 + (i.q-1)*x)
		return i.p * i.q * x / below, i.p * i.q * i.n * (1 + (i.q-1)*x*x) / (below * below)
	case TwoTerm:
		steep := i.q * i.power(a) // P a^(n-1)
		return (i.p + steep) * a, i.p + i.n*steep
	}
	return i.p * a, i.p
}

// power returns a^(n-1), by squaring when n is whole.
func (i *Isotherm) power(a float64) float64 {
	if !i.whole {
		return math.Pow(a, i.n-1)
	}
	out := 1.0
	for m := int(i.n) - 1; m > 0; m >>= 1 {
		if m&1 == 1 {
			out *= a
		}
		a *= a
	}
	return out
}

// inverseGAB solves y (c-1) x² + (c - y (c-2)) x - y = 0 with y = w/w_m, x = k a,
// for the root between 0 and 1, in the form without cancellation.
func (i *Isotherm) inverseGAB(w float64) float64 {
	y, c := w/i.p, i.q
	b := c - y*(c-2)
	root := math.Sqrt(math.Max(0, b*b+4*y*y*(c-1)))
	if b >= 0 {
		return 2 * y / ((b + root) * i.n)
	}
	return (root - b) / (2 * y * (c - 1) * i.n) // b < 0 only where c > 2
}

// inverseTwoTerm solves L a + P a^n = w for w inside the range. The curve is convex,
// so Newton's steps from a start above the root come down to it; a step that leaves
// the bracket, or a stall, becomes a bisection.
func (i *Isotherm) inverseTwoTerm(w float64) float64 {
	const tolerance, steps = 1e-8, 200 // the next step would be of the order of its square
	low, high := 0.0, min(1, w/i.p)
	a := high
	for range steps {
		content, slope := i.shape(a)
		if content > w {
			high = a
		} else {
			low = a
		}
		next := a - (content-w)/slope
		if next < low || next > high {
			next = low + (high-low)/2
		}
		if math.Abs(next-a) <= tolerance*a {
			return next
		}
		a = next
	}
	return a
}
