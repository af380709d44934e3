package prove

import (
	"fmt"
	"math"

	"strandry/diffusion"
)

// covered are strands a part of whose perimeter is covered in its place.
func covered() []Check {
	o := origin{"covered perimeter", "a share s of the perimeter exposed and held dry, in n arcs, D from e^b to 1 times: dual series in Laplace space, spectral elements in r and θ (independent codes)",
		Computed, absolute(1e-3, "a fifth of the half per cent of the start that is promised")}
	var out []Check
	for _, r := range []struct{ share, arcs, growth, fourier, left float64 }{
		{0.25, 1, 0, 0.334, 0.65221736}, {0.5, 1, 0, 0.03, 0.81035760}, {0.5, 1, 0, 0.0917, 0.67697622}, {0.5, 1, 0, 1, 0.14889690},
		{0.9, 1, 0, 0.0917, 0.44502996}, {0.5, 1, 3, 0.334, 0.2009681}, {0.5, 2, 1, 0.334, 0.2343431}, {0.5, 4, 3, 0.0917, 0.3068208},
	} {
		name := fmt.Sprintf("s = %g, n = %g, b = %g, Fo = %g", r.share, r.arcs, r.growth, r.fourier)
		out = append(out, o.check(name, "left", "-", r.left, func() (float64, error) {
			const start = 0.02
			p := polymer(1e-11, 0, r.growth/start)
			z := zone(25, r.fourier*radius*radius/1e-11, 0, math.Inf(1))
			z.Contact = diffusion.Contact{Covered: 1 - r.share, Arcs: int(r.arcs)}
			result, err := ran(model(p, start, z))
			return result.Nozzle.Mean / start, err
		}))
	}
	return out
}

// evaporation is the heat that water takes along.
func evaporation() []Check {
	mean := origin{"heat of evaporation", "6 % in PA6, 23 into 110 °C, lumped: finite volumes of content and heat together (independent code)",
		Computed, absolute(2e-5, "two hundredths of what the heat of evaporation changes")}
	warmth := mean
	warmth.tolerance = absolute(0.02, "the step's own, two thousandths of its scale")
	var out []Check
	for _, r := range []struct{ seconds, mean, celsius float64 }{
		{30, 0.058329927, 72.84148}, {120, 0.051030185, 104.46305}, {600, 0.033777131, 109.05633}, {3600, 0.008566003, 109.87097},
	} {
		name := fmt.Sprintf("after %g s", r.seconds)
		out = append(out,
			mean.check(name, "mean", "kg/kg", r.mean, func() (float64, error) { return dampened(r.seconds, nozzleMean) }),
			warmth.check(name, "temperature", "°C", r.celsius, func() (float64, error) {
				return dampened(r.seconds, func(r *diffusion.Result) float64 { return r.Nozzle.Temperature - zeroCelsius })
			}))
	}
	return out
}

// dampened is a number of a strand that gives off water fast enough to stay cooler than its air.
func dampened(seconds float64, number func(*diffusion.Result) float64) (float64, error) {
	p := polymer(0, 55e3, 20)
	p.Density, p.HeatCapacity = sure(1130), sure(1700)
	p.Diffusivity.Reference, p.Diffusivity.ReferenceValue = 296.15, sure(3e-13)
	p.Sorption.Saturation, p.Sorption.MixingEnthalpy, p.Sorption.Reference = sure(0.095), sure(3000), 296.15
	m := model(p, 0.06, diffusion.Zone{
		Name: "zone", Length: seconds, Film: diffusion.Film{Heat: 25, Mass: 0.025},
		Air: diffusion.Air{Temperature: 383.15, VapourPressure: 1400},
	})
	m.StartTemperature = 296.15
	r, err := marched(m, diffusion.Lumped, false)
	return number(&r), err
}
