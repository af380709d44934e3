package machine

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

// reaching is the share of the heat of a regeneration that reaches the bed; the rest leaves with the air (common practice, no source).
const reaching = 0.5

// fillSteps are the loads at which the filling of the bed is told.
const fillSteps = 32

// fill tells how the desiccant fills.
func (m *Machine) fill(d *diffusion.Design, a *Answer) error {
	f := &a.Bed
	var over []int // the chambers whose air goes over it
	for i := range m.Chambers {
		if m.Chambers[i].Source.overDesiccant() && a.Chambers[i].Water.Limited {
			if p := d.Path[i].Air.VapourPressure; len(over) == 0 || p < f.Target {
				f.Target = p
			}
			over = append(over, i)
		}
	}
	if len(over) == 0 || m.Bed.Mass == 0 {
		return nil
	}
	isotherm, err := desiccant.Of(m.Bed.Kind)
	if err != nil {
		return err
	}
	f.Used = true
	f.Bed = desiccant.Bed{Isotherm: isotherm, DryMass: m.Bed.Mass, Temperature: m.Bed.Temperature, Share: 1}
	if m.Bed.Regenerated > 0 {
		if f.Bed.StartLoad, err = isotherm.Residue(m.Room.VapourPressure, m.Bed.Regenerated); err != nil {
			return err
		}
	}
	f.Outside = !isotherm.Range.Holds(f.Target, m.Bed.Temperature)
	rate := m.reaches(d, a, over)
	f.Rate = rate(f.Target)
	if f.Fresh, err = isotherm.VapourPressure(f.Bed.StartLoad, f.Bed.Temperature); err != nil {
		return err
	}
	return m.last(f, rate)
}

// reaches is the water that reaches the bed while it holds a vapour pressure [kg/s]: what is left in the air of the room, or what a chamber in the loop gets from strands and leak and does
// not lose with the air that leaks out.
func (m *Machine) reaches(d *diffusion.Design, a *Answer, over []int) desiccant.Rate {
	p := d.AirPressure()
	room := humidair.HumidityRatio(m.Room.VapourPressure, p)
	return func(held float64) float64 {
		sum, ratio := 0.0, humidair.HumidityRatio(held, p)
		for _, i := range over {
			w := &a.Chambers[i].Water
			if m.Chambers[i].Source == Once {
				sum += w.Supply.Dry * (room - ratio)
				continue
			}
			out := (w.Supply.Dry*ratio + w.Leak.Water() + w.Given) / (w.Supply.Dry + w.Leak.Dry)
			sum += w.Supply.Dry * (out - ratio)
		}
		return sum
	}
}

// last tells how long the bed lasts, what mass lasts a day, and what it takes to dry it.
func (m *Machine) last(f *Filled, rate desiccant.Rate) (err error) {
	const day = 86400
	if f.Life, err = f.Bed.Life(f.Target, rate); err != nil {
		return err
	}
	capacity, err := f.Bed.Capacity(f.Target)
	if err != nil {
		return err
	}
	if capacity.Likely > 0 && !f.Life.Never {
		f.Low, f.High = f.Life.Seconds*capacity.Low/capacity.Likely, f.Life.Seconds*capacity.High/capacity.Likely
		if f.ForADay, err = f.Bed.MassFor(day, f.Target, rate); err != nil {
			return err
		}
		if f.Fill, err = f.Bed.Fill(f.Target, rate, fillSteps); err != nil {
			return err
		}
	}
	if m.Bed.Regenerated == 0 || f.Life.Never || f.Life.Seconds == 0 {
		return nil
	}
	r := desiccant.Regeneration{
		Isotherm: f.Bed.Isotherm, DryMass: f.Bed.DryMass, From: f.Bed.StartLoad + f.Life.Taken/f.Bed.DryMass, To: f.Bed.StartLoad,
		Cold: math.Min(f.Bed.Temperature, m.Bed.Regenerated), Hot: m.Bed.Regenerated, Efficiency: reaching,
	}
	f.Regenerate, err = r.Energy()
	return err
}
