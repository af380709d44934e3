package humidair

import (
	"fmt"
	"math"
)

// Salt is a salt whose saturated solution holds the air above it at a known
// relative humidity.
type Salt int

// The salts of Greenspan's fits.
const (
	LithiumChloride Salt = iota
	MagnesiumChloride
	MagnesiumNitrate
	SodiumChloride
	PotassiumChloride
	PotassiumSulfate
)

// String returns the name of the salt.
func (s Salt) String() string {
	switch s {
	case LithiumChloride:
		return "lithium chloride"
	case MagnesiumChloride:
		return "magnesium chloride"
	case MagnesiumNitrate:
		return "magnesium nitrate"
	case SodiumChloride:
		return "sodium chloride"
	case PotassiumChloride:
		return "potassium chloride"
	case PotassiumSulfate:
		return "potassium sulfate"
	}
	return fmt.Sprintf("Salt(%d)", int(s))
}

// greenspanFit returns the coefficients of RH% = Σ ci t^i, t in °C, and the
// highest temperature [°C] of the fit.
func greenspanFit(s Salt) (c [4]float64, highest float64, known bool) {
	switch s {
	case LithiumChloride:
		return [4]float64{11.2323, 0.00824245, -2.1489e-4}, 100, true
	case MagnesiumChloride:
		return [4]float64{33.6686, -0.00797397, -1.08988e-3}, 100, true
	case MagnesiumNitrate:
		return [4]float64{60.3514, -0.298153}, 50, true
	case SodiumChloride:
		return [4]float64{75.5164, 0.0398321, -2.65459e-3, 2.848e-5}, 80, true
	case PotassiumChloride:
		return [4]float64{88.619, -0.19334, 8.99706e-4}, 90, true
	case PotassiumSulfate:
		return [4]float64{98.7792, -0.0590502}, 50, true
	}
	return c, 0, false
}

// SaltRange returns the temperatures over which the fit of salt s holds. The
// upper limits are from memory.
func SaltRange(s Salt) Range {
	_, highest, _ := greenspanFit(s)
	return Range{celsiusZero, celsiusZero + highest, "Greenspan, J. Res. NBS 81A (1977) 89"}
}

// GreenspanSaltHumidity returns the relative humidity [-] over a saturated
// solution of the salt at T [K]: a fixed point for checking a humidity sensor.
// Greenspan, J. Res. NBS 81A (1977) 89, whose uncertainty is 0.002 to 0.005.
// It is an error to ask outside [SaltRange] or for an unknown salt.
func GreenspanSaltHumidity(s Salt, T float64) (float64, error) {
	c, _, known := greenspanFit(s)
	if !known {
		return 0, fmt.Errorf("%v: unknown salt; known are %v to %v", s, LithiumChloride, PotassiumSulfate)
	}
	if r := SaltRange(s); !r.Holds(T) {
		return 0, outside(s.String(), T, r)
	}
	t := T - celsiusZero
	return (c[0] + t*(c[1]+t*(c[2]+t*c[3]))) / 100, nil
}

// CalciumChlorideRange returns the temperatures over which
// [CalciumChlorideHumidity] holds.
func CalciumChlorideRange() Range {
	return Range{celsiusZero + 15, celsiusZero + 25, "CRC Handbook of Chemistry and Physics, constant humidity solutions (Wexler)"}
}

// CalciumChlorideHumidity returns the relative humidity [-] over calcium
// chloride that has become the hexahydrate, at T [K]: where a drying salt stops
// drying. 0.11 exp(1653 K/T) per cent, CRC Handbook of Chemistry and Physics,
// constant humidity solutions; within 0.02. Fresh anhydrous salt goes far lower.
func CalciumChlorideHumidity(T float64) (float64, error) {
	if r := CalciumChlorideRange(); !r.Holds(T) {
		return 0, outside("calcium chloride hexahydrate", T, r)
	}
	return 0.11 * math.Exp(1653/T) / 100, nil
}

func outside(what string, T float64, r Range) error {
	return fmt.Errorf("%s: humidity asked at %.2f °C; known from %g °C to %g °C (%s)",
		what, T-celsiusZero, r.Min-celsiusZero, r.Max-celsiusZero, r.Source)
}
