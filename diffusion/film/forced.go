package film

import (
	"fmt"
	"math"
)

// CrossFlow returns the Nusselt number [-] of a cylinder in cross flow at
// Reynolds number re [-] on the diameter and Prandtl number pr [-].
//
//	Nu = 0.3 + 0.62 Re^½ Pr^⅓ / [1 + (0.4/Pr)^⅔]^¼ · [1 + (Re/282000)^⅝]^⅘
//
// Churchill & Bernstein, J. Heat Transfer 99 (1977) 300; for Re Pr ≥ 0.2,
// within about 20 %. Below that it tends to 0.3.
func CrossFlow(re, pr float64) float64 {
	base := 0.62 * math.Sqrt(re) * math.Cbrt(pr) / math.Pow(1+math.Pow(0.4/pr, 2.0/3), 0.25)
	return 0.3 + base*math.Pow(1+math.Pow(re/282000, 0.625), 0.8)
}

// leastPeclet is the least Re Pr of CrossFlow's source.
const leastPeclet = 0.2

// Hilpert returns the Nusselt number [-] of a cylinder in cross flow, a second
// opinion beside [CrossFlow].
//
//	Nu = C Re^m Pr^⅓
//
// Hilpert, Forsch. Ing.-Wes. 4 (1933) 215, with C and m of Incropera & DeWitt,
// Table 7.2; for Re from 0.4 to 400 000. The end pieces continue beyond.
func Hilpert(re, pr float64) float64 {
	c, m := 0.989, 0.330
	switch {
	case re >= 40000:
		c, m = 0.027, 0.805
	case re >= 4000:
		c, m = 0.193, 0.618
	case re >= 40:
		c, m = 0.683, 0.466
	case re >= 4:
		c, m = 0.911, 0.385
	}
	return c * math.Pow(re, m) * math.Cbrt(pr)
}

// AxialFlow returns the mean Nusselt number [-] on the diameter of a thin
// cylinder in laminar flow along it, at Reynolds number re [-] on the diameter,
// Prandtl number pr [-] and heated length over diameter ratio [-].
//
//	Nu = 2/ln(1 + 2/Nu_plate),  Nu_plate = 0.664 (Re/ratio)^½ Pr^⅓
//
// Nu_plate is the laminar flat plate (Pohlhausen 1921; Incropera & DeWitt
// eq. 7.30), and the logarithm turns its film into one wrapped round a cylinder
// (Langmuir 1912; the thin-layer method of Raithby & Hollands, Adv. Heat Transfer
// 11 (1975) 265). At both ends the form is right: a short strand is a plate, and
// for a long one Nu falls as 4/ln(C ν x/(U a²)) as Glauert & Lighthill (1955)
// found. Integrating the laminar boundary-layer equations for Pr = 0.7 gives values up to
// 8 % higher and at most 1 % lower from ν x/(U a²) = 0.001 to 10 000. As re goes
// to 0 so does the result, slowly.
func AxialFlow(re, pr, ratio float64) float64 {
	plate := 0.664 * math.Sqrt(re/ratio) * math.Cbrt(pr)
	if plate == 0 {
		return 0
	}
	return 2 / math.Log1p(2/plate)
}

// axialDoubt is the relative uncertainty of AxialFlow: running filaments lose about a
// third more heat than the laminar layer allows (Kase & Matsuo, J. Polym. Sci. A
// 3 (1965) 2541, Nu = 0.42 Re^0.334, from memory).
const axialDoubt = 0.35

// crossDoubt is the scatter of data about CrossFlow given by its authors.
const crossDoubt = 0.20

// across tells of a Nusselt number of [CrossFlow].
func across(s state, nusselt float64) result {
	r := result{
		nusselt: nusselt, uncertainty: crossDoubt,
		name: "Churchill-Bernstein 1977", source: "Churchill & Bernstein, J. Heat Transfer 99 (1977) 300",
	}
	if peclet := s.reynolds * s.prandtl; peclet < leastPeclet {
		r.notes = append(r.notes, fmt.Sprintf("cross flow: Re Pr = %.2g is below 0.2, the least of Churchill & Bernstein", peclet))
	}
	if s.reynolds >= 0.4 {
		r.uncertainty = max(r.uncertainty, gap(r.nusselt, Hilpert(s.reynolds, s.prandtl)))
	}
	return r
}

// turbulentLength is the Reynolds number on length above which a plate's
// boundary layer is turbulent, Incropera & DeWitt ch. 7.
const turbulentLength = 5e5

// along tells of a Nusselt number of [AxialFlow].
func along(c Conditions, s state, nusselt float64) result {
	ratio := c.HeatedLength / c.Diameter
	r := result{
		nusselt: nusselt, uncertainty: axialDoubt,
		name:   "laminar axial layer",
		source: "Pohlhausen 1921 plate, wrapped as in Raithby & Hollands, Adv. Heat Transfer 11 (1975) 265",
	}
	if re := s.reynolds * ratio; re > turbulentLength {
		r.notes = append(r.notes, fmt.Sprintf(
			"flow along the strand: Reynolds number on length %.2g is above 5e5; the laminar value may be low", re))
	}
	return r
}

// gap returns how far two opinions lie apart, larger over smaller less one [-].
func gap(a, b float64) float64 { return max(a, b)/min(a, b) - 1 }
