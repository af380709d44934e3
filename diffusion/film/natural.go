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
// within 0.8 %; within a factor of 1.4 of a joint one passes smoothly into the
// other, so that Nu has no jump where the strand's temperature crosses it.
func HorizontalMorgan(ra float64) float64 {
	pieces := [...]struct{ from, c, n float64 }{
		{0, 0.675, 0.058}, {1e-2, 1.02, 0.148}, {1e2, 0.850, 0.188}, {1e4, 0.480, 0.250}, {1e7, 0.125, 0.333},
	}
	i := 0
	for i < len(pieces)-1 && ra*joint >= pieces[i+1].from {
		i++
	}
	p := pieces[i]
	nu := p.c * math.Pow(ra, p.n)
	if i == 0 || ra >= p.from*joint {
		return nu
	}
	before := pieces[i-1]
	x := math.Log(ra*joint/p.from) / (2 * math.Log(joint))
	below := before.c * math.Pow(ra, before.n)
	return below * math.Pow(nu/below, x*x*x*(10+x*(6*x-15)))
}

// joint is the factor either side of a joint of Morgan's pieces over which they
// pass into each other.
const joint = 1.4

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

// naturalNumber is the Nusselt number of still air on the diameter. Of the two for a level
// cylinder Morgan's is the one used: it was fitted piece by piece, and its piece
// from 0.01 to 100, where a strand lies, rests on measurements of heated wires.
// Churchill & Chu drew one curve through more than twenty decades; at Ra of 10 it lies a fifth
// below. The gap between the two is the uncertainty.
func naturalNumber(c Conditions, s state) float64 {
	if c.Vertical {
		ratio := c.HeatedLength / c.Diameter
		return VerticalSlender(s.rayleigh*ratio*ratio*ratio, s.prandtl, ratio) / ratio
	}
	return HorizontalMorgan(max(s.rayleigh, leastRayleigh))
}

// natural tells of a Nusselt number of still air.
func natural(c Conditions, s state, nusselt float64) result {
	if c.Vertical {
		return result{
			nusselt: nusselt, uncertainty: verticalDoubt,
			name: "Le Fevre-Ede 1956", source: "Le Fevre & Ede, 9th Int. Congr. Appl. Mech., 1956 (from memory)",
		}
	}
	r := result{nusselt: nusselt, name: "Morgan 1975", source: "Morgan, Adv. Heat Transfer 11 (1975) 199; Incropera & DeWitt, Table 9.1"}
	if s.rayleigh < leastRayleigh {
		r.notes = append(r.notes, fmt.Sprintf(
			"natural convection: Rayleigh number %.2g is below 1e-10, the least of Morgan's table, and is taken as that", s.rayleigh))
	}
	r.uncertainty = max(naturalDoubt, gap(nusselt, HorizontalChurchillChu(max(s.rayleigh, leastRayleigh), s.prandtl)))
	return r
}
