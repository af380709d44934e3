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
	if f, known := greenspanFit(s); known {
		return f.name
	}
	return fmt.Sprintf("Salt(%d)", int(s))
}

// fit is that of one salt.
type fit struct {
	name    string
	c       [4]float64 // RH% = Σ ci t^i, t in °C
	highest float64    // temperature [°C]
}

func greenspanFit(s Salt) (f fit, known bool) {
	all := [...]fit{
		LithiumChloride:   {"lithium chloride", [4]float64{11.2323, 0.00824245, -2.1489e-4}, 100},
		MagnesiumChloride: {"magnesium chloride", [4]float64{33.6686, -0.00797397, -1.08988e-3}, 100},
		MagnesiumNitrate:  {"magnesium nitrate", [4]float64{60.3514, -0.298153}, 50},
		SodiumChloride:    {"sodium chloride", [4]float64{75.5164, 0.0398321, -2.65459e-3, 2.848e-5}, 80},
		PotassiumChloride: {"potassium chloride", [4]float64{88.619, -0.19334, 8.99706e-4}, 90},
		PotassiumSulfate:  {"potassium sulfate", [4]float64{98.7792, -0.0590502}, 50},
	}
	if s < 0 || int(s) >= len(all) {
		return fit{}, false
	}
	return all[s], true
}

// SaltRange returns the temperatures over which the fit of salt s holds. The
// upper limits are from memory.
func SaltRange(s Salt) Range {
	f, _ := greenspanFit(s)
	return Range{celsiusZero, celsiusZero + f.highest, "Greenspan, J. Res. NBS 81A (1977) 89"}
}

// GreenspanSaltHumidity returns the relative humidity [-] over a saturated
// solution of the salt at T [K]: a fixed point for checking a humidity sensor.
// Greenspan, J. Res. NBS 81A (1977) 89, whose uncertainty is 0.002 to 0.005.
// It is an error to ask outside [SaltRange] or for an unknown salt.
func GreenspanSaltHumidity(s Salt, T float64) (float64, error) {
	f, known := greenspanFit(s)
	if !known {
		return 0, fmt.Errorf("%v: unknown salt; known are %v to %v", s, LithiumChloride, PotassiumSulfate)
	}
	if r := SaltRange(s); !r.Holds(T) {
		return 0, outside(s.String(), T, r)
	}
	t := T - celsiusZero
	return (f.c[0] + t*(f.c[1]+t*(f.c[2]+t*f.c[3]))) / 100, nil
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
