package strict

import (
	"math"

	"strandry/materials/text/quantity"
)

// Limits is the range a value must lie in, ends included unless said otherwise.
// The zero value sets no limit; one open side is an infinity.
type Limits struct {
	Min, Max                   float64 // in SI
	ExclusiveMin, ExclusiveMax bool
	Unit                       string // the unit of the message; "" takes the dimension's usual one
}

// slack forgives the rounding of a value converted to SI against a limit that is
// written in SI.
const slack = 1e-12

func (l Limits) none() bool { return l == Limits{Unit: l.Unit} }

// Holds tells whether x lies within, but for the rounding of its conversion to SI.
func (l Limits) Holds(x float64) bool {
	if l.none() {
		return true
	}
	low := x >= l.Min-slack*math.Abs(l.Min)
	if l.ExclusiveMin {
		low = x > l.Min
	}
	high := x <= l.Max+slack*math.Abs(l.Max)
	if l.ExclusiveMax {
		high = x < l.Max
	}
	return low && high
}

// text names the limits in people's units.
func (l Limits) text(dim quantity.Dimension) string {
	unit := l.Unit
	if unit == "" {
		unit = dim.Usual()
	}
	min, max := dim.Format(l.Min, unit, 6), dim.Format(l.Max, unit, 6)
	switch {
	case math.IsInf(l.Max, 1) && math.IsInf(l.Min, -1):
		return "any finite value"
	case math.IsInf(l.Max, 1) && l.ExclusiveMin:
		return "above " + min
	case math.IsInf(l.Max, 1):
		return min + " or more"
	case math.IsInf(l.Min, -1) && l.ExclusiveMax:
		return "below " + max
	case math.IsInf(l.Min, -1):
		return max + " or less"
	}
	out := min + " to " + max
	switch {
	case l.ExclusiveMin && l.ExclusiveMax:
		out += ", both ends excluded"
	case l.ExclusiveMin:
		out += ", " + min + " excluded"
	case l.ExclusiveMax:
		out += ", " + max + " excluded"
	}
	return out
}
