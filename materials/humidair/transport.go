package humidair

import "math"

// Viscosity returns the dynamic viscosity of air [Pa s] at T [K].
//
//	μ = 1.458e-6 T^1.5/(T + 110.4)
//
// U.S. Standard Atmosphere, 1976, eq. 51; within 0.8 % of Incropera & DeWitt,
// Table A.4, from 300 K to 400 K. Range: 150 K to
// 1000 K (limits from memory: the source applies its formula from the coldest
// layer of the atmosphere to well above any temperature used here).
func Viscosity(T float64) float64 { return 1.458e-6 * T * math.Sqrt(T) / (T + 110.4) }

// Conductivity returns the thermal conductivity of air [W/(m K)] at T [K].
//
//	k = 2.64638e-3 T^1.5/(T + 245.4·10^(-12/T))
//
// U.S. Standard Atmosphere, 1976, eq. 53; within 0.8 % of Incropera & DeWitt,
// Table A.4, from 300 K to 400 K. Range: as
// [Viscosity].
func Conductivity(T float64) float64 {
	return 2.64638e-3 * T * math.Sqrt(T) / (T + 245.4*math.Exp(-12*math.Ln10/T))
}

// MassHeat returns the heat capacity per mass of moist air [J/(kg K)] at vapour
// pressure pv [Pa] and total pressure p [Pa]; that of [HeatCapacity], which is per
// mass of dry air.
func MassHeat(pv, p float64) float64 {
	w := HumidityRatio(pv, p)
	return HeatCapacity(w) / (1 + w)
}

// ThermalDiffusivity returns k/(ρ cp) of moist air [m2/s] at temperature T [K],
// vapour pressure pv [Pa] and total pressure p [Pa]; about 1 % below 120 °C.
func ThermalDiffusivity(T, pv, p float64) float64 {
	return Conductivity(T) / (Density(T, pv, p) * MassHeat(pv, p))
}

// KinematicViscosity returns μ/ρ of moist air [m2/s], arguments as for
// [ThermalDiffusivity].
func KinematicViscosity(T, pv, p float64) float64 { return Viscosity(T) / Density(T, pv, p) }

// PrandtlNumber returns cp μ/k of moist air [-], arguments as for
// [ThermalDiffusivity]; about 0.7 everywhere.
func PrandtlNumber(T, pv, p float64) float64 {
	return MassHeat(pv, p) * Viscosity(T) / Conductivity(T)
}

// diffusivityBreak [K] is where the two formulas of VapourDiffusivity cross, at
// 177 °C. The source changes over at 450 K, where they differ by 0.02 %.
const diffusivityBreak = 450.1827344224192

// diffusivityBlend is the share of the temperature over which one formula passes
// into the other, either side of the crossing: a kink there would be felt by what
// is interpolated or stepped across it. Neither is left by more than 0.32 %.
const diffusivityBlend = 0.10

// VapourDiffusivity returns the diffusivity of water vapour in air [m2/s] at
// temperature T [K] and total pressure p [Pa].
//
//	D = 1.87e-10 T^2.072/p  below 450 K,  D = 2.75e-9 T^1.632/p  above;  p in atm
//
// Marrero & Mason, J. Phys. Chem. Ref. Data 1 (1972) 3, the lower formula as
// quoted in Kreith, Mechanical Engineering Handbook, 1999; the coefficients of
// the upper one are from memory. From a tenth below to a tenth above the crossing one
// passes smoothly into the other. Range: [VapourDiffusivityRange]; error:
// [VapourDiffusivityUncertainty].
func VapourDiffusivity(T, p float64) float64 {
	atmospheres := p / StandardPressure
	x := (T/diffusivityBreak - 1 + diffusivityBlend) / (2 * diffusivityBlend)
	switch {
	case x <= 0:
		return 1.87e-10 * math.Pow(T, 2.072) / atmospheres
	case x >= 1:
		return 2.75e-9 * math.Pow(T, 1.632) / atmospheres
	}
	above := x * x * x * (10 + x*(6*x-15))
	return ((1-above)*1.87e-10*math.Pow(T, 2.072) + above*2.75e-9*math.Pow(T, 1.632)) / atmospheres
}

// diffusivityFloor is the least relative uncertainty of the vapour
// diffusivity. The published formulas cross near 320 K, where their spread
// vanishes and says nothing; 5 % is a judgement, no source.
const diffusivityFloor = 0.05

// VapourDiffusivityUncertainty returns the relative uncertainty [-] of
// [VapourDiffusivity] at T [K]: the spread, largest less smallest over
// smallest, between it and two other published formulas, and never less than
// 5 %. The others are 2.178e-5 (T/273.15)^1.81 (Massman, Atmospheric
// Environment 32 (1998) 1111, constants from memory) and 0.26e-4 (T/298)^1.5
// (Incropera & DeWitt, Table A.8). The spread is 5 % at 20 °C and 11 % at
// 110 °C.
func VapourDiffusivityUncertainty(T float64) float64 {
	used := VapourDiffusivity(T, StandardPressure)
	massman := massmanDiffusivity(T)
	incropera := incroperaDiffusivity(T)
	high := max(used, massman, incropera)
	low := min(used, massman, incropera)
	return max(high/low-1, diffusivityFloor)
}

// massmanDiffusivity is Massman's formula [m2/s] at one atmosphere, T in K.
func massmanDiffusivity(T float64) float64 { return 2.178e-5 * math.Pow(T/273.15, 1.81) }

// incroperaDiffusivity scales Table A.8 of Incropera & DeWitt [m2/s] to T [K]
// at one atmosphere.
func incroperaDiffusivity(T float64) float64 { return 0.26e-4 * math.Pow(T/298, 1.5) }
