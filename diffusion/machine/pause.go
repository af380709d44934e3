package machine

import (
	"math"

	"strandry/diffusion"
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
