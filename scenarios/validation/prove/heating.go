package prove

import (
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/exact"
)

const heatingFamily = "heating of the strand"

// heating is transient conduction.
func heating() []Check {
	shaft := origin{heatingFamily, "shaft of 0.35 m cooled for 20 min, Çengel, Heat Transfer, solutions manual (problem 4-60 or 11-41): the one-term answer",
		Published, absolute(2e-4, "four digits, read from a table between its rows")}
	full := origin{heatingFamily, "the same shaft: full series with 40 digits (independent code); Fo is below 0.2, so one term misses by 4 K",
		Computed, absolute(0.05, "a tenth of the last digit that the book prints")}
	const biot, fourier = 60 * 0.175 / 14.9, 3.95e-6 * 1200 / (0.175 * 0.175)
	out := []Check{
		shaft.check("shaft", "ζ1", "-", 1.0904, firstMode(biot, func(m exact.Mode) float64 { return m.Root })),
		shaft.check("shaft", "C1", "-", 1.1548, firstMode(biot, func(m exact.Mode) float64 { return m.Coefficient })),
		shaft.check("shaft", "centre, one term", "-", 0.9607, firstMode(biot, func(m exact.Mode) float64 { return m.Coefficient * m.At(0, fourier) })),
		full.plain("shaft", "centre, full series", "°C", 385.7330588, func() float64 { return 150 + 250*exact.RobinProfile(biot, 0, fourier) }),
	}
	return slices.Concat(out, warming(), flashes())
}

// warming is a strand that comes from 23 into 70 °C with h = 40 W/(m² K).
func warming() []Check {
	o := origin{heatingFamily, "strand of 1.75 mm, 23 into 70 °C, h = 40: series with 40 digits (independent code)",
		Computed, absolute(1e-6, "the promise of the resolved temperature; the reference has twelve digits")}
	rate := origin{heatingFamily, "the same strand at one temperature: 70 - 47 exp(-t/22.3125 s), by hand", Computed, absolute(1e-6, "nine digits")}
	var out []Check
	for _, r := range []struct{ seconds, mean, lumped float64 }{
		{5, 32.0993164666, 32.435555956586}, {10, 39.4183326179, 39.976862632112}, {20, 50.0891667649, 50.821515374232}, {60, 66.4223114361, 66.806645372991},
	} {
		name := fmt.Sprintf("after %g s", r.seconds)
		out = append(out,
			o.check(name, "mean", "°C", r.mean, func() (float64, error) { return warmed(r.seconds, radius, 40, diffusion.Resolved) }),
			rate.check(name, "lumped", "°C", r.lumped, func() (float64, error) { return warmed(r.seconds, radius, 40, diffusion.Lumped) }))
	}
	series := origin{heatingFamily, "the same strand: centre at 95 % of the step, series with 40 digits (independent code)", Computed, absolute(1e-6, "ten digits")}
	const alpha = 0.20 / (1200 * 1700)
	return append(out, series.plain("after 70.777202 s", "centre", "°C", 70-0.05*47, func() float64 {
		return 70 - 47*exact.RobinProfile(0.175, 0, alpha*70.7772023351797/(radius*radius))
	}))
}

// flashes are quick ones, where the rim is far hotter than the rest.
func flashes() []Check {
	o := origin{heatingFamily, "thick and thin strand, 23 into 70 °C, quick air: series of 3000 terms (independent code)",
		Computed, absolute(1e-6, "the promise of the resolved temperature; the reference has ten digits")}
	var out []Check
	for _, r := range []struct{ seconds, radius, film, mean float64 }{
		{0.1, 5e-3, 1000, 23.6636444359}, {1, 5e-3, 1000, 26.9951436753}, {10, 5e-3, 1000, 39.4004207765},
		{0.1, radius, 300, 24.4134327326}, {1, radius, 300, 34.0983602535},
	} {
		out = append(out, o.check(fmt.Sprintf("%g mm, h = %g, after %g s", 2e3*r.radius, r.film, r.seconds), "mean", "°C", r.mean,
			func() (float64, error) { return warmed(r.seconds, r.radius, r.film, diffusion.Resolved) }))
	}
	return out
}

func warmed(seconds, radius, film float64, heat diffusion.Heat) (float64, error) {
	p := polymer(1e-12, 0, 0)
	p.Density, p.HeatCapacity, p.Conductivity = sure(1200), sure(1700), sure(0.20)
	z := zone(70, seconds, 0, 1e-8)
	z.Film.Heat = film
	m := model(p, 0.01, z)
	m.Radius = radius
	m.StartTemperature = 23 + zeroCelsius
	r, err := marched(m, heat, true) // the references know of no water
	return r.Nozzle.Temperature - zeroCelsius, err
}
