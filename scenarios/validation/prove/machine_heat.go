package prove

import (
	"math"

	"strandry/diffusion/film"
	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/heat"
	"strandry/materials/humidair"
)

const machineHeatFamily = "machine: heat and air"

// machineHeat is the heat of a chamber and the air that runs through it.
func machineHeat() []Check {
	return append(append(append(walls(), plates()...), warmth()...), streams()...)
}

// pipe is a level pipe between other zones, at its surface as hot as what is in it.
func pipe(length, diameter, emissivity float64) heat.Wall {
	return heat.Wall{Housing: heat.Housing{Length: length, Diameter: diameter, OpenEnds: true}, Emissivity: emissivity, InnerFilm: 1e5}
}

// lostBy makes the computation of what a wall loses [W] between temperatures [°C].
func lostBy(w heat.Wall, inside, room float64) func() (float64, error) {
	return func() (float64, error) {
		l, err := w.Loss(heat.Climate{Inside: inside + zeroCelsius, Room: room + zeroCelsius, Pressure: humidair.StandardPressure})
		return l.Power, err
	}
}

func walls() []Check {
	hot := origin{machineHeatFamily, "bare level pipe: Incropera & DeWitt, Example 9.4: 0.1 m at 165 °C in 23 °C, emissivity 0.85", Published,
		relative(1e-2, "three digits; air by formulas that differ from the book's table by up to 0.8 %")}
	water := origin{machineHeatFamily, "hot water pipe, convection alone: Çengel, Heat Transfer, Example 9-1 (number from memory): 8 cm, 6 m, 70 °C in 20 °C", Published,
		relative(2e-2, "the book's table has air that conducts 2.5 % less than ours and Incropera's")}
	steam := origin{machineHeatFamily, "insulated steam pipe: Çengel, Heat Transfer, Example 3-8 (number from memory): 320 °C in 5 °C, films 60 and 18, 3 cm of glass wool", Published,
		relative(5e-3, "three digits")}
	code := origin{machineHeatFamily, "walls of 70 °C in 23 °C: nested bisections on the same correlations (independent code)", Computed, relative(1e-7, "ten digits")}
	insulated := heat.Wall{
		Housing: heat.Housing{Length: 1, Diameter: 0.055, OpenEnds: true}, Shell: heat.Layer{Thickness: 0.0025, Conductivity: 80},
		Insulation: []heat.Layer{{Thickness: 0.03, Conductivity: 0.05}}, InnerFilm: 60, OuterFilm: 18,
	}
	box := heat.Wall{
		Housing: heat.Housing{Shape: heat.Box, Length: 0.6, Width: 0.3, Height: 0.2}, Shell: heat.Layer{Thickness: 0.003, Conductivity: 0.2},
		Insulation: []heat.Layer{{Thickness: 0.025, Conductivity: 0.04}}, Emissivity: 0.9,
	}
	drum := heat.Wall{
		Housing: heat.Housing{Shape: heat.StandingCylinder, Length: 0.4, Diameter: 0.2}, Shell: heat.Layer{Thickness: 0.001, Conductivity: 50},
		Insulation: []heat.Layer{{Thickness: 0.03, Conductivity: 0.035}}, Emissivity: 0.9,
	}
	drop := func() (float64, error) {
		l, err := insulated.Loss(heat.Climate{Inside: 320 + zeroCelsius, Room: 5 + zeroCelsius, Pressure: humidair.StandardPressure})
		return (320 + zeroCelsius - l.Surface) / l.Power, err
	}
	return []Check{
		hot.check("one metre", "loss", "W", 763, lostBy(pipe(1, 0.1, 0.85), 165, 23)),
		water.check("six metres", "loss", "W", 443, lostBy(pipe(6, 0.08, 0), 70, 20)),
		steam.check("one metre", "loss", "W", 121, lostBy(insulated, 320, 5)),
		steam.check("one metre", "film inside and layers", "K/W", 0.106+0.0002+2.35, drop),
		code.check("box of 0.6 × 0.3 × 0.2 m in foam", "loss", "W", 34.207872488, lostBy(box, 70, 23)),
		code.check("standing drum in foam", "loss", "W", 13.490370237, lostBy(drum, 70, 23)),
	}
}

func plates() []Check {
	glass := origin{machineHeatFamily, "vertical plate: Incropera & DeWitt, Example 9.2: glass 1.02 m wide, 0.71 m high, 232 °C in 23 °C", Published, relative(2e-3, "three digits")}
	insulated := origin{machineHeatFamily, "vertical plate: Çengel, Heat Transfer, Problem 9-19E, solution: 2 ft, 130 °F in 75 °F", Published, relative(2e-3, "four digits")}
	level := origin{machineHeatFamily, "level plate of 0.6 m, 90 °C in 30 °C: Çengel, Heat Transfer, Example 9-2 (result from memory)", Memory, relative(1e-2, "three digits; air of its table")}
	across := origin{machineHeatFamily, "pipes in wind: Çengel, Heat Transfer, Problems 7-53 and 7-100, solutions", Published, relative(2e-3, "four digits; the inputs have as many")}
	duct := origin{machineHeatFamily, "turbulent flow in a duct: Gnielinski (1976), Incropera & DeWitt eq. 8.62, by hand", Transcribed, relative(1e-5, "six digits")}
	const side, nu, k = 0.15, 1.896e-5, 0.02808 // area over perimeter [m], air of 60 °C
	ra := 9.81 / 333 * 60 * side * side * side / (nu * nu) * 0.7202
	loss := func(number float64) float64 { return number * k / side * 0.36 * 60 }
	return []Check{
		glass.plain("0.71 m", "loss", "W", 1060, func() float64 {
			ra := 9.8 / 400 * 209 * math.Pow(0.71, 3) / (38.3e-6 * 26.4e-6)
			return heat.VerticalPlate(ra, 0.690) * 0.0338 * 1.02 * 209
		}),
		insulated.plain("Ra = 5.503e8, Pr = 0.7256", "Nusselt number", "-", 102.6, func() float64 { return heat.VerticalPlate(5.503e8, 0.7256) }),
		level.plain("hot side down", "loss", "W", 64.2, func() float64 { return loss(heat.PlateDown(ra)) }),
		level.withTolerance(relative(0.1, "the book keeps 0.54 Ra^¼ to 1.1e7, the larger of the two is 7 % more there")).plain("hot side up", "loss", "W", 128, func() float64 {
			return loss(heat.PlateUp(ra))
		}),
		across.plain("Re = 16320, Pr = 0.7255", "Nusselt number", "-", 71.19, func() float64 { return film.CrossFlow(1.632e4, 0.7255) }),
		across.plain("Re = 32540, Pr = 0.7336", "Nusselt number", "-", 107.0, func() float64 { return film.CrossFlow(3.254e4, 0.7336) }),
		duct.plain("Re = 10000, Pr = 0.7", "Nusselt number", "-", 29.8173, func() float64 { return heat.DuctFlow(1e4, 0.7, 0) }),
	}
}

func warmth() []Check {
	exact := origin{machineHeatFamily, "lumped chamber of 2500 J/K, 60 W, 0.9 W/K: (P/UA)(1 - exp(-UA t/C)) (independent code)", Computed, relative(1e-9, "ten digits")}
	decay := origin{machineHeatFamily, "air along a wall: exp(-NTU), by hand", Computed, relative(1e-9, "ten digits")}
	strand := origin{machineHeatFamily, "strand of 21.47436 g/h, 1700 J/(kg K), heated to 70 °C: m cp ΔT (independent code)", Computed, relative(1e-6, "seven digits")}
	water := origin{machineHeatFamily, "its water, 0.107372 g/h, by 2.3333 MJ/kg at 70 °C, steam tables", Transcribed, relative(1e-3, "the releases of IAPWS allow enthalpies 0.1 %")}
	closed := origin{machineHeatFamily, "all of it: enthalpies that enter less those that leave, which is zero", Computed, absolute(1e-12, "rounding, as a share of the largest flow")}
	l := heat.Lumped{Masses: []heat.Mass{{Mass: 1, Capacity: 2500}}, Power: 60, UA: 0.9, Room: 296.15}
	z := heat.Zone{
		Temperature: 343.15, Strands: []heat.Strand{{Flow: 2.147436e-2 / 3600, Capacity: 1700, From: 296.15, To: 343.15, Water: 0.10737178e-3 / 3600}},
		Air: []airstream.Stream{{Dry: 2e-4, Ratio: 0.008, Temperature: 296.15}}, Leak: airstream.Stream{Dry: 3e-5, Ratio: 0.009, Temperature: 295}, Wall: 20,
	}
	of := func(term func(heat.Steady) float64) func() (float64, error) {
		return func() (float64, error) {
			s, err := z.Steady()
			return term(s), err
		}
	}
	return []Check{
		exact.check("to 31.79393913 K above", "time", "s", 1800, func() (float64, error) {
			t, err := l.WarmUp(296.15, 296.15+31.79393913+heat.Settled, heat.Settled)
			return t.Seconds, err
		}),
		decay.check("NTU = 1", "outlet", "K", 296.15+50*math.Exp(-1), func() (float64, error) {
			e, err := heat.Path{Inlet: airstream.Stream{Dry: 1e-3, Temperature: 346.15}, UA: 1.006, Room: 296.15}.Evenness()
			return e.Outlet, err
		}),
		strand.check("23 to 70 °C", "power", "W", 0.4766115, of(func(s heat.Steady) float64 { return s.Strand })),
		water.check("at 70 °C", "power", "W", 0.10737178e-3/3600*2.3333e6, of(func(s heat.Steady) float64 { return s.Water })),
		closed.check("strand, water, air, leak, wall", "rest", "-", 0, of(func(s heat.Steady) float64 { return z.Residual(s) })),
	}
}

// streams is the room air that a chamber is given.
func streams() []Check {
	air := origin{machineHeatFamily, "10 L/min of 23 °C, 50 %: IAPWS R7-97 and ASHRAE Fundamentals (independent code)", Computed, relative(1e-6, "seven digits")}
	return []Check{air.check("heated to 70 °C", "power", "W", 9.412526, func() (float64, error) {
		const room = 23 + zeroCelsius
		s, err := airstream.OfVolume(10e-3/60, room, humidair.VapourPressureAt(0.5, room), humidair.StandardPressure)
		return s.PowerTo(343.15), err
	})}
}
