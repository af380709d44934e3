package quantity

import "math"

// Length returns the dimension of lengths; SI unit m.
func Length() Dimension {
	return of("length", "mm", unit("m", 1, 1), unit("mm", 1, 1e3), unit("cm", 1, 100),
		unit("km", 1e3, 1), unit("µm", 1, 1e6), unit("in", 0.0254, 1, "inch", "inches"), unit("ft", 0.3048, 1, "foot", "feet"))
}

// Temperature returns the dimension of temperatures on the absolute scale; SI
// unit K. Texts below absolute zero are faults.
func Temperature() Dimension {
	d := of("temperature", "°C", unit("°C", 1, 1, "C", "° C"), unit("degC", 1, 1), unit("K", 1, 1, "°K", "° K"), unit("°F", 5, 9, "F", "° F"))
	d.units[0].offset, d.units[1].offset, d.units[3].offset = 273.15, 273.15, 459.67*5/9
	d.positive = true
	return d.unclear("degrees of which scale? write °C or °F", "°")
}

// TemperatureDifference returns the dimension of temperature differences; SI unit K.
func TemperatureDifference() Dimension {
	return of("temperature difference", "K", unit("K", 1, 1, "°K"), unit("°C", 1, 1, "C", "° C"), unit("degC", 1, 1), unit("°F", 5, 9, "F", "° F")).
		unclear("degrees of which scale? write K or °F", "°")
}

// Duration returns the dimension of times; SI unit s.
func Duration() Dimension {
	return of("duration", "s", unit("s", 1, 1), unit("min", 60, 1), unit("h", 3600, 1), unit("d", 86400, 1),
		unit("week", 7*86400, 1, "weeks", "wk")).unclear("minutes or months? write min for minutes", "m", "M")
}

// Speed returns the dimension of speeds; SI unit m/s.
func Speed() Dimension {
	return of("speed", "mm/s", unit("m/s", 1, 1), unit("mm/s", 1, 1e3), unit("cm/s", 1, 100),
		unit("mm/min", 1, 6e4), unit("m/min", 1, 60), unit("m/h", 1, 3600), unit("ft/min", 0.3048, 60, "fpm")).unclear("metres of length or minutes? write mm/min", "mm/m")
}

// VolumeFlow returns the dimension of volume flows; SI unit m3/s.
func VolumeFlow() Dimension {
	return of("volume flow", "L/min", unit("m3/s", 1, 1), unit("mm3/s", 1, 1e9), unit("L/min", 1, 6e4, "lpm", "LPM"),
		unit("mL/min", 1, 6e7, "cm3/min", "cc/min"), unit("L/h", 1, 3.6e6, "lph", "LPH"), unit("m3/h", 1, 3600),
		unit("L/s", 1, 1e3), unit("mL/s", 1, 1e6, "cm3/s", "cc/s"), unit("ft3/min", 0.3048*0.3048*0.3048, 60, "cfm", "CFM")).
		unclear("metres or minutes? write L/min", "L/m").
		unclear("which standard state? write the volume at the temperature of the room, in L/min", "slpm", "SLPM", "slm", "SLM", "sccm", "SCCM", "scfm", "SCFM", "NL/min")
}

// Pressure returns the dimension of pressures and moduli; SI unit Pa.
func Pressure() Dimension {
	return of("pressure", "Pa", unit("Pa", 1, 1), unit("hPa", 100, 1), unit("kPa", 1e3, 1), unit("mbar", 100, 1),
		unit("bar", 1e5, 1), unit("MPa", 1e6, 1), unit("GPa", 1e9, 1), unit("atm", 101325, 1), unit("psi", 4.4482216152605, 0.0254*0.0254))
}

// Fraction returns the dimension of ratios; SI unit 1. Whether a ratio is by
// mass, volume or saturation is for the caller to say.
func Fraction() Dimension {
	return of("fraction", "%", unit("%", 1, 100), unit("wt%", 1, 100, "wt %", "w%", "mass%", "% w/w"), unit("ppm", 1, 1e6),
		unit("g/kg", 1, 1e3), unit("kg/kg", 1, 1, "g/g"), unit("mg/kg", 1, 1e6)).
		unclear("a relative humidity is none of these; write the fraction in %", "%RH", "% RH", "RH", "%rh", "% rh", "rh")
}

// Humidity returns the dimension of relative humidities; SI unit 1. Contents of vapour by mass or volume are none, and
// faults.
func Humidity() Dimension {
	return of("relative humidity", "%", unit("%", 1, 100), unit("%RH", 1, 100, "% RH", "%rh", "% rh")).
		unclear("of a hundred? write %", "RH", "rh").
		unclear("a content of vapour is no relative humidity; write % of saturation", "ppm", "g/kg", "kg/kg", "mg/kg", "g/m3", "wt%")
}

// Diffusivity returns the dimension of diffusion coefficients; SI unit m2/s.
func Diffusivity() Dimension {
	return of("diffusivity", "m2/s", unit("m2/s", 1, 1), unit("cm2/s", 1, 1e4), unit("mm2/s", 1, 1e6))
}

// HeatTransfer returns the dimension of film coefficients of heat; SI unit W/(m2 K).
func HeatTransfer() Dimension {
	return of("heat transfer coefficient", "W/m2/K", unit("W/m2/K", 1, 1, "W/m2/°C", "W/m2/C"), unit("kW/m2/K", 1e3, 1))
}

// Mass returns the dimension of masses; SI unit kg.
func Mass() Dimension {
	return of("mass", "g", unit("kg", 1, 1, "kilogram", "kilograms"), unit("g", 1, 1e3), unit("mg", 1, 1e6, "milligram", "milligrams"),
		unit("oz", 0.028349523125, 1, "ounce", "ounces"))
}

// MassRate returns the dimension of masses per time; SI unit kg/s.
func MassRate() Dimension {
	return of("mass per time", "g/h", unit("kg/s", 1, 1), unit("g/h", 1, 3.6e6), unit("mg/h", 1, 3.6e9), unit("g/min", 1, 6e4),
		unit("mg/min", 1, 6e7), unit("g/d", 1, 8.64e7), unit("mg/d", 1, 8.64e10))
}

// Density returns the dimension of mass per volume; SI unit kg/m3.
func Density() Dimension {
	return of("density", "kg/m3", unit("kg/m3", 1, 1), unit("g/cm3", 1e3, 1), unit("g/m3", 1, 1e3))
}

// SpecificHeat returns the dimension of heat capacity per mass; SI unit J/(kg K).
func SpecificHeat() Dimension {
	return of("specific heat", "J/kg/K", unit("J/kg/K", 1, 1, "J/kg/°C", "J/kg/C"), unit("kJ/kg/K", 1e3, 1), unit("J/g/K", 1e3, 1))
}

// Conductivity returns the dimension of thermal conductivities; SI unit W/(m K).
func Conductivity() Dimension {
	return of("thermal conductivity", "W/m/K", unit("W/m/K", 1, 1, "W/m/°C", "W/m/C"), unit("mW/m/K", 1, 1e3))
}

// MolarEnergy returns the dimension of energy per amount of substance; SI unit J/mol.
func MolarEnergy() Dimension {
	return of("molar energy", "kJ/mol", unit("J/mol", 1, 1), unit("kJ/mol", 1e3, 1), unit("kcal/mol", 4184, 1))
}

// Power returns the dimension of powers; SI unit W.
func Power() Dimension {
	return of("power", "W", unit("W", 1, 1, "watt", "watts"), unit("kW", 1e3, 1), unit("mW", 1, 1e3)).
		unclear("an energy is no power; write W", "Wh", "kWh", "J")
}

// Force returns the dimension of forces; SI unit N.
func Force() Dimension {
	return of("force", "N", unit("N", 1, 1, "newton", "newtons"), unit("mN", 1, 1e3), unit("kN", 1e3, 1), unit("kgf", 9.80665, 1), unit("lbf", 4.4482216152605, 1)).
		unclear("a mass is no force; write N, of which a kilogram weighs 9.81", "kg", "g", "lb")
}

// Angle returns the dimension of angles; SI unit rad.
func Angle() Dimension {
	return of("angle", "°", unit("rad", 1, 1), unit("°", math.Pi, 180, "deg", "degrees"), unit("turn", 2*math.Pi, 1, "turns"))
}
