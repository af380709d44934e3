package film

import (
	"fmt"

	"strandry/diffusion/bounds"
)

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

// check returns an error for the first condition that is out of bounds. NaN is
// out of all bounds.
func check(c Conditions) error {
	if c.Flow < Natural || c.Flow > Annulus {
		return fmt.Errorf("film: unknown flow %v: allowed are %v, %v, %v, %v", c.Flow, Natural, Across, Along, Annulus)
	}
	all := []bounds.Bound{
		bounds.Of("strand diameter", c.Diameter, leastDiameter, largestDiameter, "m"),
		bounds.Celsius("strand temperature", c.StrandTemperature, coldest, hottest),
		bounds.Celsius("air temperature", c.AirTemperature, coldest, hottest),
		bounds.Of("pressure", c.Pressure, leastPressure, largestPressure, "Pa"),
		bounds.Of("vapour pressure", c.VapourPressure, 0, 0.99*c.Pressure, "Pa"),
		bounds.Of("air speed", c.AirSpeed, 0, largestSpeed, "m/s"),
		bounds.Of("emissivity", c.Emissivity, 0, 1, "(a fraction)"),
		bounds.Of("heated length", c.HeatedLength, 0, longestLength, "m"),
	}
	if c.Flow == Annulus {
		all = append(all, bounds.Of("bore", c.Bore, c.Diameter*(1+1e-6), largestBore, "m"))
	}
	if c.Flow == Along || (c.Vertical && c.Flow != Annulus) {
		all = append(all, bounds.Of("heated length", c.HeatedLength, shortestLength, longestLength, "m"))
	}
	return bounds.First("film", all...)
}
