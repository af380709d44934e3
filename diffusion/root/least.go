package root

import "math"

// Valley is three places, of which the middle one is not above the others.
type Valley struct{ A, M, B, AtA, AtM, AtB float64 }

// Least returns a place near the minimum of f in a valley, and the value there. It ends at a value of zero or
// less, where the place is as near as the width, or where the parabola through the last three places, one of
// which it has chosen, promises to gain less than the value: near a smooth minimum the place is then as good as that, in
// a valley of another shape some times worse.
func Least(f Func, v Valley, within Tolerance) (x, fx float64, err error) {
	a, b := v.A, v.B
	x, fx = v.M, v.AtM
	// The lowest places before: w, then u.
	w, fw, u, fu := v.A, v.AtA, v.B, v.AtB
	if fu < fw {
		w, fw, u, fu = u, fu, w, fw
	}
	wide := [2]float64{math.Inf(1), math.Inf(1)} // the two valleys before
	for step := range mostSteps {
		if fx <= 0 || max(x-a, b-x) <= within.Width {
			return x, fx, nil
		}
		next, gain := vertex(x, w, u, fx, fw, fu)
		const slow = 0.7
		if !(next > a && next < b) || b-a > slow*wide[0] {
			next, gain = golden(a, x, b), math.Inf(1)
		}
		if gain <= within.Value && step > 0 {
			return x, fx, nil
		}
		if math.Abs(next-x) < within.Width/2 { // a step that is seen, towards the wider side
			next = x + math.Copysign(within.Width/2, (a+b)/2-x)
		}
		wide = [...]float64{wide[1], b - a}
		at, err := f(next)
		if err != nil {
			return next, at, err
		}
		switch {
		case at <= fx:
			if next > x {
				a = x
			} else {
				b = x
			}
			u, fu, w, fw, x, fx = w, fw, x, fx, next, at
			continue
		case next > x:
			b = next
		default:
			a = next
		}
		if at <= fw {
			u, fu, w, fw = w, fw, next, at
		} else {
			u, fu = next, at
		}
	}
	return x, fx, nil
}

// vertex is that of the parabola through three places, and how far it lies below the first; NaN if it
// has none below.
func vertex(x, w, u, fx, fw, fu float64) (at, gain float64) {
	dw, du := w-x, u-x
	sw, su := (fw-fx)/dw, (fu-fx)/du
	curvature := (su - sw) / (du - dw)
	slope := sw - curvature*dw
	if !(curvature > 0) {
		return math.NaN(), math.NaN()
	}
	step := -slope / (2 * curvature)
	return x + step, curvature * step * step
}

// golden cuts the wider side.
func golden(a, x, b float64) float64 {
	const share = 0.3819660112501051
	if x-a > b-x {
		return x - share*(x-a)
	}
	return x + share*(b-x)
}
