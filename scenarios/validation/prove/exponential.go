package prove

import (
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/materials/humidair"
)

// exponential runs the whole program with a diffusivity that grows with content.
func exponential() []Check {
	o := origin{"whole strand: D grows with content",
		"D = D0 exp(C ln ratio), surface held: spectral elements and finite volumes (independent code) agreeing to 3e-7",
		Computed, absolute(1e-3, "0.1 % of the step, the promise of the default settings; the reference is better")}
	var out []Check
	for _, r := range exponentialTable() {
		name := fmt.Sprintf("ratio %g, T = %g", r.ratio, r.time)
		out = append(out,
			o.check(name, "drying, left", "-", 1-r.desorption, ask(func() *diffusion.Model { return held(r, 1, 0) }, nozzleMean)),
			o.check(name, "wetting, taken up", "-", r.absorption, ask(func() *diffusion.Model { return held(r, 0, 1) }, nozzleMean)))
	}
	return out
}

// exchange is the fraction exchanged at a time D0 t/R².
type exchange struct{ ratio, time, desorption, absorption float64 }

// exponentialTable holds rows of testdata/exact/exponential-diffusivity.csv, which
// tells their origin.
func exponentialTable() []exchange {
	return []exchange{
		{10, 0.005, 0.24373987, 0.33116274}, {10, 0.02, 0.45070028, 0.61250445}, {10, 0.05, 0.63835549, 0.86403937},
		{10, 0.2, 0.90183547, 0.99996592}, {100, 0.005, 0.40564336, 0.72908781}, {100, 0.02, 0.63487323, 0.99964122},
		{100, 0.1, 0.87541983, 1}, {100, 0.3, 0.97250972, 1},
	}
}

// held is a strand of one content whose surface is held at another. The isotherm is
// scaled so that a content of one lies well below saturation.
func held(r exchange, start, surface float64) *diffusion.Model {
	const d = 1e-12
	p := polymer(d, 0, math.Log(r.ratio))
	p.Sorption.Saturation = sure(2)
	z := zone(70, r.time*radius*radius/d, 0, math.Inf(1))
	z.Air.VapourPressure = surface / 2 * humidair.SaturationPressure(70+zeroCelsius)
	return model(p, start, z)
}
