package exact

import "math"

// robinWeight returns Bi / [(ζ² + Bi²) J0(ζ)] at a root ζ. Where Bi exceeds ζ,
// J0(ζ) is small and is replaced by ζ J1(ζ)/Bi, which keeps the digits.
func robinWeight(Bi, z float64) float64 {
	if Bi < z {
		return Bi / ((z*z + Bi*Bi) * math.J0(z))
	}
	ratio := z / Bi
	return 1 / ((1 + ratio*ratio) * z * math.J1(z))
}

// RobinMean returns the volume mean of what is left of the initial difference,
// (c̄ − c∞)/(c0 − c∞) = 1 − Mt/M∞ [-], in a cylinder with a uniform start and a
// film at its surface, −D ∂c/∂r = k (c − c∞):
//
//	Σ 4 Bi² / [ζ² (ζ² + Bi²)] exp(−ζ² Fo),   ζ J1(ζ) = Bi J0(ζ).
//
// Valid for Bi > 0 [-] (+Inf: the surface held at c∞) and for Fo = 0 or
// Fo ≥ MinFourier [-]. Error below 1e-12. Crank, eq. 5.49 (number from memory).
func RobinMean(Bi, Fo float64) float64 {
	switch {
	case !(Bi > 0) || Fo != 0 && !inSeries(Fo):
		return math.NaN()
	case Fo == 0:
		return 1
	case math.IsInf(Bi, 1):
		return 1 - ConstantUptake(Fo)
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		z, _, _ := robinRoot(Bi, k)
		ratio := z / Bi
		sum += 4 / (z * z * (1 + ratio*ratio)) * math.Exp(-z*z*Fo)
	}
	return sum
}

// RobinProfile returns what is left of the initial difference,
// (c − c∞)/(c0 − c∞) [-], at the relative radius x in [0, 1] [-] (0 the centre,
// 1 the surface) in the case of RobinMean:
//
//	Σ 2 Bi J0(ζ x) / [(ζ² + Bi²) J0(ζ)] exp(−ζ² Fo),   ζ J1(ζ) = Bi J0(ζ).
//
// Valid for Bi > 0 [-] (+Inf: the surface held at c∞) and for Fo = 0 or
// Fo ≥ MinFourier [-]. Error below 1e-10 for Fo ≥ 1e-6. Crank, eq. 5.46 (number
// from memory).
func RobinProfile(Bi, x, Fo float64) float64 {
	switch {
	case !(Bi > 0) || !inUnit(x) || Fo != 0 && !inSeries(Fo):
		return math.NaN()
	case math.IsInf(Bi, 1):
		return ConstantProfile(x, Fo)
	case Fo == 0:
		return 1
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		z, _, _ := robinRoot(Bi, k)
		sum += 2 * robinWeight(Bi, z) * math.J0(z*x) * math.Exp(-z*z*Fo)
	}
	return sum
}
