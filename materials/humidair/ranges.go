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

// SaturationRange is the range of [SaturationPressure]. The liquid formula
// holds to the critical point; the package promises finite results to
// 623.15 K only.
func SaturationRange() Range {
	return Range{50, 647.096, "IAPWS R14-08(2011) eq. 6 below 273.16 K; IAPWS R7-97(2012) eq. 30 above"}
}

// LatentHeatRange is the range of [LatentHeat].
func LatentHeatRange() Range {
	return Range{273.16, 647.096, "IAPWS SR1-86(1992), saturation properties of ordinary water substance"}
}

// ViscosityRange is the range of [Viscosity]. The limits are from memory: the
// source applies its formula from the coldest layer of the atmosphere to well
// above any temperature used here.
func ViscosityRange() Range {
	return Range{150, 1000, "U.S. Standard Atmosphere, 1976, eq. 51 (Sutherland's form)"}
}

// ConductivityRange is the range of [Conductivity]; its limits are from memory,
// as for [ViscosityRange].
func ConductivityRange() Range {
	return Range{150, 1000, "U.S. Standard Atmosphere, 1976, eq. 53"}
}

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
