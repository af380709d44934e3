package table

import (
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/pull"
)

// machineOf is the machine in SI units; nil where nothing is stated of it.
func machineOf(m *Machine) any {
	if m == nil {
		return nil
	}
	return object{
		{"power", m.Power},                 // of all heaters in the steady state [W]
		{"energy_per_kilogram", m.PerKilo}, // of strand [J/kg]
		{"heater", each(m.Chambers, heaterOf)},
		{"warm_up", warmUpOf(m.Chambers)}, // of the slowest chamber [s]; null where it is never, or not told
		{"fit", each(m.led(), func(h **machine.Housed) object { return fitOf(*h) })},
		{"air", each(m.Chambers, airOf)},
		{"desiccant", bedOf(&m.Bed)},
		{"pull", pullOf(&m.Pull)},
		{"pause", pauseOf(&m.Answer.Pause)},
		{"cost", costOf(m)},
		{"warnings", each(m.Warnings, func(w *machine.Warning) object {
			return object{{"chamber", w.Chamber}, {"text", m.brief(*w)}, {"value", orNull(w.Value)}, {"limit", orNull(w.Limit)}}
		})},
		{"assumptions", m.Assumed},
	}
}

// warmUpOf is the time until all chambers are warm [s].
func warmUpOf(chambers []machine.Housed) any {
	slowest := 0.0
	for i := range chambers {
		h := &chambers[i]
		switch {
		case !h.Heated:
		case !h.Warms || !h.WarmUp.Reached:
			return nil
		default:
			slowest = max(slowest, h.WarmUp.Seconds)
		}
	}
	return orNone(slowest)
}

// heaterOf is where the power of a chamber goes.
func heaterOf(h *machine.Housed) object {
	o := object{{"zone", h.Name}, {"heated", h.Heated}}
	if !h.Heated {
		return o
	}
	s := &h.Steady
	o = append(o, object{
		{"power", s.Heater}, {"to_strand", s.Strand}, {"to_water", s.Water}, {"to_air", s.Air}, {"to_leak", s.Leak}, {"to_wall", s.Wall},
		{"balance", h.Residual}, {"air_counted", !h.Airless}, {"wall_counted", h.Walled}, {"size", h.Size}, filled("stated", h.Heater),
	}...)
	if h.Walled {
		low, high := ends(h)
		o = append(o, object{
			{"power_low", low}, {"power_high", high}, {"loss_coefficient", h.Loss.UA}, {"surface", h.Loss.Surface}, {"surface_high", h.Loss.SurfaceHigh}, {"wall_area", h.Loss.Area},
		}...)
	}
	if h.Warms {
		var seconds any // null: never
		if h.WarmUp.Reached {
			seconds = h.WarmUp.Seconds
		}
		o = append(o, member{"warm_up", seconds})
	}
	if h.Uneven {
		o = append(o, member{"if_heated_at_the_inlet", object{{"inlet", h.Along.Outlet + h.Along.Range}, {"outlet", h.Along.Outlet}}})
	}
	return o
}

// fitOf is how the strand is led, and whether that fits.
func fitOf(h *machine.Housed) object {
	o := object{
		{"zone", h.Name}, {"holds", h.Lead.Length}, {"length", h.Outer[0]}, {"width", h.Outer[1]}, {"height", h.Outer[2]}, {"bend_radius", h.Lead.BendRadius}, {"bend_strain", h.Lead.BendStrain},
		{"air_section", h.Lead.AirSection},
	}
	if h.Boxed {
		o = append(o, object{{"fits", h.Fits}, {"box_holds", h.Most}}...)
	}
	return o
}

// airOf is the balance of water of a chamber.
func airOf(h *machine.Housed) object {
	w := &h.Water
	o := object{{"zone", h.Name}, {"limited", w.Limited}, {"strands", w.Strands}, {"water_from_strands", w.Given}}
	if !w.Limited {
		return o
	}
	o = append(o, object{
		{"flow", w.Flow}, {"dry_air", w.Out.Dry}, {"water_supplied", w.Supply.Water()}, {"water_leaked_in", w.Leak.Water()}, {"water_leaving", w.Out.Water()}, {"balance", w.Residual},
	}...)
	if w.Searched { // null: none of the flows that were tried
		o = append(o, object{{"starved_below", orNone(w.Least)}, {"little_gain_beyond", orNone(w.Enough)}}...)
	}
	return o
}

// orNone is a number, or null for zero.
func orNone(x float64) any {
	if x == 0 {
		return nil
	}
	return x
}

// bedOf is how the desiccant fills; null where there is none.
func bedOf(b *machine.Filled) any {
	if !b.Used {
		return nil
	}
	var life any // null: it holds for good
	if !b.Life.Never {
		life = object{{"value", b.Life.Seconds}, {"low", b.Low}, {"high", b.High}}
	}
	var fill []object
	for _, s := range b.Fill {
		fill = append(fill, object{{"time", s.Time}, {"load", s.Load}, {"vapour_pressure", s.Pressure}})
	}
	return object{
		{"kind", b.Bed.Isotherm.Kind.String()}, {"mass", b.Bed.DryMass}, {"temperature", b.Bed.Temperature}, {"start_load", b.Bed.StartLoad},
		{"target_vapour_pressure", b.Target}, {"fresh_vapour_pressure", b.Fresh}, {"water", b.Rate}, {"life", life}, {"mass_for_a_day", orNone(b.ForADay)},
		{"regeneration_energy", orNone(b.Regenerate.Total)}, {"outside_data", b.Outside}, {"fill", fill}, {"source", b.Bed.Isotherm.Source}, {"cautions", b.Bed.Isotherm.Kind.Cautions()},
	}
}

// rangeOf is a value with its ends; null where it is not known.
func rangeOf(r pull.Range) any {
	if !r.Known() {
		return nil
	}
	return object{{"value", r.Value}, {"low", r.Low}, {"high", r.High}}
}

// pullOf is how hard the strand is pulled.
func pullOf(p *machine.Drawn) any {
	o := object{}
	if p.Radius > 0 {
		o = append(o, object{{"bend_radius", p.Radius}, {"bend_strain", p.Bend}, {"bent_in", p.BentIn}}...)
	}
	if p.Beyond {
		return append(o, member{"holds", p.Holds.String()})
	}
	if !p.Told {
		return o
	}
	return append(o, object{
		{"at_feeder", rangeOf(p.Result.Pull)}, {"feeder", orNone(p.Given)}, {"holds", p.Holds.String()},
		{"stages", each(p.Result.Points, func(s *pull.Point) object {
			one := object{{"name", s.Name}, {"tension", rangeOf(s.Tension)}, {"stress", rangeOf(s.Stress)}, {"temperature", s.Temperature}}
			if s.Stretch.Known {
				return append(one, object{{"stretch", rangeOf(s.Stretch.Strain)}, {"thinner", rangeOf(s.Stretch.Thinner)}}...)
			}
			return append(one, member{"stretch", nil}) // not known
		})},
	}...)
}

// pauseOf is what becomes of the strand when the feed stops; null where nothing is heated.
func pauseOf(p *machine.Pause) any {
	if !p.Told {
		return nil
	}
	return object{{"zone", p.Zone}, {"length", p.Length}, {"air", p.Air}, {"bears", p.Bears}, {"gives_way", p.Yields}, {"softens", p.Softens()}, {"warms_in", p.Seconds}, {"dries_in", orNone(p.Dries)}, {"time_limit", nil}} // not known
}

// costOf is what parts and running cost, in the user's currency; null where no price is stated.
func costOf(m *Machine) any {
	c := &m.Answer.Cost
	if !c.Told {
		return nil
	}
	var parts []object
	for i, p := range m.Stated.Parts {
		parts = append(parts, object{{"name", p.Name}, {"cost", c.Parts[i]}})
	}
	return object{{"currency", m.Stated.Currency}, {"parts", parts}, {"total", c.Total}, {"per_hour", c.PerHour}, {"per_kilogram", c.PerKilo}, {"energy_per_hour", c.Energy}}
}
