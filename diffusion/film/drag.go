package film

import "math"

// DraggedFlow returns the volume flow [m3/s] of the air that a strand drags along
// through a bore open at both ends, at its speed [m/s] and with its diameter and that of the bore
// [m]; zero where the strand leaves no gap.
//
//	Q = π V ((R2² - R1²)/(2 ln(R2/R1)) - R1²)
//
// the flow of v(r) = V ln(R2/r)/ln(R2/R1), axial annular Couette flow without a
// difference of pressure, laminar and fully developed: Bird, Stewart & Lightfoot, Transport
// Phenomena, ch. 2 (number of the problem not looked up). With z = 2 ln(R2/R1) it is
// π V R1² (e^z - 1 - z)/z, which for narrow gaps is summed as a series: to
// round-off of z for all. It tends to half of V times the ring in a narrow gap, and to
// nothing for a thin strand, slowly. Vapour that diffuses in through the mouths is not in
// it: 1.75 mm in 3 mm at 2 mm/s, absorbing, takes up some ten times as much by that way.
func DraggedFlow(speed, diameter, bore float64) float64 {
	if !(diameter > 0 && bore > diameter) {
		return 0
	}
	inner, outer := diameter/2, bore/2
	z := 2 * math.Log1p((bore-diameter)/diameter)
	if z > 1 {
		return math.Pi * speed * (outer*outer - inner*inner*(1+z)) / z
	}
	// (e^z - 1 - z)/z = z/2! + z²/3! + z³/4! …
	sum, term := 0.0, 1.0
	for n := 2.0; term > sum*1e-17; n++ {
		term *= z / n
		sum += term
	}
	return math.Pi * speed * inner * inner * sum
}

// ring is the section between strand and bore [m2].
func ring(diameter, bore float64) float64 {
	return math.Pi / 4 * (bore - diameter) * (bore + diameter)
}

// DraggedSpeed returns the mean speed [m/s] over the section of [DraggedFlow], less
// than half of the strand's.
func DraggedSpeed(speed, diameter, bore float64) float64 {
	if !(diameter > 0 && bore > diameter) {
		return 0
	}
	return DraggedFlow(speed, diameter, bore) / ring(diameter, bore)
}
