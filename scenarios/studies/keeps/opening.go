package keeps

import (
	"strandry/diffusion"
	"strandry/scenarios"
)

// watched is how many time constants the strand is watched for after the door is closed: the mean
// turns when the skin has as much as the strand inside it, long before.
const watched = 12

// opening sets what one opening costs a strand, given as it lies dry in the air.
func (r *Row) opening(w *diffusion.March, s *scenarios.Scenario, dry *diffusion.Design) error {
	m := *dry
	store := Air{Temperature: s.Store.Temperature, VapourPressure: s.Store.VapourPressure}
	m.Start, m.StartActivity, m.StartTemperature = r.Store, s.Store.Humidity, store.Temperature
	still := diffusion.Zone{
		Film: scenarios.StillAir(),
		Air:  diffusion.Air{Temperature: store.Temperature, VapourPressure: store.VapourPressure},
	}
	door, back := still, still
	door.Name, door.Duration, door.Air.VapourPressure = "door open", s.Opening.Duration, open(s)
	back.Name, back.Duration = "door closed", watched*s.Opening.TimeConstant
	back.Air.Relax = diffusion.Relax{From: open(s), TimeConstant: s.Opening.TimeConstant}
	m.Path = []diffusion.Zone{door, back}
	if err := m.Check(); err != nil {
		return err
	}
	gain := func(m *diffusion.Model, n diffusion.Settings) (float64, error) {
		t, err := w.Trace(m, n)
		if err != nil {
			return 0, err
		}
		return peak(t.Points) - m.Start, nil
	}
	var err error
	if r.Gain, err = gain(&m.Model, s.Settings); err != nil {
		return err
	}
	fine, err := gain(&m.Model, s.Settings.Refined())
	if err != nil {
		return err
	}
	r.GainNumericalError = m.GridConvergenceIndex(r.Gain, fine)
	spread, err := w.Spread(&m, s.Settings, func(m *diffusion.Model, n diffusion.Settings) (float64, error) {
		const least = 1e-12 // nothing, but above zero
		x, err := gain(m, n)
		return max(x, least), err
	})
	r.GainLow, r.GainHigh = spread.Low, spread.High
	return err
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
