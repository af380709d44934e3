package film

import (
	"fmt"
	"math"
)

// Mixed combines the Nusselt numbers [-] of forced and of natural convection
// acting together.
//
//	Nu^n = Nu_F^n + Nu_N^n
//
// n is 3 for assisting flow and 4 for flow across the buoyancy, Incropera &
// DeWitt sec. 9.9.
func Mixed(forced, natural float64, n int) float64 {
	large, small := max(forced, natural), min(forced, natural)
	if large == 0 {
		return 0
	}
	return large * math.Pow(1+math.Pow(small/large, float64(n)), 1/float64(n))
}

// Bounds of Gr/Re² between which both kinds of convection count, a rule of
// common practice (Incropera & DeWitt sec. 9.9 says "near 1").
const leastMixed, mostMixed = 0.1, 10.0

// mixPower is the exponent with which forced and natural convection are joined.
func mixPower(c Conditions) int {
	if c.Vertical && c.Flow == Along {
		return 3
	}
	return 4
}

// mix tells of forced and natural convection together. The sum is formed at every speed, so
// that the coefficient is continuous in it. The relative uncertainties are
// weighted by the share of each term in the sum.
func mix(c Conditions, s state, forced, natural result) result {
	n := mixPower(c)
	out := result{nusselt: Mixed(forced.nusselt, natural.nusselt, n), notes: forced.notes}
	share := math.Pow(forced.nusselt/out.nusselt, float64(n))
	out.uncertainty = share*forced.uncertainty + (1-share)*natural.uncertainty

	grashof := s.rayleigh / s.prandtl
	square := s.reynolds * s.reynolds
	switch {
	case grashof < leastMixed*square:
		out.name, out.source = forced.name, forced.source
	case grashof >= mostMixed*square: // also at rest and without a difference, where both are 0
		out.name, out.source = natural.name, natural.source
		out.notes = append(natural.notes, fmt.Sprintf(
			"the air speed of %.2g m/s counts for little beside natural convection (Gr/Re² above 10)", c.AirSpeed))
	default:
		out.name = forced.name + " with " + natural.name
		out.source = forced.source + "; " + natural.source + "; joined as in Incropera & DeWitt sec. 9.9"
		out.notes = append(out.notes, natural.notes...)
		out.notes = append(out.notes, fmt.Sprintf("forced and natural convection both count: Gr/Re² = %.2g", grashof/square))
		if n == 3 {
			out.notes = append(out.notes, "flow along a vertical strand is taken to help the buoyancy; against it the coefficient is lower")
		}
	}
	return out
}
