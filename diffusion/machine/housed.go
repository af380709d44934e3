package machine

import (
	"strandry/diffusion"
	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/shape"
	"strandry/materials/humidair"
)

// warmer is how much warmer than the room a chamber is that counts as heated [K].
const warmer = 0.5

// housed tells of the chamber of zone i.
func (m *Machine) housed(d *diffusion.Design, r *diffusion.Result, i int) (Housed, error) {
	c, z := &m.Chambers[i], &d.Path[i]
	h := Housed{Name: c.Name, Length: z.Length, Heater: c.Heater, Heated: z.Air.Temperature > m.Room.Temperature+warmer}
	if err := m.lead(d, i, &h); err != nil {
		return h, err
	}
	m.water(d, r, i, &h)
	if !h.Heated {
		return h, nil
	}
	if err := m.loss(z, c, &h); err != nil {
		return h, err
	}
	if err := m.power(d, r, i, &h); err != nil {
		return h, err
	}
	return h, m.warmUp(z, c, &h)
}

// lead tells how the strand is led, and whether it fits.
func (m *Machine) lead(d *diffusion.Design, i int, h *Housed) error {
	way, err := m.Way(d, i)
	if err != nil || way == nil {
		return err
	}
	diameter := 2 * d.Radius
	if h.Lead, err = way.Lead(diameter); err != nil {
		return err
	}
	h.Led = true
	thick := 2 * m.Chambers[i].Wall.Insulation
	o := h.Lead.Housing
	h.Outer = [3]float64{o.Length + thick, o.Width + thick, o.Height + thick}
	if m.Box == (Box{}) {
		return nil
	}
	h.Boxed = true
	if h.Fits, err = shape.Fits(m.Box.sides(), shape.Housing{Length: h.Outer[0], Width: h.Outer[1], Height: h.Outer[2]}); err != nil {
		return err
	}
	h.Most, err = most(m.Box.sides(), way, thick, diameter)
	return err
}

// Holds is what the shape of the chamber of zone i holds at most of a strand of a diameter [m], in the box and with the turns or passes that are stated [m]; zero where nothing bounds it, and below zero
// where none of its kind fits the box.
func (m *Machine) Holds(i int, diameter float64) float64 {
	c, holds := &m.Chambers[i], 0.0
	if c.Led == nil {
		return 0
	}
	if c.Held {
		if lead, err := c.Led.Lead(diameter); err == nil {
			holds = lead.Length
		}
	}
	if m.Box == (Box{}) {
		return holds
	}
	switch in, err := most(m.Box.sides(), c.Led, 2*c.Wall.Insulation, diameter); {
	case err != nil:
		return holds
	case in == 0:
		return -1
	case holds == 0 || in < holds:
		return in
	}
	return holds
}

// most is the longest strand that the same kind of shape holds in a box whose walls inside are insulated [m]; zero where none fits.
func most(box shape.Box, way shape.Way, thick, diameter float64) (float64, error) {
	inside := shape.Box{A: box.A - thick, B: box.B - thick, C: box.C - thick}
	const least = 1e-3
	if inside.A < least || inside.B < least || inside.C < least {
		return 0, nil
	}
	best, any, err := way.Most(inside, diameter)
	if err != nil || !any {
		return 0, err
	}
	lead, err := best.Lead(diameter)
	return lead.Length, err
}

// fastest bounds the speed of the air beside the wall, beyond which no film is known [m/s].
const fastest = 100

// loss tells what the wall loses, and what a hand meets.
func (m *Machine) loss(z *diffusion.Zone, c *Chamber, h *Housed) error {
	if !h.Led {
		return nil
	}
	o := h.Lead.Housing
	w := heat.Wall{
		Housing:    heat.Housing{Shape: heat.Box, Length: o.Length, Width: o.Width, Height: o.Height, Diameter: o.Diameter},
		Emissivity: c.Wall.Emissivity,
	}
	switch {
	case o.Diameter > 0 && z.Film.Vertical:
		w.Shape = heat.StandingCylinder
	case o.Diameter > 0:
		w.Shape = heat.LevelCylinder
	}
	if c.Wall.Insulation > 0 {
		w.Insulation = []heat.Layer{{Thickness: c.Wall.Insulation, Conductivity: c.Wall.Conductivity}}
	}
	if h.Water.Limited && h.Lead.AirSection > 0 {
		out := h.Water.Out
		density := humidair.Density(z.Air.Temperature, out.Vapour(m.Room.Pressure), m.Room.Pressure)
		w.AirSpeed = min(fastest, (out.Dry+out.Water())/density/h.Lead.AirSection)
	}
	var err error
	h.Loss, err = w.Loss(heat.Climate{Inside: z.Air.Temperature, Room: m.Room.Temperature, Pressure: m.Room.Pressure})
	if err != nil {
		return err
	}
	h.Walled = true
	h.Touch, err = heat.Touch(c.Wall.Surface.material(), h.Loss.SurfaceHigh)
	return err
}

// material is what a hand touches, by the name of the limits.
func (s Surface) material() heat.Material {
	return [...]heat.Material{Plastic: heat.Plastic, Metal: heat.BareMetal, Glass: heat.Glass}[s]
}

// power tells where the power of a heated chamber goes.
func (m *Machine) power(d *diffusion.Design, r *diffusion.Result, i int, h *Housed) error {
	z, found := &d.Path[i], &r.Zones[i]
	before := r.Start
	if i > 0 {
		before = r.Zones[i-1].Exit
	}
	n := h.Water.Strands
	zone := heat.Zone{Temperature: z.Air.Temperature, Wall: h.Loss.Power, Strands: []heat.Strand{{
		Flow: n * oneFlow(d) * (1 + max(0, before.Mean)), Capacity: d.Material.HeatCapacity.Value, From: before.Temperature, To: found.Exit.Temperature,
	}}}
	zone.Strands[0].Water = h.Water.Given
	zone.Air, zone.Leak = []airstream.Stream{h.Water.Supply}, h.Water.Leak
	h.Airless = !h.Water.Limited
	if h.Airless { // so much as warm as the chamber that the water of the strands does not count
		zone.Air[0] = airstream.Stream{Dry: 1, Ratio: humidair.HumidityRatio(z.Air.VapourPressure, d.AirPressure()), Temperature: z.Air.Temperature}
	}
	var err error
	if h.Steady, err = zone.Steady(); err != nil {
		return err
	}
	if h.Airless {
		h.Steady.Out = airstream.Stream{Temperature: z.Air.Temperature}
	} else {
		h.Residual = zone.Residual(h.Steady)
	}
	h.Size, err = h.Steady.Size(m.Margin)
	return err
}

// warmUp tells how soon the chamber is warm, and how even the air is if it is warmed before it enters.
func (m *Machine) warmUp(z *diffusion.Zone, c *Chamber, h *Housed) error {
	if !h.Walled {
		return nil
	}
	air := h.Water.Supply.Capacity() + h.Water.Leak.Capacity()
	if c.Wall.Mass > 0 {
		power := c.Heater
		if power == 0 {
			power = h.Size
		}
		l := heat.Lumped{Masses: []heat.Mass{{Mass: c.Wall.Mass, Capacity: c.Wall.HeatCapacity}}, Power: power, UA: h.Loss.UA + air, Room: m.Room.Temperature}
		var err error
		if h.WarmUp, err = l.WarmUp(m.Room.Temperature, z.Air.Temperature, heat.Settled); err != nil {
			return err
		}
		h.Warms = true
	}
	if h.Airless || air == 0 {
		return nil
	}
	path := heat.Path{Inlet: h.Water.Out, UA: h.Loss.UA, Room: m.Room.Temperature}
	inlet, err := path.InletFor(z.Air.Temperature)
	if err != nil {
		return nil // so hot at the inlet that it is no way to heat it
	}
	path.Inlet.Temperature = inlet
	h.Along, err = path.Evenness()
	h.Uneven = err == nil
	return nil
}
