package humidair

// Range is the span of temperature in which a formula holds, and where it was
// published.
type Range struct {
	Min, Max float64 // [K]
	Source   string  // author or body, title or journal, year, equation
}

// Holds tells whether T [K] lies in the range, ends included. It is false for
// NaN.
func (r Range) Holds(T float64) bool { return T >= r.Min && T <= r.Max }

// VapourDiffusivityRange is the range of [VapourDiffusivity].
func VapourDiffusivityRange() Range {
	return Range{280, 1070, "Marrero & Mason, J. Phys. Chem. Ref. Data 1 (1972) 3; to 450 K as quoted in Kreith, " +
		"Mechanical Engineering Handbook, 1999; above 450 K coefficients from memory"}
}

// HeatCapacityRange is the range in which the constant specific heats behind
// [HeatCapacity] and [Enthalpy] are good to about 1 %.
func HeatCapacityRange() Range {
	return Range{213.15, 393.15, "ASHRAE Handbook of Fundamentals, 2017, ch. 1 (constants of the enthalpy equation)"}
}
