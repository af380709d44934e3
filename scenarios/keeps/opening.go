package keeps

import (
	"strandry/diffusion"
	"strandry/scenarios"
)

// speed at which a strand at rest is taken to run [m/s], so that times become lengths.
const speed = 1e-3

// watched is how many time constants the strand is watched for after the door is closed: the mean
// turns when the skin has as much as the strand inside it, long before.
const watched = 12

// opening sets what one opening costs.
func (r *Row) opening(w *diffusion.March, s *scenarios.Scenario, scatter float64) error {
	m := s.Model
	store := Air{Temperature: s.Store.Temperature, VapourPressure: s.Store.VapourPressure}
	m.Material, m.Limit, m.Start, m.StartTemperature = r.Material, r.Limit, r.Store, store.Temperature
	m.Storage, m.Speed = nil, speed
	still := diffusion.Zone{
		Film: scenarios.StillAir(),
		Air:  diffusion.Air{Temperature: store.Temperature, VapourPressure: store.VapourPressure},
	}
	door, back := still, still
	door.Name, door.Length, door.Air.VapourPressure = "door open", s.Opening.Duration*speed, open(s)
	back.Name, back.Length = "door closed", watched*s.Opening.TimeConstant*speed
	back.Air.Relax = diffusion.Relax{From: open(s), TimeConstant: s.Opening.TimeConstant}
	m.Path = []diffusion.Zone{door, back}
	if err := m.Check(); err != nil {
		return err
	}
	gain := func(factor float64, n diffusion.Settings) (float64, error) {
		varied := m
		varied.DiffusivityFactor *= factor
		t, err := w.Trace(&varied, n)
		if err != nil {
			return 0, err
		}
		return peak(t.Points) - m.Start, nil
	}
	var fine float64
	var err error
	for _, c := range []struct {
		factor float64
		n      diffusion.Settings
		into   *float64
	}{
		{1, s.Settings, &r.Gain}, {scatter, s.Settings, &r.GainFast}, {1 / scatter, s.Settings, &r.GainSlow},
		{1, s.Settings.Refined(), &fine},
	} {
		if *c.into, err = gain(c.factor, c.n); err != nil {
			return err
		}
	}
	r.GainNumericalError = diffusion.Margin(r.Gain, fine)
	return nil
}

// peak is the greatest mean between the points, by the parabola through the greatest and its neighbours.
func peak(points []diffusion.Point) float64 {
	top := 0
	for i, p := range points {
		if p.Mean > points[top].Mean {
			top = i
		}
	}
	most := points[top].Mean
	if top == 0 || top == len(points)-1 {
		return most
	}
	before, after := points[top-1].Time-points[top].Time, points[top+1].Time-points[top].Time
	if !(before < 0 && after > 0) { // where a zone ends there are two points at one time
		return most
	}
	falling, rising := (points[top-1].Mean-most)/before, (points[top+1].Mean-most)/after
	curve := (rising - falling) / (after - before)
	slope := rising - curve*after
	if !(curve < 0) {
		return most
	}
	return most - slope*slope/(4*curve)
}
