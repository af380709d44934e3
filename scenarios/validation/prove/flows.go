package prove

import (
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/scenarios"
)

const flowFamily = "residence, flow, steam"

// flows are what a scenario's text says of speed and time, and the steam at the nozzle.
func flows() []Check {
	bead := origin{flowFamily, "feed = width × height × speed / (π d²/4), by hand", Computed, relative(1e-8, "nine digits")}
	var out []Check
	for _, r := range []struct {
		width, height, speed, diameter, feed float64 // [mm] and [mm/s]
	}{
		{0.4, 0.2, 40, 1.75, 1.33040540}, {0.45, 0.2, 60, 1.75, 2.24505912}, {0.6, 0.3, 60, 1.75, 4.49011823}, {0.45, 0.2, 100, 2.85, 1.41079174},
	} {
		text := fmt.Sprintf(`bead = { width = "%g mm", height = "%g mm", speed = "%g mm/s" }`, r.width, r.height, r.speed)
		out = append(out, bead.check(fmt.Sprintf("%g × %g, %g mm/s, d %g", r.width, r.height, r.speed, r.diameter), "feed", "mm/s", r.feed,
			written(r.diameter, text, feed)))
	}
	flow := bead
	flow.source = "feed = volume flow / (π d²/4), by hand"
	stay := origin{flowFamily, "residence = length / feed, by hand", Computed, relative(1e-12, "rounding")}
	steam := origin{flowFamily, "ideal gas by hand: C ρ R T / (M p) with 8.314462618 J/(mol K) and 18.015268 g/mol", Transcribed,
		relative(2e-5, "the gas constant of vapour is printed to six digits")}
	return append(out,
		flow.check("4.810564 mm³/s, 1.75 mm", "feed", "mm/s", 2, written(1.75, `flow = "4.810563750 mm3/s"`, feed)),
		stay.check("1 m at 2 mm/s", "residence", "s", 500,
			written(1.75, `speed = "2 mm/s"`, func(m *diffusion.Model) float64 { return m.Path[0].Residence(m.Speed) })),
		steam.plain("0.1 %, 1130 kg/m³, 260 °C", "steam", "m³/m³", 1e-3*1130*8.314462618*533.15/(18.015268e-3*101325), func() float64 {
			d := diffusion.Design{Model: *standard(0), Target: diffusion.Target{NozzleTemperature: 533.15}}
			return d.SteamPerVolume(1e-3)
		}),
		waterGiven())
}

// written makes the computation of one number of a scenario with one zone of a metre and the given feed.
func written(diameter float64, feed string, number func(*diffusion.Model) float64) func() (float64, error) {
	text := fmt.Sprintf("[strand]\nmaterial = \"pa6\"\ndiameter = \"%g mm\"\nmoisture = \"1 %%\"\n[feed]\n%s\n"+
		"[[zone]]\nname = \"tube\"\nlength = \"1 m\"\ntemperature = \"70 °C\"\n", diameter, feed)
	return func() (float64, error) {
		s, err := scenarios.Read("check", []byte(text))
		if err != nil {
			return 0, err
		}
		return number(&s.Model), nil
	}
}

// feed is the speed of the strand [mm/s].
func feed(m *diffusion.Model) float64 { return 1e3 * m.Speed }

// waterGiven closes the balance of water between a strand and a limited flow of air.
func waterGiven() Check {
	o := origin{flowFamily, "water that the strand loses is what its air takes up, humidity ratios by hand", Computed,
		relative(1e-6, "exact in theory; a millionth for rounding over some hundred steps")}
	return o.check("2 mm/s, 2 L/min", "taken up over lost", "-", 1, func() (float64, error) {
		const dryAir = 4e-5 // [kg/s]
		m := standard(20)
		m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = dryAir, diffusion.With
		r, err := ran(m)
		if err != nil {
			return 0, err
		}
		ratio := func(pv float64) float64 { return 0.621945 * pv / (m.Pressure - pv) }
		strand := math.Pi * radius * radius * 1130 * m.Speed // [kg/s] dry
		lost := strand * (r.Zones[0].Exit.Mean - r.Zones[1].Exit.Mean)
		return dryAir * (ratio(r.Zones[1].VapourPressure) - ratio(m.Path[1].Air.VapourPressure)) / lost, nil
	})
}
