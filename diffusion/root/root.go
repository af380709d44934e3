package root

import (
	"errors"
	"math"
)

// Func is a function whose value may not exist.
type Func func(x float64) (float64, error)

// Bracket is an interval at whose ends the function has different signs.
type Bracket struct{ A, B, AtA, AtB float64 }

// Tolerance ends a search: the function is as near to zero, or the bracket as narrow,
// as this. Both in units of the function.
type Tolerance struct{ Value, Width float64 }

// ErrNoBracket is returned for ends that do not enclose a zero.
var ErrNoBracket = errors.New("root: the function has no change of sign between the ends")

// mostSteps ends a search that rounding keeps alive.
const mostSteps = 200

// Find returns a zero of f inside the bracket: a place where f was called, or an end of the
// bracket. An error of f ends the search.
func Find(f Func, b Bracket, within Tolerance) (float64, error) {
	a, fa, z, fz := b.A, b.AtA, b.B, b.AtB // the newest point, and the other end
	if !(fa*fz <= 0) {
		return math.NaN(), ErrNoBracket
	}
	share := fa / (fa - fz)
	if fa == fz { // both zero
		share = 0
	}
	share = min(max(share, 0.05), 0.95)
	for range mostSteps {
		best, least := a, math.Abs(fa)
		if math.Abs(fz) < least {
			best, least = z, math.Abs(fz)
		}
		if least <= within.Value || math.Abs(z-a) <= within.Width {
			return best, nil
		}
		edge := min(0.5, (0.5*within.Width+2e-16*math.Abs(best))/math.Abs(z-a))
		share = min(max(share, edge), 1-edge)
		x := a + share*(z-a)
		if x == a || x == z {
			return best, nil
		}
		fx, err := f(x)
		if err != nil {
			return math.NaN(), err
		}
		last, fLast := a, fa // the third point of the parabola
		if (fx > 0) != (fa > 0) {
			last, fLast = z, fz
			z, fz = a, fa
		}
		a, fa = x, fx
		share = next(a, z, last, fa, fz, fLast)
	}
	return a, nil
}

// next is the share of the way from a to the other end b at which to look: that of the
// inverse parabola through three points where it is sure to be monotone, else half.
func next(a, b, c, fa, fb, fc float64) float64 {
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if !(phi*phi < xi && (1-phi)*(1-phi) < 1-xi) {
		return 0.5
	}
	return fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
}
