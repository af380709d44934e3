package machine

import (
	"errors"

	"strandry/diffusion"
	"strandry/diffusion/machine/pull"
	"strandry/diffusion/machine/shape"
)

// draw tells how hard the strand is pulled on its way from spool to feeder.
func (m *Machine) draw(d *diffusion.Design, r *diffusion.Result, a *Answer) error {
	p := &a.Pull
	for i := range a.Chambers {
		if l := &a.Chambers[i].Lead; a.Chambers[i].Led && l.BendRadius > 0 && (p.Radius == 0 || l.BendRadius < p.Radius) {
			p.Radius, p.Bend, p.BentIn = l.BendRadius, l.BendStrain, m.Chambers[i].Name
		}
	}
	if m.Pull.Spool == 0 && m.Pull.Feeder == 0 && m.Pull.Guides == 0 {
		return nil
	}
	stages := []pull.Stage{{Name: "spool", Element: pull.Drag{Force: pull.Exactly(m.Pull.Spool)}, Temperature: r.Start.Temperature, Modulus: modulus(d, r.Start.Temperature)}}
	for i := range m.Chambers {
		stages = append(stages, m.stages(d, r, i, &a.Chambers[i])...)
	}
	if m.Pull.Guides > 0 {
		at := r.Nozzle.Temperature
		stages = append(stages, pull.Stage{Name: "guides", Element: pull.Guide{Friction: m.Pull.Friction.of(), Angle: m.Pull.Guides}, Temperature: at, Modulus: modulus(d, at)})
	}
	var err error
	p.Result, err = pull.Along(pull.Strand{Diameter: 2 * d.Radius, Density: d.Material.Density.Value}, stages)
	switch {
	case errors.Is(err, pull.ErrBeyond):
		p.Beyond, p.Holds = true, pull.Fails
		return nil
	case err != nil:
		return err
	}
	p.Told = true
	if m.Pull.Feeder > 0 {
		p.Given = m.Pull.Feeder
		p.Holds, _, err = pull.Against(p.Result.Pull, pull.Exactly(m.Pull.Feeder))
	}
	return err
}

func (r Range) of() pull.Range { return pull.Range{Low: r.Low, Value: r.Value, High: r.High} }

// modulus of the strand at a temperature [K], as far as it is known.
func modulus(d *diffusion.Design, T float64) pull.Range {
	e, ok := d.Material.Modulus(T)
	if !ok {
		return pull.Range{}
	}
	return pull.Range{Low: e.Low, Value: e.Value, High: e.High}
}

// stages are what pulls at the strand in chamber i.
func (m *Machine) stages(d *diffusion.Design, r *diffusion.Result, i int, h *Housed) []pull.Stage {
	c := &m.Chambers[i]
	hot := r.Zones[i].Exit.Temperature
	stage := func(e pull.Element) pull.Stage {
		return pull.Stage{Name: c.Name, Element: e, Temperature: hot, Modulus: modulus(d, hot)}
	}
	if !h.Led {
		return nil
	}
	if _, straight := c.Led.(shape.Tube); straight {
		if d.Path[i].Film.Vertical { // it lies on no floor
			return nil
		}
		return []pull.Stage{stage(pull.Floor{Friction: m.Pull.Friction.of(), Length: h.Length})}
	}
	var all []pull.Stage
	for _, w := range h.Lead.Wraps {
		roller := pull.Roller{Angle: w.Angle, Radius: w.Radius, Bearing: c.Bearing.friction(), Bore: min(c.Axle, 2*w.Radius), Lost: lostInBending()}
		switch {
		case w.Over == shape.Drum && c.Driven:
			all = append(all, stage(pull.Driven{Friction: m.Pull.Friction.of(), Angle: w.Angle, Left: left()}))
			continue
		case w.Over == shape.Drum:
			roller.Weight = gravity * c.DrumMass
		}
		for range w.Count {
			all = append(all, stage(roller))
		}
	}
	return all
}

const gravity = 9.80665 // [m/s²]

// friction is the coefficient of a bearing: rolling ones 0.001 to 0.003 with their seals (rolling-bearing handbooks give 0.001 to 0.0015 without), dry plain ones 0.1 to 0.3 (from memory).
func (b Bearing) friction() pull.Range {
	if b == Plain {
		return pull.Range{Low: 0.1, Value: 0.2, High: 0.3}
	}
	return pull.Range{Low: 0.001, Value: 0.002, High: 0.004}
}

// lostInBending is the share of the work of bending that a polymer does not give back: from memory, of the order of its loss factor times a bend and a straightening.
func lostInBending() pull.Range { return pull.Range{Low: 0.1, Value: 0.3, High: 1} }

// left is the tension that the control of a driven drum leaves behind it [N] (common practice, no source).
func left() pull.Range { return pull.Range{Low: 0.2, Value: 0.5, High: 2} }
