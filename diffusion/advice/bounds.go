package advice

import (
	"slices"

	"strandry/diffusion"
	"strandry/materials/humidair"
)

// Bounds are what can be built.
type Bounds struct {
	Longest []float64 // path of each zone [m]; the last one of any others
	Hottest float64   // air of a zone [K]; no further than the strand bears
	Driest  float64   // dew or frost point of supplied air [K]
	Slowest float64   // feed [m/s]
	Fastest float64   // [m/s]
	Room    float64   // temperature at which a volume of air is told [K]
}

// What no bound is stated for.
const (
	shortest = 0.5        // of a zone that wets the strand: what is drawn is there for a reason
	airTimes = 4          // as much air as drawn, or
	airLeast = 10.0 / 6e4 // this if that is more [m³/s]: 10 L/min, which a small pump gives (common practice, no source)
	little   = 1.02       // less is no change
	warmer   = 0.5        // [K] nor is this
)

// possible are the changes that can be made to a design, each as far as its bound. A zone with a duration stays as long as it is.
func (b *Bounds) possible(m *diffusion.Design, r *diffusion.Result, dryer int) []Change {
	var all []Change
	add := func(kind Kind, parts ...Part) {
		if len(parts) > 0 {
			all = append(all, Change{Kind: kind, Parts: parts})
		}
	}
	add(Slower, b.feed(m, m.Speed > little*b.Slowest, b.Slowest)...)
	add(Faster, b.feed(m, m.Speed*little < b.Fastest, b.Fastest)...)
	for _, i := range drying(m, dryer) {
		z := &m.Path[i]
		add(MoreAir, b.air(m, i)...)
		if longest := b.longest(i); z.Length > 0 && z.Length*little < longest {
			add(Longer, Part{Zone: i, From: z.Length, Bound: longest})
		}
		if z.Air.Temperature+warmer < b.Hottest {
			add(Hotter, Part{Zone: i, From: z.Air.Temperature, Bound: b.Hottest})
		}
		add(Drier, b.dry(m, i)...)
	}
	var after []Part
	for i := dryer + 1; i < len(m.Path); i++ {
		after = append(after, b.dry(m, i)...)
	}
	add(DrierAfter, after...)
	if i := wettest(r, dryer); i >= 0 && m.Path[i].Length > 0 {
		add(Shorter, Part{Zone: i, From: m.Path[i].Length, Bound: shortest * m.Path[i].Length})
	}
	for i := range all {
		all[i] = all[i].share(1)
	}
	return all
}

// longest is the path of a zone that can be built [m].
func (b *Bounds) longest(zone int) float64 {
	if len(b.Longest) == 0 {
		return 0
	}
	return b.Longest[min(zone, len(b.Longest)-1)]
}

// drying are the zones that may dry more: the dryer, and before it up to two others that are heated.
func drying(m *diffusion.Design, dryer int) []int {
	const most = 3
	zones := []int{dryer}
	for i := 0; i < dryer && len(zones) < most; i++ {
		if m.Path[i].Air.Temperature > m.StartTemperature+heatedAbove {
			zones = append(zones, i)
		}
	}
	return zones
}

// feed is the part of a change of the feed.
func (b *Bounds) feed(m *diffusion.Design, possible bool, bound float64) []Part {
	runs := slices.ContainsFunc(m.Path, func(z diffusion.Zone) bool { return z.Length > 0 })
	if !possible || !runs {
		return nil
	}
	return []Part{{Zone: -1, From: m.Speed, Bound: bound}}
}

// dry is the part of drier air in a zone.
func (b *Bounds) dry(m *diffusion.Design, zone int) []Part {
	a := &m.Path[zone].Air
	driest := humidair.SaturationPressure(b.Driest)
	switch {
	case a.VapourPressure <= little*driest:
		return nil
	case a.Held > 0:
		return []Part{{Zone: zone, From: a.Held, Bound: driest / humidair.SaturationPressure(a.Temperature), held: a.Temperature}}
	}
	return []Part{{Zone: zone, From: a.VapourPressure, Bound: driest}}
}

// air is the part of more air through a zone, where it is limited.
func (b *Bounds) air(m *diffusion.Design, zone int) []Part {
	z := &m.Path[zone]
	p := Part{Zone: zone}
	switch a := &z.Air; {
	case a.Blown:
		p.From, p.Bound = z.Film.AirSpeed, airTimes*z.Film.AirSpeed
	case a.VolumeFlow > 0:
		p.From, p.Bound = a.VolumeFlow, max(airTimes*a.VolumeFlow, airLeast)
	case a.Dragged:
		p.From = m.DryFlow(z) * humidair.DryAirConstant * b.Room / (m.AirPressure() - a.VapourPressure)
		p.Bound = max(airTimes*p.From, airLeast)
	case a.DryFlow > 0:
		p.From, p.Bound = a.DryFlow, airTimes*a.DryFlow
	default:
		return nil
	}
	return []Part{p}
}

// wettest is the zone, other than the dryer, in which the strand takes up most water; -1 where it takes up none.
func wettest(r *diffusion.Result, dryer int) int {
	zone, most, before := -1, 0.0, r.Start.Mean
	for i := range r.Zones {
		if rise := r.Zones[i].Exit.Mean - before; i != dryer && rise > most {
			zone, most = i, rise
		}
		before = r.Zones[i].Exit.Mean
	}
	return zone
}

// cool is the change of what is hotter than the strand bears.
func (b *Bounds) cool(m *diffusion.Design) Change {
	bears := m.Material.GivesWay().Min
	c := Change{Kind: Cooler}
	for i := range m.Path {
		if t := m.Path[i].Air.Temperature; t > bears {
			c.Parts = append(c.Parts, Part{Zone: i, From: t, Bound: b.Hottest})
		}
	}
	return c.share(1)
}
