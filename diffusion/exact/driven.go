package exact

import "math"

// RampMean returns the volume mean of c/(K a²/D) [-] in a cylinder that starts
// at zero and whose surface rises linearly, c(a, t) = K t, with K in units of c
// per second:
//
//	Fo − 1/8 + 4 Σ exp(−j² Fo)/j⁴,   J0(j) = 0.
//
// Valid for Fo = 0 or Fo ≥ MinFourier [-]. Error below 1e-15 + 1e-15 Fo. By
// Duhamel's integral from ConstantUptake; Crank, ch. 5 (chapter from
// memory).
func RampMean(Fo float64) float64 {
	switch {
	case Fo == 0:
		return 0
	case !inSeries(Fo):
		return math.NaN()
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		square := j0Zero(k) * j0Zero(k)
		sum += 4 / (square * square) * math.Exp(-square*Fo)
	}
	return Fo - 1.0/8 + sum
}

// RampProfile returns c/(K a²/D) [-] at the relative radius x in [0, 1] [-] in
// the case of RampMean:
//
//	Fo − (1 − x²)/4 + 2 Σ J0(j x)/[j³ J1(j)] exp(−j² Fo),   J0(j) = 0.
//
// Valid for Fo = 0 or Fo ≥ MinFourier [-]. Error below 1e-14 + 1e-15 Fo.
func RampProfile(x, Fo float64) float64 {
	switch {
	case !inUnit(x):
		return math.NaN()
	case Fo == 0:
		return 0
	case !inSeries(Fo):
		return math.NaN()
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		j := j0Zero(k)
		sum += 2 * math.J0(j*x) / (j * j * j * math.J1(j)) * math.Exp(-j*j*Fo)
	}
	return Fo - (1-x*x)/4 + sum
}

// ApproachMean returns the volume mean of c/c∞ [-] in a cylinder that starts at
// zero and whose surface approaches c∞ exponentially,
// c(a, t) = c∞ [1 − exp(−b Fo)], with b [-] the rate of approach times a²/D:
//
//	1 − exp(−b Fo) 2 J1(√b)/[√b J0(√b)] + 4 b Σ exp(−j² Fo)/[j² (j² − b)].
//
// Valid for 0 < b ≤ 1e10 and for Fo = 0 or Fo ≥ MinFourier [-]. Where √b lies
// within 0.003 of a zero of J0, two terms grow without limit and cancel, and NaN
// is returned. Error below 1e-9, and below 1e-12 where √b is 0.1 away.
// Crank, ch. 5 (chapter from memory).
func ApproachMean(b, Fo float64) float64 {
	root := math.Sqrt(b)
	quotient := 2 * math.J1(root) / (root * math.J0(root))
	return approach(b, Fo, quotient, func(j float64) float64 { return 4 / (j * j) })
}

// ApproachProfile returns c/c∞ [-] at the relative radius x in [0, 1] [-] in
// the case of ApproachMean, with the same ranges and error:
//
//	1 − exp(−b Fo) J0(√b x)/J0(√b) + 2 b Σ J0(j x) exp(−j² Fo)/[j J1(j) (j² − b)].
func ApproachProfile(b, x, Fo float64) float64 {
	if !inUnit(x) {
		return math.NaN()
	}
	root := math.Sqrt(b)
	quotient := math.J0(root*x) / math.J0(root)
	return approach(b, Fo, quotient, func(j float64) float64 { return 2 * math.J0(j*x) / (j * math.J1(j)) })
}

// approach sums 1 − quotient exp(−b Fo) + b Σ weight(j) exp(−j² Fo)/(j² − b),
// where weight(j) exp(−j² Fo) is the answer to a surface held at zero.
func approach(b, Fo, quotient float64, weight func(j float64) float64) float64 {
	const apart = 0.003 // the cancellation costs some 1e-16 √b/apart²
	const fastest = 1e10
	switch {
	case !(b > 0 && b <= fastest):
		return math.NaN()
	case Fo == 0:
		return 0
	case !inSeries(Fo) || math.Abs(math.Sqrt(b)-nearestZero(math.Sqrt(b))) < apart:
		return math.NaN()
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		j := j0Zero(k)
		sum += b * weight(j) / (j*j - b) * math.Exp(-j*j*Fo)
	}
	return 1 - quotient*math.Exp(-b*Fo) + sum
}

// nearestZero returns the zero of J0 next to z.
func nearestZero(z float64) float64 {
	return j0Zero(int(math.Max(1, math.Round(z/math.Pi+0.25))))
}

// Hold is a time during which the diffusivity stays the same.
type Hold struct {
	Duration    float64 // [s], ≥ 0
	Diffusivity float64 // [m²/s], ≥ 0
}

// ReducedTime returns the Fourier number Σ D Δt / a² [-] after all holds, for
// the radius a > 0 [m]. While the surface is held at one value, or sealed, a
// diffusivity that varies in time alone enters only through this number, so
// that ConstantUptake and ConstantProfile at it are exact. With no holds it is
// zero. Crank, ch. 7 (chapter from memory).
func ReducedTime(radius float64, holds ...Hold) float64 {
	if !(radius > 0) {
		return math.NaN()
	}
	sum := 0.0
	for _, hold := range holds {
		if !(hold.Duration >= 0) || !(hold.Diffusivity >= 0) {
			return math.NaN()
		}
		sum += hold.Diffusivity * hold.Duration
	}
	return sum / (radius * radius)
}
