package machine

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// pause tells what stands in the heat when the feed stops.
func pause(d *diffusion.Design, r *diffusion.Result, m *Machine) Pause {
	way := d.Material.GivesWay()
	p := Pause{Bears: way.Min, Yields: way.Max}
	for i := range d.Path {
		z := &d.Path[i]
		if z.Length == 0 || z.Air.Temperature <= m.Room.Temperature+warmer {
			continue
		}
		p.Told = true
		p.Length += z.Length
		if z.Air.Temperature <= p.Air {
			continue
		}
		found := &r.Zones[i]
		p.Zone, p.Air, p.Seconds = z.Name, z.Air.Temperature, 0
		// The strand warms at the rate 2h/(ρ c R), by then little is left to evaporate.
		const near = 1 // [K]
		if cold := z.Air.Temperature - found.Exit.Temperature; cold > near && found.Film.Heat > 0 {
			p.Seconds = d.Material.Density.Value * d.Material.HeatCapacity.Value * d.Radius / (2 * found.Film.Heat) * math.Log(cold/near)
		}
	}
	return p
}

// dries is how long a strand that stands in the air of the hottest chamber takes to give up nine tenths of what it can give up there [s], by rough marches in which a cover goes
// round it; zero where it gives up nothing, or there is no answer.
func (m *Machine) dries(march *diffusion.March, d *diffusion.Design, r *diffusion.Result, p *Pause) float64 {
	const left, shortest, longest = 0.1, 1.0, 1e9
	model := d.Model
	for i := range d.Path {
		if z := d.Path[i]; z.Name == p.Zone {
			z.Length, z.Air, z.Contact.Moves = 0, z.Air.WithoutLimit(), z.Contact.Covered > 0
			z.Film.Heat, z.Film.Mass, z.Film.HeatFactor, z.Film.MassFactor = r.Zones[i].Film.Heat, r.Zones[i].Film.Mass, 0, 0
			model.Path = []diffusion.Zone{z}
			break
		}
	}
	air := &model.Path[0].Air
	rest := d.Material.Sorption.Content(air.VapourPressure/humidair.SaturationPressure(air.Temperature), air.Temperature)
	wet := r.Start.Mean - rest
	if !(wet > 0) {
		return 0
	}
	f := func(logarithm float64) (float64, error) {
		var found diffusion.Result
		model.Path[0].Duration = math.Exp(logarithm)
		err := march.Run(&model, diffusion.RoughSettings(), &found)
		return left - (found.Nozzle.Mean-rest)/wet, err
	}
	low, high := math.Log(shortest), math.Log(longest)
	atLow, errLow := f(low)
	atHigh, errHigh := f(high)
	if errLow != nil || errHigh != nil || !(atLow < 0 && atHigh > 0) {
		return 0
	}
	return rootOf(f, root.Bracket{A: low, B: high, AtA: atLow, AtB: atHigh})
}
