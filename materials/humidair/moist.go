package humidair

// Gas constants and the standard pressure.
const (
	// DryAirConstant is the specific gas constant of dry air [J/(kg K)], ASHRAE
	// Handbook of Fundamentals, 2017, ch. 1.
	DryAirConstant = 287.042
	// VapourConstant is the specific gas constant of water vapour [J/(kg K)],
	// same source.
	VapourConstant = 461.524
	// MolarMass is that of water [kg/mol], IAPWS R6-95.
	MolarMass = 0.018015268
	// MassRatio is the molar mass of water over that of dry air [-], same source.
	MassRatio = 0.621945
	// StandardPressure is one standard atmosphere [Pa].
	StandardPressure = 101325.0
)

// Constants of the enthalpy equation, ASHRAE Handbook of Fundamentals, 2017,
// ch. 1: h = 1.006 t + w (2501 + 1.86 t) kJ per kg of dry air, t in °C.
const (
	dryAirHeat     = 1006.0  // [J/(kg K)]
	vapourHeat     = 1860.0  // [J/(kg K)]
	vapourEnthalpy = 2.501e6 // [J/kg] at 0 °C
	celsiusZero    = 273.15  // [K]
)

// VapourPressureAt returns the vapour pressure [Pa] of air of relative humidity
// rh [-] at T [K].
func VapourPressureAt(rh, T float64) float64 { return rh * SaturationPressure(T) }

// RelativeHumidity returns pv [Pa] over the saturation pressure at T [K], a
// fraction. Below 0 °C it is taken over ice. It is above 1 where the vapour is
// supersaturated.
func RelativeHumidity(pv, T float64) float64 { return pv / SaturationPressure(T) }

// HumidityRatio returns the mass of vapour per mass of dry air [kg/kg] at
// vapour pressure pv [Pa] and total pressure p [Pa]; pv must be below p.
//
//	w = 0.621945 pv/(p - pv)
//
// ASHRAE Handbook of Fundamentals, 2017, ch. 1.
func HumidityRatio(pv, p float64) float64 { return MassRatio * pv / (p - pv) }

// VapourPressureOf returns the vapour pressure [Pa] of air at total pressure p [Pa] with w of vapour for each kilogram of dry air: the inverse of
// [HumidityRatio].
func VapourPressureOf(w, p float64) float64 { return p * w / (MassRatio + w) }

// VapourDensity returns the mass of vapour per volume [kg/m3] at vapour
// pressure pv [Pa] and temperature T [K], as an ideal gas.
func VapourDensity(pv, T float64) float64 { return pv / (VapourConstant * T) }

// Density returns the density of moist air [kg/m3] at temperature T [K], vapour
// pressure pv [Pa] and total pressure p [Pa], the sum of the two ideal gases;
// within 0.1 % of the real gas near one atmosphere.
func Density(T, pv, p float64) float64 {
	return (p-pv)/(DryAirConstant*T) + pv/(VapourConstant*T)
}

// HeatCapacity returns the heat capacity of moist air per mass of dry air
// [J/(kg K)] at humidity ratio w [kg/kg]: 1006 + 1860 w. Range and source:
// [HeatCapacityRange].
func HeatCapacity(w float64) float64 { return dryAirHeat + vapourHeat*w }

// Enthalpy returns the enthalpy of moist air per mass of dry air [J/kg] at T
// [K] and humidity ratio w [kg/kg], zero for dry air and liquid water at 0 °C.
// Range and source: [HeatCapacityRange].
func Enthalpy(T, w float64) float64 {
	t := T - celsiusZero
	return dryAirHeat*t + w*(vapourEnthalpy+vapourHeat*t)
}
