package scenarios

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/heat"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// shared reads where the air of a zone comes from, what leaks in, and how many strands take part in it.
func (r *reading) shared(t section, c *machine.Chamber, z *diffusion.Zone, s *Scenario) {
	stated := t.has("dew_point") || t.has("humidity") || t.has("vapour_pressure")
	words := []string{machine.RoomAir.String(), machine.Supplied.String(), machine.Once.String(), machine.Loop.String()}
	word, given := t.choice("source", words...)
	switch {
	case given && word == machine.RoomAir.String() && stated:
		t.fault("source", "air of the room has the vapour of the room", "another source, or no dew_point, humidity or vapour_pressure")
	case given && word != machine.RoomAir.String() && !stated:
		t.fault("source", "how dry the air is supplied is missing", "source together with dew_point, humidity or vapour_pressure: for air over a desiccant, those at which it is changed for a fresh one")
	case (word == machine.Once.String() || word == machine.Loop.String()) && !(z.Air.VolumeFlow > 0 || z.Air.Blown):
		t.fault("source", "air without limit, or that the strand drags along, goes through no desiccant", "source together with flow")
	}
	for i, w := range words {
		if word == w {
			c.Source = machine.Source(i)
		}
	}
	r.built = r.built || given
	if !given && stated {
		c.Source = machine.Supplied
	}
	z.Air.Strands = t.whole("strands", 1, 10_000, 0)
	r.leak(t, z, s)
}

// leak reads the air of the room that comes in: a flow, or through a slot round the strand at either end, under a pressure.
func (r *reading) leak(t section, z *diffusion.Zone, s *Scenario) {
	a := &z.Air
	metered := a.VolumeFlow > 0 || a.Blown
	slot := t.sub("slot")
	bores, pressures := strict.Limits{Min: 1e-4, Max: 1, Unit: "mm"}, strict.Limits{Min: 0, Max: 1e3, Unit: "Pa"}
	one := t.atMostOne("leak", "slot")
	if !metered && one != "" {
		t.fault(one, "into air without limit nothing leaks that could be told", one+" together with flow")
	}
	flow, _ := t.quantity("leak", quantity.VolumeFlow(), strict.Limits{Max: 1, Unit: "L/min"})
	if one != "slot" || slot.absent() {
		slot.quantity("bore", quantity.Length(), bores) // to be known
		slot.quantity("pressure", quantity.Pressure(), pressures)
	} else {
		bore, wide := slot.required("bore", quantity.Length(), bores)
		pressure, _ := slot.required("pressure", quantity.Pressure(), pressures)
		if d := 2 * s.Model.Radius; wide && bore < d {
			slot.fault("bore", "the strand does not fit", "the strand's diameter, "+quantity.Length().Format(d, "mm", 4)+", or more")
		}
		flow = r.through(slot, bore, pressure, s)
	}
	if flow > 0 && metered {
		a.Leak, a.LeakOf, a.MeteredAt = flow, s.Room.VapourPressure, s.Room.Temperature
		_, mixed := s.Model.Inflow(z)
		t.soundAir("leak", diffusion.Air{Temperature: a.Temperature, VapourPressure: mixed}, s.Room.Pressure)
	}
}

// through is the flow of room air through two slots [m³/s].
func (r *reading) through(t section, bore, pressure float64, s *Scenario) float64 {
	const ends = 2
	area := ends * math.Pi / 4 * math.Max(0, bore*bore-4*s.Model.Radius*s.Model.Radius)
	density := humidair.Density(s.Room.Temperature, s.Room.VapourPressure, s.Room.Pressure)
	mass, err := heat.Slot(heat.Opening{Area: area, Discharge: heat.SharpEdge}, pressure, density)
	if err != nil {
		t.fault("", err.Error(), "a slot and a pressure that can be")
		return 0
	}
	return mass / density
}
