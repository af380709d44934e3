package prove

import (
	"fmt"

	"strandry/materials/humidair"
)

const transportFamily = "air: viscosity, conductivity, diffusivity"

// transport are the transport properties of air.
func transport() []Check {
	const atm = 101325
	sea := origin{transportFamily, "U.S. Standard Atmosphere (1976), sea level, 288.15 K (from memory)", Memory, relative(1e-4, "four and five digits, the last uncertain")}
	vapour := origin{transportFamily, "Marrero & Mason (1972), as in Kreith, Mechanical Engineering Handbook (1999); computed (independent code)",
		Computed, relative(1e-6, "seven digits of the formula")}
	measured := origin{transportFamily, "water vapour in air: Incropera & DeWitt, Table A.8", Published, relative(0.05, "two digits; published values are 5 % apart")}
	lewis := origin{transportFamily, "Lewis number of dry air: computed from the formulas above with cp = 1008 J/(kg K) (independent code)",
		Computed, relative(3e-3, "the heat capacity here is 1006, 0.2 % less")}
	out := []Check{
		sea.plain("288.15 K", "viscosity", "Pa s", 1.7894e-5, func() float64 { return humidair.Viscosity(288.15) }),
		sea.withTolerance(relative(4e-4, "four digits, the last uncertain")).plain("288.15 K", "conductivity", "W/(m K)", 0.02533,
			func() float64 { return humidair.Conductivity(288.15) }),
	}
	for _, r := range []struct{ kelvin, d float64 }{{293.15, 2.419089e-05}, {323.15, 2.960241e-05}, {343.15, 3.352467e-05}, {383.15, 4.212907e-05}} {
		out = append(out, vapour.plain(fmt.Sprintf("%g K", r.kelvin), "vapour diffusivity", "m²/s", r.d,
			func() float64 { return humidair.VapourDiffusivity(r.kelvin, atm) }))
	}
	out = append(out,
		measured.plain("298 K", "vapour diffusivity", "m²/s", 0.26e-4, func() float64 { return humidair.VapourDiffusivity(298, atm) }),
		lewis.plain("343.15 K", "Lewis number", "-", 0.849617, func() float64 {
			return humidair.ThermalDiffusivity(343.15, 0, atm) / humidair.VapourDiffusivity(343.15, atm)
		}))
	return append(out, handbookAir()...)
}

// handbookAir is a table of dry air, whose density, 1.1614 kg/m³ at 300 K, is that of 1 bar.
func handbookAir() []Check {
	const bar = 1e5
	o := origin{transportFamily, "dry air at 1 bar: Incropera & DeWitt, Table A.4", Published,
		relative(8e-3, "the formulas and the table are known to differ by up to 0.8 %")}
	spread := o.withTolerance(relative(1.6e-2, "0.8 % of the conductivity and 0.8 % of a heat capacity that does not rise"))
	ratio := o.withTolerance(relative(2e-2, "carries viscosity, conductivity and heat capacity, 0.8 % each"))
	var out []Check
	for _, r := range []struct{ kelvin, nu, k, alpha, prandtl float64 }{
		{300, 15.89e-6, 0.0263, 22.5e-6, 0.707}, {350, 20.92e-6, 0.0300, 29.9e-6, 0.700}, {400, 26.41e-6, 0.0338, 38.3e-6, 0.690},
	} {
		name := fmt.Sprintf("%g K", r.kelvin)
		out = append(out,
			o.plain(name, "ν", "m²/s", r.nu, func() float64 { return humidair.KinematicViscosity(r.kelvin, 0, bar) }),
			o.plain(name, "conductivity", "W/(m K)", r.k, func() float64 { return humidair.Conductivity(r.kelvin) }),
			spread.plain(name, "α", "m²/s", r.alpha, func() float64 { return humidair.ThermalDiffusivity(r.kelvin, 0, bar) }),
			ratio.plain(name, "Prandtl number", "-", r.prandtl, func() float64 { return humidair.PrandtlNumber(r.kelvin, 0, bar) }))
	}
	return out
}
