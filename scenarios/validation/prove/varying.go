package prove

import (
	"fmt"
	"math"

	"strandry/diffusion"
)

const wholeVarying = "whole strand: surroundings that vary"

// varying runs the whole program through zones that differ and air that changes.
func varying() []Check {
	three := origin{wholeVarying,
		"three temperatures, dry surface: reduced time, computed with 40 digits (independent code)", Computed, promise()}
	var out []Check
	for i, want := range []float64{0.81264877409, 0.447144685689, 0.380990032142} {
		out = append(out, three.check(fmt.Sprintf("after zone %d", i+1), "mean left", "-", want, ask(func() *diffusion.Model {
			var path []diffusion.Zone
			for k, hold := range threeHolds()[:i+1] {
				path = append(path, zone([...]float64{50, 80, 65}[k], hold.Duration, 0, math.Inf(1)))
			}
			return model(polymer(2e-12, 50000, 0), 1, path...)
		}, nozzleMean)))
	}
	lag := origin{wholeVarying,
		"air that nears its last state exponentially: Laplace inversion (independent code); a case of Crank (1975), ch. 5", Computed, promise()}
	for _, r := range []driving{{1, 0.2, 0.103820743412}, {3, 0.05, 0.0438515557547}, {3, 1, 0.914507616933}, {20, 0.2, 0.6889112881468}} {
		out = append(out, lag.check(r.name(), "mean", "-", r.mean, ask(func() *diffusion.Model { return lagging(r) },
			func(s *diffusion.Result) float64 { return s.Nozzle.Mean / isotherm })))
	}
	return append(out, fourZones()...)
}

// lagging is a dry strand in air that comes from dry to saturated with a lag.
func lagging(r driving) *diffusion.Model {
	const d = 1.2e-11
	z := zone(70, r.fourier*radius*radius/d, isotherm, math.Inf(1))
	z.Air.Relax = diffusion.Relax{From: 0, TimeConstant: radius * radius / (d * r.rate)}
	return model(polymer(d, 0, 0), 0, z)
}

// fourZones differ in diffusivity, film and surroundings.
func fourZones() []Check {
	mean := origin{wholeVarying,
		"four zones, film: projection on 140 eigenfunctions (independent code), and a spectral run to 3e-12", Computed, promise()}
	spots := mean
	spots.tolerance = absolute(3e-5, "0.1 % of the starting content of 0.03")
	var out []Check
	for i, r := range []struct{ mean, centre, surface float64 }{
		{0.0295998400, 0.0300000000, 0.0220994467}, {0.0281125369, 0.0300000000, 0.0202582967},
		{0.0265584274, 0.0299926104, 0.0201108528}, {0.0261121639, 0.0299888436, 0.0159039500},
	} {
		m := func() *diffusion.Model {
			const film = 1.2e-7
			path := []diffusion.Zone{zone(45, 120, 0.012, film), zone(80, 300, 0.004, film), zone(100, 300, 0.002, film), zone(55, 180, 0.008, film)}
			return model(polymer(1.5e-12, 45000, 0), 0.03, path[:i+1]...)
		}
		name := fmt.Sprintf("after zone %d", i+1)
		out = append(out,
			mean.check(name, "mean", "kg/kg", r.mean, ask(m, nozzleMean)),
			spots.check(name, "centre", "kg/kg", r.centre, ask(m, nozzleCentre)),
			spots.check(name, "surface", "kg/kg", r.surface, ask(m, nozzleSkin)))
	}
	return out
}
