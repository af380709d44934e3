package heat

import (
	"math"

	"strandry/materials/humidair"
)

// SharpEdge is the discharge coefficient [-] of a small opening with sharp edges, 0.60 to 0.65 in most books (from memory). Long narrow gaps pass less.
const SharpEdge = 0.61

// Opening is a place through which air passes.
type Opening struct {
	Area      float64 // [m2], from 0
	Discharge float64 // discharge coefficient [-], see SharpEdge
}

func (o Opening) check(name string) error {
	return within(bound{"area of the " + name, o.Area, 0, 100, "m2", 0}, fraction("discharge coefficient of the "+name, o.Discharge))
}

// Slot returns the mass flow [kg/s] through an opening under a difference of pressure [Pa]; density [kg/m3] is that of the air that
// enters it.
//
//	m = Cd A (2 ρ Δp)^½
//
// ASHRAE Handbook of Fundamentals, ventilation and infiltration.
func Slot(o Opening, pressure, density float64) (float64, error) {
	if err := o.check("opening"); err != nil {
		return 0, err
	}
	err := within(bound{"difference of pressure", pressure, 0, largestPressure, "Pa", 0}, bound{"density", density, 0, 1e3, "kg/m3", 0})
	if err != nil {
		return 0, err
	}
	return o.Discharge * o.Area * math.Sqrt(2*density*pressure), nil
}

// densities are those of dry air in the room and in the chamber [kg/m3].
func (c Climate) densities() (room, inside float64) {
	return humidair.Density(c.Room, 0, c.Pressure), humidair.Density(c.Inside, 0, c.Pressure)
}

// Stack returns the mass flow [kg/s] of room air that a warm chamber draws in through a low opening and drives out through
// one that lies the height [m] above; zero where either is shut.
//
//	m = [2 g H (ρr - ρi)/(1/(ρr (Cd A)²) + 1/(ρi (Cd A)²))]^½
//
// Both openings in a row under the weight of the column; with the neutral level between them it is the stack effect of the
// ASHRAE Handbook of Fundamentals, 1997, ch. 25, eq. 37. Densities are those of dry air.
func Stack(low, high Opening, height float64, c Climate) (float64, error) {
	for i, o := range []Opening{low, high} {
		if err := o.check([]string{"low opening", "high opening"}[i]); err != nil {
			return 0, err
		}
	}
	if err := within(bound{"height between the openings", height, 0, mostLength, "m", 0}); err != nil {
		return 0, err
	}
	if err := c.check(); err != nil {
		return 0, err
	}
	a, b := low.Discharge*low.Area, high.Discharge*high.Area
	if a == 0 || b == 0 {
		return 0, nil
	}
	room, inside := c.densities()
	return math.Sqrt(2 * gravity * height * (room - inside) / (1/(room*a*a) + 1/(inside*b*b))), nil
}

// Mouth returns the mass flow [kg/s] of room air that enters a warm chamber through the lower part of one upright opening of the
// width and height given [m], while as much leaves through its upper part.
//
//	m = ⅔ Cd W H^1.5 (2 g ρr (ρr - ρi))^½/[1 + (ρr/ρi)^⅓]^1.5,  Cd = 0.40 + 0.0045 ΔT, at most 0.65
//
// Bernoulli above and below the neutral level; discharge coefficient for flow both ways: ASHRAE Handbook of Fundamentals, 1997,
// ch. 25, eq. 38, measured at doors. A mouth of a few centimetres passes less.
func Mouth(width, height float64, c Climate) (float64, error) {
	if err := within(bound{"width of the opening", width, 0, mostLength, "m", 0}, bound{"height of the opening", height, 0, mostLength, "m", 0}); err != nil {
		return 0, err
	}
	if err := c.check(); err != nil {
		return 0, err
	}
	room, inside := c.densities()
	discharge := min(0.40+0.0045*(c.Inside-c.Room), 0.65)
	fall := math.Sqrt(2 * gravity * room * (room - inside))
	return 2.0 / 3 * discharge * width * math.Pow(height, 1.5) * fall / math.Pow(1+math.Cbrt(room/inside), 1.5), nil
}
