package airstream

import "fmt"

// Bounds: wide, they keep the arithmetic finite and catch a wrong unit.
const (
	coldest, hottest               = 213.15, 623.15 // [K], as in humidair
	leastPressure, largestPressure = 1e3, 1e7       // [Pa]
	mostRatio                      = 10.0           // [kg/kg]
	mostFlow                       = 1e3            // [kg/s] or [m3/s]
	mostPower                      = 1e7            // [W]
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
			return fmt.Errorf("airstream: %s = %.6g %s: must lie from %.6g to %.6g %s",
				b.name, b.value-b.offset, b.unit, b.least-b.offset, b.most-b.offset, b.unit)
		}
	}
	return nil
}

func temperature(name string, T float64) bound {
	return bound{name, T, coldest, hottest, "°C", 273.15}
}

func pressure(p float64) bound {
	return bound{"pressure", p, leastPressure, largestPressure, "Pa", 0}
}

// Check gives an error for a stream that cannot be, by the name that it is given; none for the zero value, which is no stream.
func (s Stream) Check(name string) error {
	if s == (Stream{}) {
		return nil
	}
	return within(
		bound{"dry flow of the " + name, s.Dry, 0, mostFlow, "kg/s", 0},
		bound{"humidity ratio of the " + name, s.Ratio, 0, mostRatio, "kg/kg", 0},
		temperature("temperature of the "+name, s.Temperature),
	)
}
