package film

import "fmt"

// Bounds on the conditions. They are wide: they keep the arithmetic finite and
// catch a wrong unit; the ranges of the correlations are told by notes.
const (
	coldest, hottest               = 213.15, 623.15 // [K]
	leastDiameter, largestDiameter = 1e-6, 1.0      // [m]
	leastPressure, largestPressure = 1e3, 1e7       // [Pa]
	largestSpeed                   = 340.0          // [m/s]
	largestBore                    = 10.0           // [m]
	longestLength                  = 1e6            // [m]
	shortestLength                 = 1e-6           // [m]
)

// bound is one quantity with its limits; offset is taken off to turn K into °C.
type bound struct {
	name               string
	value, least, most float64
	unit               string
	offset             float64
}

func (b bound) check() error {
	if b.value >= b.least && b.value <= b.most {
		return nil
	}
	return fmt.Errorf("film: %s = %.6g %s: must lie from %.6g to %.6g %s",
		b.name, b.value-b.offset, b.unit, b.least-b.offset, b.most-b.offset, b.unit)
}

// check returns an error for the first condition that is out of bounds. NaN is
// out of all bounds.
func check(c Conditions) error {
	if c.Flow < Natural || c.Flow > Annulus {
		return fmt.Errorf("film: unknown flow %v: allowed are %v, %v, %v, %v", c.Flow, Natural, Across, Along, Annulus)
	}
	const zero = 273.15 // 0 °C [K]
	bounds := []bound{
		{"strand diameter", c.Diameter, leastDiameter, largestDiameter, "m", 0},
		{"strand temperature", c.StrandTemperature, coldest, hottest, "°C", zero},
		{"air temperature", c.AirTemperature, coldest, hottest, "°C", zero},
		{"pressure", c.Pressure, leastPressure, largestPressure, "Pa", 0},
		{"vapour pressure", c.VapourPressure, 0, 0.99 * c.Pressure, "Pa", 0},
		{"air speed", c.AirSpeed, 0, largestSpeed, "m/s", 0},
		{"emissivity", c.Emissivity, 0, 1, "(a fraction)", 0},
		{"heated length", c.HeatedLength, 0, longestLength, "m", 0},
	}
	if c.Flow == Annulus {
		bounds = append(bounds, bound{"bore", c.Bore, c.Diameter * (1 + 1e-6), largestBore, "m", 0})
	}
	if c.Flow == Along || (c.Vertical && c.Flow != Annulus) {
		bounds = append(bounds, bound{"heated length", c.HeatedLength, shortestLength, longestLength, "m", 0})
	}
	for _, b := range bounds {
		if err := b.check(); err != nil {
			return err
		}
	}
	return nil
}
