package heat

import "fmt"

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

// bound is one quantity with its limits; offset is taken off to turn K into °C.
type bound struct {
	name               string
	value, least, most float64
	unit               string
	offset             float64
}

// within gives an error for the first quantity out of bounds. NaN is out of all bounds.
func within(bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			return fmt.Errorf("heat: %s = %.6g %s: must lie from %.6g to %.6g %s",
				b.name, b.value-b.offset, b.unit, b.least-b.offset, b.most-b.offset, b.unit)
		}
	}
	return nil
}

func temperature(name string, T float64) bound {
	return bound{name, T, coldest, hottest, "°C", 273.15}
}

func length(name string, x float64) bound {
	return bound{name, x, leastLength, mostLength, "m", 0}
}

func fraction(name string, x float64) bound { return bound{name, x, 0, 1, "(a fraction)", 0} }
