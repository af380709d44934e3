package prove

import (
	"math"

	"strandry/diffusion"
)

// invariants hold whatever the numbers are.
func invariants() []Check {
	const family = "invariants"
	balance := origin{family, "what left and what is left make up the start", Computed, absolute(1e-11, "rounding over a few hundred steps")}
	scaling := origin{family, "only D t/R² counts: radius doubled, times quadrupled, Biot numbers equal (Crank 1975, ch. 1)", Computed, relative(1e-9, "rounding")}
	rest := origin{family, "a strand in equilibrium with its air stays as it is", Computed, relative(1e-9, "rounding in the isotherm and its inverse")}
	late := origin{family, "a long time leaves the content that the air allows", Computed, promise()}
	return []Check{
		balance.check("standard transit", "balance", "-", 0, ask(func() *diffusion.Model { return standard(20) },
			func(r *diffusion.Result) float64 { return r.Balance })),
		scaling.check("standard transit", "mean, large over small", "-", 1, scaled),
		rest.check("70 °C, 4.5 %", "mean", "kg/kg", 0.0045, ask(func() *diffusion.Model {
			return model(polymer(1e-11, 0, 10), 0.0045, zone(70, 3600, 0.0045, math.Inf(1)))
		}, nozzleMean)),
		late.check("Fo = 10", "mean", "kg/kg", 0.002, ask(func() *diffusion.Model {
			return model(polymer(1e-11, 0, 0), 0.03, zone(70, 10*radius*radius/1e-11, 0.002, 1e-6))
		}, nozzleMean)),
	}
}

// scaled is the standard transit at twice the radius over that at the usual one.
func scaled() (float64, error) {
	small, err := ran(standard(20))
	if err != nil {
		return 0, err
	}
	m := standard(20)
	m.Radius *= 2
	for i := range m.Path {
		m.Path[i].Length *= 4
		m.Path[i].Film.Heat /= 2
		m.Path[i].Film.Mass /= 2
	}
	large, err := ran(m)
	return large.Nozzle.Mean / small.Nozzle.Mean, err
}
