package advice

import (
	"math"

	"strandry/diffusion"
	"strandry/materials/humidair"
)

// Kind is a thing that can be changed.
type Kind int

// The kinds, from that of which least is asked where several share a task to that of which most is.
const (
	Slower Kind = iota
	Faster
	MoreAir
	Longer
	Shorter
	Hotter
	Drier      // air of the zone that dries
	DrierAfter // air of the zones after it
	Cooler     // what is hotter than the strand bears
)

func (k Kind) String() string {
	return [...]string{"slower", "faster", "more air", "longer", "shorter", "hotter", "drier air", "dry air after", "cooler"}[k]
}

// Change is one change, to a zone, to several in one go, or to the feed.
type Change struct {
	Kind  Kind
	Parts []Part
}

// Part is one number that a change sets. It is a length [m], a temperature [K], a speed of the feed [m/s]; of air the vapour pressure [Pa], or
// the relative humidity where that is held [-]; as more air the flow in the terms in which the zone has it: a volume [m³/s], a speed through
// a bore [m/s], a mass of dry air [kg/s].
type Part struct {
	Zone     int // index in the path; -1 for the feed
	From, To float64
	Bound    float64 // To goes no further

	Key, Was, Is string // how it is written down, by the [Draft]

	held float64 // temperature at which the humidity is held [K]; zero where it is not
}

// vapour pressure of a value of the part [Pa].
func (p *Part) vapour(x float64) float64 {
	if p.held > 0 {
		return humidair.VapourPressureAt(x, p.held)
	}
	return x
}

// share is the change a part of the way from what is drawn to its bound, 0 to 1: even in temperatures and dew points, which several zones then
// share, and in the logarithm of what else there is.
func (c Change) share(of float64) Change {
	out := Change{Kind: c.Kind, Parts: append([]Part(nil), c.Parts...)}
	dew := 0.0
	if c.Kind == Drier || c.Kind == DrierAfter {
		for i := range c.Parts {
			p := &c.Parts[i]
			from := humidair.DewPoint(p.vapour(p.From))
			dew = max(dew, from+of*(humidair.DewPoint(p.vapour(p.Bound))-from))
		}
	}
	for i := range out.Parts {
		p := &out.Parts[i]
		switch c.Kind {
		case Hotter, Cooler:
			p.To = p.From + of*(p.Bound-p.From)
		case Drier, DrierAfter:
			p.To = max(p.Bound, p.From*min(1, humidair.SaturationPressure(dew)/p.vapour(p.From)))
		default:
			p.To = p.From * math.Pow(p.Bound/p.From, of)
		}
	}
	return out
}

// apply makes a change in a model whose path is its own; room is the temperature at which a volume of air is told [K].
func (c Change) apply(m *diffusion.Design, room float64) {
	for _, p := range c.Parts {
		if p.Zone < 0 {
			m.Speed = p.To
			continue
		}
		z := &m.Path[p.Zone]
		switch c.Kind {
		case Longer, Shorter:
			z.Length = p.To
		case Hotter, Cooler:
			heat(&z.Air, p.To)
		case Drier, DrierAfter:
			if z.Air.Held > 0 {
				z.Air.Held = p.To
				heat(&z.Air, z.Air.Temperature)
			} else {
				z.Air.VapourPressure = p.To
			}
		case MoreAir:
			blow(z, p.To, room)
		}
	}
}

// heat sets the temperature of air as a scenario states it, saturated or not: see [sound].
func heat(a *diffusion.Air, temperature float64) {
	a.Temperature = temperature
	if a.Held > 0 {
		a.VapourPressure = humidair.VapourPressureAt(a.Held, temperature)
	}
}

// blow sets how much air a zone has. Air that the strand dragged along becomes a volume, mixed throughout.
func blow(z *diffusion.Zone, to, room float64) {
	a := &z.Air
	switch {
	case a.Blown:
		z.Film.AirSpeed = to
	case a.Dragged:
		*a = a.WithoutLimit()
		a.VolumeFlow, a.MeteredAt, a.Direction = to, room, diffusion.Mixed
	case a.VolumeFlow > 0:
		a.VolumeFlow = to
	default:
		a.DryFlow = to
	}
}

// changed is a model with changes.
func changed(m *diffusion.Design, all []Change, room float64) *diffusion.Design {
	out := *m
	out.Path = append([]diffusion.Zone(nil), m.Path...)
	for _, c := range all {
		c.apply(&out, room)
	}
	return &out
}

// sound tells that no air of the path is above saturation.
func sound(m *diffusion.Design) bool {
	const slack = 1 + 1e-9
	for i := range m.Path {
		a := &m.Path[i].Air
		if a.VapourPressure > slack*humidair.SaturationPressure(a.Temperature) {
			return false
		}
	}
	return true
}
