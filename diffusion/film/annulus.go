package film

import (
	"fmt"
	"math"
)

// The span of strand diameter over bore [-] for which [AnnulusInner] has table
// values.
const (
	AnnulusLeast = 0.02
	AnnulusMost  = 1.0
)

// annulusTable holds pairs of ratio and Nu_i: laminar, fully developed, inner
// wall at one temperature, outer wall insulated; computed by a Chebyshev solution of
// the eigenvalue problem. It agrees with the printed digits of Kays & Crawford
// (Incropera & DeWitt, Table 8.2): 17.46, 11.56, 7.37, 5.74, 4.86.
func annulusTable() [6][2]float64 {
	return [6][2]float64{
		{0.02, 32.298217}, {0.05, 17.458765}, {0.10, 11.559124},
		{0.25, 7.370681}, {0.50, 5.738103}, {1, 4.860736},
	}
}

// conductionForm is the Nusselt number on the hydraulic diameter of conduction
// across the gap, 2(1 - r)/(r ln(1/r)), with its limit 2 at r = 1.
func conductionForm(ratio float64) float64 {
	gap := 1 - ratio
	if gap < 1e-9 {
		return 2
	}
	return -2 * gap / (ratio * math.Log1p(-gap))
}

// AnnulusInner returns the Nusselt number [-] on the hydraulic diameter, bore
// less strand diameter, at the strand in fully developed laminar flow through
// the tube around it; ratio [-] is the strand's diameter over the bore, above 0
// and up to 1. Table values divided by the Nusselt number of pure conduction
// are interpolated linearly in the root of the ratio, to 0.3 %. Below
// [AnnulusLeast] the end piece continues.
func AnnulusInner(ratio float64) float64 {
	table := annulusTable()
	i := 1
	for i < len(table)-1 && ratio > table[i][0] {
		i++
	}
	a, b := table[i-1], table[i]
	fa, fb := a[1]/conductionForm(a[0]), b[1]/conductionForm(b[0])
	share := (math.Sqrt(ratio) - math.Sqrt(a[0])) / (math.Sqrt(b[0]) - math.Sqrt(a[0]))
	return (fa + share*(fb-fa)) * conductionForm(ratio)
}

const (
	laminarDuct = 2300.0 // Reynolds number on the hydraulic diameter, Incropera & DeWitt ch. 8
	// entryFactor times Re Pr gives the thermal entry length in hydraulic
	// diameters, Incropera & DeWitt eq. 8.23.
	entryFactor = 0.05
	// convectiveGap is the Rayleigh number on the gap above which natural
	// convection adds to conduction in an annulus, about 1000; from memory.
	convectiveGap = 1000.0
	// annulusDoubt covers an eccentric strand, a warm outer wall and entry
	// effects; a judgement, no source.
	annulusDoubt = 0.20
)

func annulus(c Conditions, s state) result {
	ratio := c.Diameter / c.Bore
	width := c.Bore - c.Diameter // hydraulic diameter [m]
	re := s.reynolds * width / c.Diameter
	r := result{
		nusselt: AnnulusInner(ratio) * c.Diameter / width, uncertainty: annulusDoubt,
		name: "laminar annulus", source: "Kays & Crawford, Convective Heat and Mass Transfer; Incropera & DeWitt, Table 8.2",
	}
	if ratio < AnnulusLeast {
		r.notes = append(r.notes, fmt.Sprintf("annulus: diameter over bore %.2g is below 0.02, the least of the table", ratio))
	}
	if c.AirSpeed == 0 {
		r.notes = append(r.notes, "annulus: no air speed given; the value is that of air which moves on")
	}
	if re > laminarDuct {
		r.notes = append(r.notes, fmt.Sprintf("annulus: Reynolds number %.3g is above 2300; the laminar value is too low", re))
	}
	if entry := entryFactor * re * s.prandtl * width; c.HeatedLength > 0 && c.HeatedLength < entry {
		r.notes = append(r.notes, fmt.Sprintf(
			"annulus: heated length %.2g m is within the thermal entry length of %.2g m; the developed value is too low", c.HeatedLength, entry))
	}
	half := width / 2 / c.Diameter
	if ra := s.rayleigh * half * half * half; ra > convectiveGap {
		r.notes = append(r.notes, fmt.Sprintf("annulus: Rayleigh number on the gap is %.2g; natural convection is left out", ra))
	}
	return r
}
