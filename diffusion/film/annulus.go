package film

import (
	"fmt"
	"math"
)

// The span of strand diameter over bore [-] for which [AnnulusInner] and
// [DraggedInner] were fitted.
const (
	AnnulusLeast = 1e-3
	AnnulusMost  = 1.0
)

// AnnulusInner returns the Nusselt number [-] on the hydraulic diameter, bore
// less strand diameter, at the strand in fully developed laminar flow through
// the tube around it, the strand at one temperature and the tube insulated;
// ratio [-] is the strand's diameter over the bore, above 0 and up to 1.
//
// A Chebyshev polynomial in the fourth root of the ratio, times the Nusselt
// number of conduction, fitted to the eigenvalue problem (Chebyshev collocation, 110
// nodes): within 6e-8 of it from [AnnulusLeast] to [AnnulusMost]. It agrees with the
// printed digits of Kays & Crawford (Incropera & DeWitt, Table 8.2). Below
// [AnnulusLeast] the polynomial keeps its value there.
func AnnulusInner(ratio float64) float64 {
	return annulusFit(ratio, [...]float64{
		1.657083639, 0.6191755017, 0.1408329281, 0.01653727678, -2.372009272e-3, -8.887562512e-4,
		-5.374125104e-5, 5.061784132e-5, 4.277713356e-6, -6.518612524e-7, -8.325300144e-7, 1.289223195e-7,
	})
}

// DraggedInner is [AnnulusInner] for air that the strand drags along, with the
// profile of [DraggedFlow] in place of that of a flow under pressure; within 1.2e-7
// of the eigenvalue problem. The air is fastest at the strand, which makes it 15 %
// higher in wide bores and 60 % in narrow ones.
func DraggedInner(ratio float64) float64 {
	return annulusFit(ratio, [...]float64{
		2.285155796, 1.327304181, 0.303800098, 0.01383410878, -0.01098721593, -9.267479088e-4,
		4.632654111e-4, 5.632829081e-5, -2.647597544e-5, -2.250182978e-7, 4.875287317e-7, 1.75972256e-7,
	})
}

// annulusFit is the sum of Chebyshev polynomials times the number of conduction.
func annulusFit(ratio float64, c [12]float64) float64 {
	fourth := func(x float64) float64 { return math.Sqrt(math.Sqrt(x)) }
	low, high := fourth(AnnulusLeast), fourth(AnnulusMost)
	x := (2*fourth(max(ratio, AnnulusLeast)) - low - high) / (high - low)
	b1, b2 := 0.0, 0.0
	for i := len(c) - 1; i > 0; i-- {
		b1, b2 = c[i]+2*x*b1-b2, b1
	}
	return (c[0] + x*b1 - b2) * conductionForm(ratio)
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

// annulusNumber is the Nusselt number in the annulus on the strand's diameter.
func annulusNumber(c Conditions) float64 {
	inner := AnnulusInner
	if c.Dragged {
		inner = DraggedInner
	}
	return inner(c.Diameter/c.Bore) * c.Diameter / (c.Bore - c.Diameter)
}

// annulus tells of a Nusselt number in the annulus.
func annulus(c Conditions, s state, nusselt float64) result {
	ratio := c.Diameter / c.Bore
	width := c.Bore - c.Diameter // hydraulic diameter [m]
	re := s.reynolds * width / c.Diameter
	r := result{
		nusselt: nusselt, uncertainty: annulusDoubt,
		name: "laminar annulus", source: "Kays & Crawford, Convective Heat and Mass Transfer; Incropera & DeWitt, Table 8.2",
	}
	if ratio < AnnulusLeast {
		r.notes = append(r.notes, fmt.Sprintf("annulus: diameter over bore %.2g is below 0.001, the least of the fit", ratio))
	}
	switch {
	case c.Dragged:
		r.name, r.source = "dragged annulus", "Nusselt number of annular Couette flow, by the eigenvalue problem of Kays & Crawford's table"
		r.notes = append(r.notes, fmt.Sprintf("annulus: the air is what the strand drags along, at %.2g mm/s on average, "+
			"with the profile of such a flow; vapour that diffuses in through the mouths of the bore is left out, which at a slow feed is "+
			"several times as much: air without limit bounds the uptake from above", 1e3*c.AirSpeed))
	case c.AirSpeed == 0:
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
