package film

import (
	"fmt"
	"math"
)

// HorizontalMorgan returns the Nusselt number [-] of a level cylinder in still
// air at Rayleigh number ra [-] on the diameter.
//
//	Nu = C Ra^n
//
// Morgan, Adv. Heat Transfer 11 (1975) 199, with C and n of Incropera & DeWitt,
// Table 9.1; for Ra from 1e-10 to 1e12. The pieces join within 0.2 %, at 1e7
// within 0.8 %.
func HorizontalMorgan(ra float64) float64 {
	c, n := 0.675, 0.058
	switch {
	case ra >= 1e7:
		c, n = 0.125, 0.333
	case ra >= 1e4:
		c, n = 0.480, 0.250
	case ra >= 1e2:
		c, n = 0.850, 0.188
	case ra >= 1e-2:
		c, n = 1.02, 0.148
	}
	return c * math.Pow(ra, n)
}

// leastRayleigh is the least Rayleigh number of Morgan's table.
const leastRayleigh = 1e-10

// HorizontalChurchillChu returns the Nusselt number [-] of a level cylinder in
// still air at Rayleigh number ra [-] on the diameter and Prandtl number pr [-].
//
//	Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}²
//
// Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1049; for Ra up to 1e12.
// As ra goes to 0 it tends to 0.36.
func HorizontalChurchillChu(ra, pr float64) float64 {
	root := 0.60 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.559/pr, 9.0/16), 8.0/27)
	return root * root
}

// VerticalSlender returns the mean Nusselt number [-] on the length of a
// vertical thin cylinder in still air, at Rayleigh number ra [-] on the length,
// Prandtl number pr [-] and length over diameter ratio [-].
//
//	Nu_L = (4/3) [7 Ra Pr/(5(20 + 21 Pr))]^¼ + 4(272 + 315 Pr) ratio/(35(64 + 63 Pr))
//
// Le Fevre & Ede 1956 (from memory). The formula for a plate is too low by a
// factor of about three for a strand.
func VerticalSlender(ra, pr, ratio float64) float64 {
	return 4.0/3*math.Pow(7*ra*pr/(5*(20+21*pr)), 0.25) + 4*(272+315*pr)*ratio/(35*(64+63*pr))
}

const (
	// naturalDoubt is the least relative uncertainty of a level cylinder in
	// still air; a judgement, no source.
	naturalDoubt = 0.10
	// verticalDoubt is the relative uncertainty of VerticalSlender. A plate's film wrapped
	// round a cylinder, as in AxialFlow, comes out 17 % higher for a strand.
	verticalDoubt = 0.20
)

// naturalConvection picks the correlation for still air. Of the two for a level
// cylinder Morgan's is the one used: it was fitted piece by piece, and its piece
// from 0.01 to 100, where a strand lies, rests on measurements of heated wires.
// Churchill & Chu drew one curve through more than twenty decades; at Ra of 10 it lies a fifth
// below. The gap between the two is the uncertainty.
func naturalConvection(c Conditions, s state) result {
	if c.Vertical {
		ratio := c.HeatedLength / c.Diameter
		onLength := VerticalSlender(s.rayleigh*ratio*ratio*ratio, s.prandtl, ratio)
		return result{
			nusselt: onLength / ratio, uncertainty: verticalDoubt,
			name: "Le Fevre-Ede 1956", source: "Le Fevre & Ede, 9th Int. Congr. Appl. Mech., 1956 (from memory)",
		}
	}
	r := result{name: "Morgan 1975", source: "Morgan, Adv. Heat Transfer 11 (1975) 199; Incropera & DeWitt, Table 9.1"}
	ra := s.rayleigh
	if ra < leastRayleigh {
		r.notes = append(r.notes, fmt.Sprintf(
			"natural convection: Rayleigh number %.2g is below 1e-10, the least of Morgan's table, and is taken as that", ra))
		ra = leastRayleigh
	}
	r.nusselt = HorizontalMorgan(ra)
	r.uncertainty = max(naturalDoubt, gap(r.nusselt, HorizontalChurchillChu(ra, s.prandtl)))
	return r
}
