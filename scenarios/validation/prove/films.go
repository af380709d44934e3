package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

const filmFamily = "films"

// films are heat and mass transfer coefficients.
func films() []Check {
	return append(append(forced(), natural()...), massTransfer()...)
}

func forced() []Check {
	churchill := origin{filmFamily, "across: Churchill & Bernstein, J. Heat Transfer 99 (1977) 300; worked values 40.64 and 5.654, more digits by independent code",
		Transcribed, relative(1e-6, "the formula with seven digits")}
	hilpert := origin{filmFamily, "across: Hilpert (1933), Incropera & DeWitt, Table 7.2 (number from memory); computed (independent code)",
		Transcribed, relative(1e-6, "the formula with seven digits")}
	example := origin{filmFamily, "Incropera & DeWitt, Example 7.4: 12.7 mm in 10 m/s, by Zukauskas' formula (result from memory)", Memory,
		relative(0.2, "what either correlation claims")}
	annulus := origin{filmFamily, "annulus: Kays & Crawford, in Incropera & DeWitt, Table 8.2", Published, relative(1e-3, "two decimals")}
	between := origin{filmFamily, "annulus, 1.75 mm in 20 mm: eigenvalue problem by Chebyshev polynomials (independent code)", Computed,
		relative(1e-6, "eight digits; the fit is within 6e-8")}
	var out []Check
	for _, r := range []struct{ re, pr, nu float64 }{{6071, 0.7, 40.63708594}, {120, 0.71, 5.65355684}, {1, 0.7, 0.78307159}, {50, 0.7, 3.72711144}} {
		out = append(out, churchill.plain(fmt.Sprintf("Re = %g, Pr = %g", r.re, r.pr), "Nusselt number", "-", r.nu, func() float64 { return film.CrossFlow(r.re, r.pr) }))
	}
	for _, r := range []struct{ re, nu float64 }{{10, 1.962838}, {6071, 37.323138}} {
		out = append(out, hilpert.plain(fmt.Sprintf("Re = %g, Pr = 0.7", r.re), "Nusselt number", "-", r.nu, func() float64 { return film.Hilpert(r.re, 0.7) }))
	}
	out = append(out, example.plain("Re = 7992", "h", "W/(m² K)", 105, func() float64 {
		return film.CrossFlow(10*0.0127/15.89e-6, 0.707) * 0.0263 / 0.0127
	}))
	for _, r := range []struct{ ratio, nu float64 }{{0.05, 17.46}, {0.10, 11.56}, {0.25, 7.37}, {0.50, 5.74}, {1, 4.86}} {
		out = append(out, annulus.plain(fmt.Sprintf("ratio %g", r.ratio), "Nusselt number", "-", r.nu, func() float64 { return film.AnnulusInner(r.ratio) }))
	}
	couette := origin{filmFamily, "dragged annulus between plates: (1.5 j)², j = 1.86635 the first zero of J(-1/3) (zero from memory)", Computed,
		relative(1e-5, "six digits")}
	dragged := origin{filmFamily, "dragged annulus, 1.75 mm in 3 mm: eigenvalue problem by shooting (independent code)", Computed, relative(1e-6, "nine digits; the fit is within 1.2e-7")}
	drag := origin{filmFamily, "air dragged along: annular Couette flow, Bird, Stewart & Lightfoot, Transport Phenomena; by hand", Transcribed, relative(1e-9, "ten digits")}
	out = append(out,
		couette.plain("ratio 1", "Nusselt number", "-", math.Pow(1.5*1.86635, 2), func() float64 { return film.DraggedInner(1) }),
		dragged.plain("ratio 0.5833", "Nusselt number", "-", 8.46818193, func() float64 { return film.DraggedInner(0.5833) }),
		drag.plain("2 mm/s, 1.75 in 3 mm", "flow", "m³/s", math.Pi*2e-3*((1.5e-3*1.5e-3-0.875e-3*0.875e-3)/(2*math.Log(3/1.75))-0.875e-3*0.875e-3), func() float64 {
			return film.DraggedFlow(2e-3, 1.75e-3, 3e-3)
		}))
	return append(out, between.plain("ratio 0.0875", "Nusselt number", "-", 12.461851, func() float64 { return film.AnnulusInner(0.0875) }))
}

func natural() []Check {
	level := origin{filmFamily, "still air, level: Churchill & Chu (1975); computed (independent code)", Transcribed, relative(1e-6, "seven digits")}
	morgan := origin{filmFamily, "still air, level: Morgan, Adv. Heat Transfer 11 (1975) 199, in Incropera & DeWitt, Table 9.1; computed (independent code)",
		Transcribed, relative(1e-6, "seven digits")}
	pipe := origin{filmFamily, "Incropera & DeWitt, Example 9.4: pipe of 0.1 m at 165 °C in 23 °C, emissivity 0.85", Published, relative(2e-3, "three digits")}
	strand := origin{filmFamily, "1.75 mm at 70 °C in still air of 23 °C: Morgan (1975); Le Fevre & Ede (1956, from memory); computed (independent code)", Transcribed,
		relative(1e-3, "air properties as in the checks above, with cp and g rounded otherwise")}
	var out []Check
	for _, r := range []struct{ ra, nu float64 }{{0.1, 0.6701746}, {10, 1.1471475}, {1e4, 4.3663865}} {
		out = append(out, level.plain(fmt.Sprintf("Ra = %g", r.ra), "Nusselt number", "-", r.nu, func() float64 { return film.HorizontalChurchillChu(r.ra, 0.7) }))
	}
	for _, r := range []struct{ ra, nu float64 }{{0.1, 0.725438}, {70, 1.912823}, {1000, 3.114719}, {1e6, 15.178933}} {
		out = append(out, morgan.plain(fmt.Sprintf("Ra = %g", r.ra), "Nusselt number", "-", r.nu, func() float64 { return film.HorizontalMorgan(r.ra) }))
	}
	out = append(out, pipe.plain("hot pipe", "loss", "W/m", 763, func() float64 {
		ra := 9.81 * 2.725e-3 * 142 * 0.001 / (22.8e-6 * 32.8e-6)
		h := film.HorizontalChurchillChu(ra, 0.697)*0.0313/0.1 + film.Radiation(0.85, 438, 296)
		return h * math.Pi * 0.1 * 142
	}))
	c := film.Conditions{Diameter: 1.75e-3, StrandTemperature: 343.15, AirTemperature: 296.15, Pressure: 101325}
	hanging := c
	hanging.Vertical, hanging.HeatedLength = true, 0.30
	for _, r := range []struct {
		name string
		c    film.Conditions
		h    float64
	}{{"level", c, 24.7490}, {"hanging, 0.30 m", hanging, 13.1768}} {
		out = append(out, strand.check(r.name, "h", "W/(m² K)", r.h, func() (float64, error) {
			got, err := film.At(r.c)
			return got.Heat, err
		}))
	}
	return out
}

func massTransfer() []Check {
	mixed := origin{filmFamily, "forced 3 and natural 1.5 together: Incropera & DeWitt, sec. 9.9; computed (independent code)", Transcribed, relative(1e-9, "ten digits")}
	developed := origin{filmFamily, "Sh = Nu in developed laminar flow: Incropera & DeWitt, sec. 8.9; D Nu/d by hand", Transcribed, relative(1e-9, "rounding")}
	analogy := origin{filmFamily, "Chilton & Colburn, Ind. Eng. Chem. 26 (1934) 1183; computed (independent code)", Transcribed, relative(1e-6, "eight digits")}
	can := origin{filmFamily, "evaporative cooling: Incropera & DeWitt, Example 6.7", Published, absolute(0.05, "one decimal")}
	side := origin{filmFamily, "film in units of the solid, 0.01 m/s at 70 °C, isotherm 0.1, 1150 kg/m³: IAPWS R7-97, 461.526 J/(kg K) (independent code)",
		Transcribed, relative(1e-5, "the gas constant here is 4e-6 less")}
	return []Check{
		mixed.plain("assisting", "Nusselt number", "-", 3.120125735, func() float64 { return film.Mixed(3, 1.5, 3) }),
		mixed.plain("across", "Nusselt number", "-", 3.045814777, func() float64 { return film.Mixed(3, 1.5, 4) }),
		analogy.plain("h = 40, 70 °C", "mass coefficient", "m/s", 0.042752288, func() float64 { return film.MassCoefficient(40, 1.029, 1008, 2.87e-5/3.35e-5) }),
		analogy.plain("h = 40, 300 K", "mass coefficient", "m/s", 0.037707964, func() float64 { return film.MassCoefficient(40, 1.16, 1007, 22.5/26) }),
		developed.plain("Nu = 5, 1 mm", "mass coefficient", "m/s", 5*3.35e-5/1e-3, func() float64 {
			return film.DevelopedMassCoefficient(5*0.0298/1e-3, 1.029, 1008, 0.0298/(1.029*1008)/3.35e-5)
		}),
		can.plain("wet can", "temperature", "°C", 5.9, wetCan),
		side.plain("70 °C", "coefficient", "m/s", 1.71311070e-5, func() float64 {
			const T = 70 + zeroCelsius
			return 0.01 * humidair.VapourDensity(humidair.SaturationPressure(T), T) / (isotherm * density)
		}),
	}
}

// wetCan is the temperature of a can that evaporates a liquid of 200 kg/kmol and 100 kJ/kg
// into air of 313 K [°C].
func wetCan() float64 {
	const heat = 50.0 // [W/(m² K)], cancels
	mass := film.MassCoefficient(heat, 1.16, 1007, 22.5e-6/0.2e-4)
	surface := 313.0
	for range 200 {
		surface = 313 - 100e3*mass/heat*5000*200/(8314*surface)
	}
	return surface - 273
}
