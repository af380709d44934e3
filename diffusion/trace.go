package diffusion

import "strandry/materials/humidair"

// Trace is the strand along its path, place by place, storage left out.
type Trace struct {
	Radius []float64 // of the profiles [m], rising to the surface
	Points []Point   // in order; a zone's first point is its entry
	// Sections are the whole section in zones whose cover keeps its place, three for each: near the first twentieth
	// of the time in it, near a third, and at the exit. Empty where no zone has such a cover.
	Sections []Section
	Result   Result

	zone     int
	entered  float64 // time at the entry of the zone, since the start of the path [s]
	position float64 // of the entry [m]
	kept     int     // points before the present zone's marched ones
	whole    int     // sections before the present zone's
}

// Point is the strand at one place of its path.
type Point struct {
	Zone     int     // index in the path
	Position float64 // from the start of the path [m]; it stays in a zone with a duration
	Time     float64 // since the start of the path [s]
	State
	AirTemperature float64   // [K]
	VapourPressure float64   // of the air there [Pa]
	Activity       float64   // water activity of that air at the strand's surface temperature
	Profile        []float64 // moisture content at Radius [kg/kg dry]
}

// traced is the least number of points in a zone.
const traced = 80

// Trace runs the model and keeps the strand at every step. It bounds the steps, so that
// the result may differ from that of Run within the numerical error.
func (w *March) Trace(m *Model, s Settings) (*Trace, error) {
	s, err := w.checked(m, s)
	if err != nil {
		return nil, err
	}
	g, err := w.grid(m, s)
	if err != nil {
		return nil, err
	}
	l, t := &w.main, &Trace{Points: make([]Point, 0, traced*len(m.Path))}
	l.similarBalances = nil // those that odds have left
	if err := l.begin(m, s, g, &t.Result); err != nil {
		return nil, err
	}
	l.trace, t.zone = t, -1
	l.cylinder.Along = l.fourier
	defer func() { l.trace, l.cylinder.Along = nil, nil }()
	if err := l.along(0, len(m.Path), s, &t.Result); err != nil {
		return nil, err
	}
	if err := t.Result.finish(l); err != nil {
		return nil, err
	}
	t.Radius = t.Result.Radius
	return t, nil
}

// mark begins a zone.
func (t *Trace) mark(l *strand) {
	if t == nil {
		return
	}
	if t.zone >= 0 {
		before := &l.model.Path[t.zone]
		t.position += before.Length
		t.entered += before.Residence(l.model.Speed)
	}
	t.zone++
	t.add(l, 0, l.cylinder.C)
	t.kept, t.whole = len(t.Points), len(t.Sections)
}

// rewind drops what a march that has to be made again has left.
func (t *Trace) rewind() {
	if t != nil {
		t.Points, t.Sections = t.Points[:t.kept], t.Sections[:t.whole]
	}
}

func (t *Trace) add(l *strand, time float64, c []float64) {
	a := &l.around
	surface := a.thermal.surface(time, l.cylinder.Beside)
	vapour, _ := a.supply.vapour(l.cylinder.Lost)
	t.Points = append(t.Points, Point{
		Zone: t.zone, Position: t.position + min(time*l.model.Speed, l.model.Path[t.zone].Length), Time: t.entered + time,
		State:          l.stateOf(c, a.thermal.meanAt(time, l.cylinder.Beside)),
		AirTemperature: a.thermal.air, VapourPressure: vapour,
		Activity: vapour / humidair.SaturationPressure(surface),
		Profile:  profile(nil, c),
	})
}
