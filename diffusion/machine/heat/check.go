package heat

import "strandry/diffusion/bounds"

// Bounds: wide, they keep the arithmetic finite and catch a wrong unit.
const (
	coldest, hottest               = 213.15, 623.15 // [K], as in film
	leastPressure, largestPressure = 1e3, 1e7       // [Pa]
	leastLength, mostLength        = 1e-4, 100.0    // [m]
	leastConductivity              = 1e-3           // [W/(m K)]
	mostConductivity               = 1e3            // [W/(m K)]
	mostFilm                       = 1e5            // [W/(m2 K)]
	mostPower                      = 1e7            // [W]
	mostUA                         = 1e6            // [W/K]
	mostFlow                       = 1e3            // [kg/s]
	mostSeconds                    = 1e10           // [s]
)

func temperature(name string, T float64) bounds.Bound {
	return bounds.Celsius(name, T, coldest, hottest)
}

func length(name string, x float64) bounds.Bound {
	return bounds.Of(name, x, leastLength, mostLength, "m")
}

func fraction(name string, x float64) bounds.Bound { return bounds.Of(name, x, 0, 1, "(a fraction)") }
