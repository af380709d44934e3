package prove

import (
	"math"

	"strandry/materials"
)

// diffusivities are the law of Arrhenius in pieces and the growth with content.
func diffusivities() []Check {
	const family = "diffusivity"
	printed := origin{family, "polycarbonate of the library: Golovoy & Zinbo, Polym. Eng. Sci. 29 (1989), abstract", Published, relative(0.006, "two digits")}
	carried := origin{family, "polycarbonate of the library: 8.7e-11 m²/s at 100 °C carried by 33.1 kJ/mol, by hand", Transcribed, relative(1e-6, "seven digits")}
	pc := func(T float64) func() (float64, error) {
		return func() (float64, error) {
			p, err := materials.Lookup("pc")
			return p.Diffusivity.Dry(T), err
		}
	}
	hand := origin{family, "three pieces, 60, 90 and 30 kJ/mol with breaks at 330 and 380 K, by hand", Transcribed, relative(1e-11, "two exponentials from a table")}
	pieces := materials.Diffusivity{Reference: 350, ReferenceValue: sure(1e-12), Beta: sure(20), Pieces: []materials.Arrhenius{
		{Activation: sure(60e3)}, {From: 330, Activation: sure(90e3)}, {From: 380, Activation: sure(30e3)}}}
	const R = 8.314462618
	zones := origin{family, "45 kJ/mol from 1.5e-12 m²/s at 298.15 K: computed (independent code)", Transcribed, relative(1e-8, "nine digits")}
	zoned := polymer(1.5e-12, 45000, 0).Diffusivity
	return []Check{
		printed.check("polycarbonate, 100 °C", "D", "m²/s", 8.7e-11, pc(373.15)),
		carried.check("polycarbonate, 25 °C", "D", "m²/s", 5.94286018e-12, pc(298.15)),
		carried.check("polycarbonate, 120 °C", "D", "m²/s", 1.49700395e-10, pc(393.15)),
		zones.plain("45 °C", "D", "m²/s", 4.69553512e-12, func() float64 { return zoned.Dry(45 + zeroCelsius) }),
		zones.plain("100 °C", "D", "m²/s", 5.76288761e-11, func() float64 { return zoned.Dry(100 + zeroCelsius) }),
		hand.plain("400 K", "D", "m²/s", 1e-12*math.Exp((90e3*(1/350.0-1/380.0)+30e3*(1/380.0-1/400.0))/R), func() float64 { return pieces.Dry(400) }),
		hand.plain("300 K", "D", "m²/s", 1e-12*math.Exp((90e3*(1/350.0-1/330.0)+60e3*(1/330.0-1/300.0))/R), func() float64 { return pieces.Dry(300) }),
		hand.plain("beta 20, C = 0.05", "D over dry", "-", math.E, func() float64 { return pieces.At(360, 0.05) / pieces.Dry(360) }),
	}
}
