package prove

import (
	"fmt"
	"math"

	"strandry/diffusion"
)

const wholeStep = "whole strand: step outside"

// stepOutside runs the whole program at its default settings on the step outside.
func stepOutside() []Check {
	mean := origin{wholeStep,
		"Crank (1975), ch. 5, series with 40 digits, here as a strand in one zone",
		Computed, promise()}
	spots := mean
	spots.tolerance = absolute(1e-3, "0.1 % of the step: the promise is for the mean, spots are given as much of the range")
	var out []Check
	for _, r := range stepTable() {
		name := fmt.Sprintf("%s, Fo = %g", biotText(r.biot), r.fourier)
		m := func() *diffusion.Model { return steppedOut(r.biot, r.fourier) }
		out = append(out,
			mean.check(name, "mean left", "-", 1-r.uptake, ask(m, nozzleMean)),
			spots.check(name, "centre", "-", r.centre, ask(m, nozzleCentre)))
		if !math.IsInf(r.biot, 1) {
			out = append(out, spots.check(name, "surface", "-", r.surface, ask(m, nozzleSkin)))
		}
	}
	return out
}

// steppedOut is a strand of content one in dry air at 70 °C for a Fourier number.
func steppedOut(biot, fourier float64) *diffusion.Model {
	const d = 1.2e-11
	return model(polymer(d, 0, 0), 1, zone(70, fourier*radius*radius/d, 0, biot*d/radius))
}
