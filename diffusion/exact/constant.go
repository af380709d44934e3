package exact

import "math"

// MinFourier is the smallest Fourier number above zero [-] at which the series
// without a short-time form are summed; it takes about 20 000 terms.
const MinFourier = 1e-8

// terms returns how many terms of a series with exp(−ζ² Fo) matter: ζ grows by
// π from term to term, and exp(−40) is 4e-18.
func terms(Fo float64) int {
	return int(math.Sqrt(40/Fo)/math.Pi) + 3
}

// inSeries tells whether a series can be summed at Fo.
func inSeries(Fo float64) bool { return Fo >= MinFourier && !math.IsInf(Fo, 1) }

// ConstantUptake returns the fractional exchange Mt/M∞ [-] of a cylinder with a
// uniform start whose surface is held at another value, at the Fourier number
// Fo ≥ 0 [-]:
//
//	Mt/M∞ = 1 − Σ (4/j²) exp(−j² Fo),   J0(j) = 0.
//
// Below Fo = 1e-4 the short-time expansion in √Fo is used. Error below 1e-12;
// relative to the value below 1e-10 at any Fo. Crank, eq. 5.23 (number from
// memory).
func ConstantUptake(Fo float64) float64 {
	const early = 1e-4
	switch {
	case !(Fo >= 0):
		return math.NaN()
	case Fo < early:
		return earlyUptake(Fo)
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		j := j0Zero(k)
		sum += 4 / (j * j) * math.Exp(-j*j*Fo)
	}
	return 1 - sum
}

// earlyUptake is the expansion of ConstantUptake for small Fo,
//
//	(4/√π) Fo^½ − Fo − Fo^{3/2}/(3√π) − Fo²/8 − 5 Fo^{5/2}/(24√π).
//
// The first three terms are Crank's eq. 5.25 (number from memory); the others
// follow in the same way from the expansion of I1/I0 for a large argument; the
// next would be −13 Fo³/96.
func earlyUptake(Fo float64) float64 {
	q := math.Sqrt(Fo)
	const s = 1 / math.SqrtPi
	return q * (4*s - q*(1+q*(s/3+q*(1.0/8+q*5*s/24))))
}

// ConstantProfile returns what is left of the initial difference,
// (c − cs)/(c0 − cs) [-], at the relative radius x in [0, 1] [-] and the
// Fourier number Fo ≥ 0 [-], with the surface held at cs from Fo = 0 on:
//
//	Σ 2 J0(j x) / [j J1(j)] exp(−j² Fo),   J0(j) = 0.
//
// Below Fo = 1e-5 the short-time expansion in repeated integrals of the error
// function is used. Error below 1e-9. Crank, eq. 5.22; Carslaw & Jaeger,
// sec. 13.3 (numbers from memory).
func ConstantProfile(x, Fo float64) float64 {
	const early = 1e-5
	switch {
	case !inUnit(x) || !(Fo >= 0):
		return math.NaN()
	case x == 1:
		return 0
	case Fo < early:
		return earlyProfile(x, Fo)
	}
	sum := 0.0
	for k := terms(Fo); k >= 1; k-- {
		j := j0Zero(k)
		sum += 2 * math.J0(j*x) / (j * math.J1(j)) * math.Exp(-j*j*Fo)
	}
	return sum
}

// earlyProfile is the expansion of ConstantProfile for Fo below 1e-5, where
// nothing is felt at x < 1/2.
func earlyProfile(x, Fo float64) float64 {
	if x < 0.5 || Fo == 0 {
		return 1
	}
	q, y := math.Sqrt(Fo), 1-x
	z := y / (2 * q)
	e := math.Erfc(z)
	once := math.Exp(-z*z)/math.SqrtPi - z*e // the integral of erfc from z on
	twice := (e - 2*z*once) / 4              // the integral of that
	root := math.Sqrt(x)
	return 1 - (e+y*q/(4*x)*once+y*(9+7*x)*Fo/(32*x*x)*twice)/root
}
