package rest

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// State is a strand at rest and the air around it.
type State struct {
	Model diffusion.Model // its material, radius, start, limit; path, storage and speed are not used
	Air   diffusion.Air   // without limit
	Film  diffusion.Film
}

// Time is when the mean content passes the limit.
type Time struct {
	Never          bool    // it does not: the air itself keeps it on its side; or it is past it from the start
	Seconds        float64 // [s]
	NumericalError float64 // half-width of the band that holds the true time [s]
	Result         diffusion.Result
}

// speed at which a strand at rest is taken to run [m/s]: it turns times into lengths that
// [diffusion.Model.Check] takes, up to thirty years.
const speed = 1e-3

// longest and shortest time that is looked at [s].
const longest, shortest = 9e8, 1e-6

// Equilibrium is the content that the strand comes to in the air [kg/kg dry].
func (s *State) Equilibrium() float64 {
	a := s.Air.VapourPressure / humidair.SaturationPressure(s.Air.Temperature)
	return s.Model.Material.Sorption.Content(a, s.Air.Temperature)
}

// After runs the strand for a time [s], above zero, at a multiple of the diffusivity.
func (s *State) After(w *diffusion.March, seconds, factor float64, n diffusion.Settings, r *diffusion.Result) error {
	m := s.Model
	m.Speed, m.Storage = speed, nil
	m.DiffusivityFactor *= factor
	m.Path = []diffusion.Zone{{Name: "rest", Length: seconds * speed, Air: s.Air, Film: s.Film, Exposed: 1}}
	if err := m.Check(); err != nil {
		return err
	}
	return w.Run(&m, n, r)
}

// Passes finds the time at a multiple of the diffusivity.
func (s *State) Passes(w *diffusion.March, factor float64, n diffusion.Settings) (Time, error) {
	limit, start, end := s.Model.Limit, s.Model.Start, s.Equilibrium()
	if (start-limit)*(end-limit) >= 0 {
		return Time{Never: true}, nil
	}
	var t Time
	height := func(u float64) (float64, error) {
		err := s.After(w, math.Exp(u), factor, n, &t.Result)
		return (t.Result.Nozzle.Mean - limit) / (end - start), err // from below zero to above it
	}
	b, err := s.bracket(height, factor)
	if err != nil || b == nil {
		return Time{Never: true}, err
	}
	u, err := root.Find(height, *b, root.Tolerance{Value: 1e-7, Width: 1e-8})
	if err != nil {
		return Time{}, err
	}
	t.Seconds = math.Exp(u)
	return t, s.band(w, &t, factor, n)
}

// bracket doubles or halves a first guess until the limit lies between; nil where it is not
// passed in thirty years.
func (s *State) bracket(height root.Func, factor float64) (*root.Bracket, error) {
	m := &s.Model
	share := (m.Limit - m.Start) / (s.Equilibrium() - m.Start)
	// The first term of the short-time series: share = 4 √(Fo/π).
	pace := factor * m.DiffusivityFactor * m.Material.Diffusivity.Dry(s.Air.Temperature) / (m.Radius * m.Radius)
	guess := math.Pi / 16 * share * share / pace
	u := math.Log(math.Min(math.Max(guess, 1e3*shortest), longest/4))
	step := math.Ln2
	at, err := height(u)
	if at > 0 {
		step = -step
	}
	for err == nil && u+step > math.Log(shortest) && u+step < math.Log(longest) {
		var next float64
		next, err = height(u + step)
		if (next > 0) != (at > 0) {
			return &root.Bracket{A: u, B: u + step, AtA: at, AtB: next}, err
		}
		u, at, step = u+step, next, 1.5*step
	}
	return nil, err
}

// band sets the numerical error: what a refined march finds at that time, over the slope.
func (s *State) band(w *diffusion.March, t *Time, factor float64, n diffusion.Settings) error {
	var later, fine diffusion.Result
	if err := s.After(w, t.Seconds, factor, n, &t.Result); err != nil {
		return err
	}
	if err := s.After(w, 1.05*t.Seconds, factor, n, &later); err != nil {
		return err
	}
	if err := s.After(w, t.Seconds, factor, n.Refined(), &fine); err != nil {
		return err
	}
	off := diffusion.Margin(t.Result.Nozzle.Mean, fine.Nozzle.Mean) + math.Abs(t.Result.Nozzle.Mean-s.Model.Limit)
	rise := math.Abs(later.Nozzle.Mean - t.Result.Nozzle.Mean)
	if rise > 0 {
		t.NumericalError = math.Min(off/rise*0.05*t.Seconds, t.Seconds)
	} else {
		t.NumericalError = t.Seconds
	}
	return nil
}
