package heat

import (
	"math"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// gravity is the standard acceleration of free fall [m/s2].
const gravity = 9.80665

// VerticalPlate returns the Nusselt number [-] on the height of a vertical plate in still air at Rayleigh
// number ra [-] on the height and Prandtl number pr [-].
//
//	Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}²
//
// Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323; Incropera & DeWitt eq. 9.26; for all Ra up to 1e12. The
// laminar formula of the same authors lies 5 % below it at 1e7, 15 % at 1e8 and a quarter at 1e9.
func VerticalPlate(ra, pr float64) float64 {
	root := 0.825 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.492/pr, 9.0/16), 8.0/27)
	return root * root
}

// PlateUp returns the Nusselt number [-] on area over perimeter of a level plate whose hot side looks up, or whose
// cold side looks down, at Rayleigh number ra [-] on the same length.
//
//	Nu = 0.54 Ra^¼ (1e4 to 1e7), 0.15 Ra^⅓ (1e7 to 1e11)
//
// McAdams, Heat Transmission (1954), with the length of Lloyd & Moran, J. Heat Transfer 96 (1974) 443; Incropera &
// DeWitt eq. 9.30 and 9.31. The larger of the two is taken, so that Nu does not jump: they meet at 4.7e6, and at 1e7 the
// second lies 6 % above the first.
func PlateUp(ra float64) float64 {
	return max(0.54*math.Pow(ra, 0.25), 0.15*math.Cbrt(ra))
}

// PlateDown returns the Nusselt number [-] on area over perimeter of a level plate whose hot side looks down, or
// whose cold side looks up, at Rayleigh number ra [-] on the same length.
//
//	Nu = 0.27 Ra^¼ (1e5 to 1e10)
//
// McAdams, Heat Transmission (1954); Incropera & DeWitt, 6th edition, eq. 9.32. The seventh has 0.52 Ra^⅕, 14 %
// less at 1e7.
func PlateDown(ra float64) float64 { return 0.27 * math.Pow(ra, 0.25) }

// VerticalCylinder returns the Nusselt number [-] on the height of a vertical cylinder in still air; ra and pr as for
// VerticalPlate, slender is its height over its diameter [-].
//
//	Nu = 2 slender/ln(1 + 2 slender/Nu_plate)
//
// The film of a vertical plate wrapped round a cylinder (thin-layer method of Raithby & Hollands, Adv. Heat Transfer 11
// (1975) 265): for wide cylinders that of the plate.
func VerticalCylinder(ra, pr, slender float64) float64 {
	return 2 * slender / math.Log1p(2*slender/VerticalPlate(ra, pr))
}

// DuctFlow returns the mean Nusselt number [-] on the hydraulic diameter in a duct at Reynolds number re [-] on it,
// Prandtl number pr [-] and hydraulic diameter over length ratio [-].
//
//	Nu = 3.66 + 0.0668 Gz/(1 + 0.04 Gz^⅔),  Gz = ratio Re Pr   up to Re 2300
//	Nu = (f/8)(Re - 1000) Pr/[1 + 12.7 (f/8)^½ (Pr^⅔ - 1)],  f = (0.790 ln Re - 1.64)^-2   from Re 4000
//
// Hausen (1943) and Gnielinski (1976), Incropera & DeWitt eq. 8.57 and 8.62; between them linear in Re as in Gnielinski,
// Int. J. Heat Mass Transfer 63 (2013) 134 (from memory). The wall has one temperature; within some 10 % for a round tube with
// an even inlet, no better than 25 % in a chamber.
func DuctFlow(re, pr, ratio float64) float64 {
	const laminar, turbulent = 2300.0, 4000.0
	if re <= laminar {
		return hausen(re * pr * ratio)
	}
	if re >= turbulent {
		return gnielinski(re, pr)
	}
	share := (re - laminar) / (turbulent - laminar)
	return (1-share)*hausen(laminar*pr*ratio) + share*gnielinski(turbulent, pr)
}

func hausen(gz float64) float64 {
	return 3.66 + 0.0668*gz/(1+0.04*math.Pow(gz, 2.0/3))
}

func gnielinski(re, pr float64) float64 {
	f := 1 / math.Pow(0.790*math.Log(re)-1.64, 2) / 8
	return f * (re - 1000) * pr / (1 + 12.7*math.Sqrt(f)*(math.Pow(pr, 2.0/3)-1))
}

// form is how a face stands in still air.
type form int

const (
	upright  form = iota // a vertical plate; length is its height
	upward               // hot looking up or cold looking down; length is area over perimeter
	downward             // hot looking down or cold looking up; the same
	level                // a level cylinder; length is its diameter
	pillar               // a vertical cylinder; length is its height
)

// surface is a face as the air sees it.
type surface struct {
	form     form
	length   float64 // [m]
	diameter float64 // of a pillar [m]
}

// coefficient is that of natural convection [W/(m2 K)] between a surface and air of the temperatures given [K], at pressure p [Pa].
func (s surface) coefficient(T, air, p float64) float64 {
	mean := (T + air) / 2
	nu := humidair.KinematicViscosity(mean, 0, p)
	pr := humidair.PrandtlNumber(mean, 0, p)
	ra := gravity * math.Abs(T-air) / mean * s.length * s.length * s.length / (nu * nu) * pr
	return s.number(ra, pr) * humidair.Conductivity(mean) / s.length
}

// number is the Nusselt number on the length.
func (s surface) number(ra, pr float64) float64 {
	switch s.form {
	case upward:
		return PlateUp(ra)
	case downward:
		return PlateDown(ra)
	case level:
		return film.HorizontalChurchillChu(ra, pr)
	case pillar:
		return VerticalCylinder(ra, pr, s.length/s.diameter)
	}
	return VerticalPlate(ra, pr)
}
