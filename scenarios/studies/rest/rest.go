package rest

import (
	"errors"
	"math"

	"strandry/diffusion"
	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// State is a strand at rest and the air around it.
type State struct {
	diffusion.Design               // its material, radius, start, storage, limit; the path is not used
	Air              diffusion.Air // without limit
	Film             diffusion.Film
}

// Time is when the mean content passes the limit.
type Time struct {
	Already        bool    // it has, as the rest begins
	Never          bool    // it does not: the air itself keeps it on its side
	Seconds        float64 // [s]; zero for Already and Never
	NumericalError float64 // half-width of the band that holds the true time [s]
	Result         diffusion.Result
}

// longest and shortest time that is looked at [s].
const longest, shortest = 9e8, 1e-6 // up to thirty years

// Equilibrium is the content that the strand comes to in the air [kg/kg dry].
func (s *State) Equilibrium() float64 {
	a := s.Air.VapourPressure / humidair.SaturationPressure(s.Air.Temperature)
	return s.Model.Material.Sorption.Content(a, s.Air.Temperature)
}

// After runs the strand for a time [s], above zero.
func (s *State) After(w *diffusion.March, seconds float64, n diffusion.Settings, r *diffusion.Result) error {
	m, err := s.model(seconds)
	if err != nil {
		return err
	}
	return w.Run(&m.Model, n, r)
}

// model is the strand with the rest as the only zone of its path.
func (s *State) model(seconds float64) (*diffusion.Design, error) {
	m := s.Design
	m.Path = []diffusion.Zone{{Name: "rest", Duration: seconds, Air: s.Air, Film: s.Film}}
	return &m, m.Check()
}

// Dries finds when the mean content falls to the limit, at the medians of what is in doubt.
func (s *State) Dries(w *diffusion.March, n diffusion.Settings) (Time, error) {
	return s.passes(w, n, -1)
}

// Wets finds when the mean content rises to the limit, at the medians of what is in doubt.
func (s *State) Wets(w *diffusion.March, n diffusion.Settings) (Time, error) {
	return s.passes(w, n, 1)
}

// passes finds when the content, above the limit by the given sign, is at the limit.
func (s *State) passes(w *diffusion.March, n diffusion.Settings, sign float64) (Time, error) {
	var t Time
	beyond := func(mean float64) float64 { return sign * (mean/s.Limit - 1) }
	b, err := s.bracket(w, n, beyond)
	switch {
	case err != nil:
		return t, err
	case b == nil:
		return Time{Never: true}, nil
	case b.A == b.B:
		return Time{Already: true}, nil
	}
	u, err := root.Find(func(u float64) (float64, error) {
		err := s.After(w, math.Exp(u), n, &t.Result)
		return beyond(t.Result.Nozzle.Mean), err
	}, *b, root.Tolerance{Value: 1e-7, Width: 1e-8})
	if err != nil {
		return Time{}, err
	}
	t.Seconds = math.Exp(u)
	return t, s.band(w, &t, n)
}

// bracket goes through the times until the limit is passed between two of them, on a logarithmic scale;
// of no width where it is from the start, nil where it is not in thirty years.
func (s *State) bracket(w *diffusion.March, n diffusion.Settings, beyond func(mean float64) float64) (*root.Bracket, error) {
	m, err := s.model(longest)
	if err != nil {
		return nil, err
	}
	if len(m.Storage) == 0 && beyond(m.Start) < 0 && beyond(s.Equilibrium()) <= 0 {
		return nil, nil // a strand that begins uniform comes no nearer
	}
	const times, step, long, start = 100, 0.25, 1, 1 // steps, the long ones while hardly anything can have happened [s]
	durations := make([]float64, 0, times)
	for t := shortest; t < start; t *= math.Exp(long) {
		durations = append(durations, t)
	}
	for t := float64(start); t < longest; t *= math.Exp(step) {
		durations = append(durations, t)
	}
	errPassed := errors.New("passed")
	seen := make([]place, 0, len(durations)+1)
	err = w.RunLengths(&m.Model, 0, durations, n, func(i int, r *diffusion.Result) error {
		if i == 0 {
			seen = append(seen, place{math.Log(shortest) - long, beyond(r.Start.Mean)})
		}
		seen = append(seen, place{math.Log(durations[i]), beyond(r.Nozzle.Mean)})
		if seen[0].beyond >= 0 || seen[i+1].beyond >= 0 {
			return errPassed
		}
		return nil
	})
	switch last := len(seen) - 1; {
	case err == nil:
		return s.dip(w, n, beyond, seen)
	case !errors.Is(err, errPassed):
		return nil, err
	case seen[0].beyond >= 0:
		return &root.Bracket{A: seen[0].u, B: seen[0].u}, nil
	default:
		a, b := seen[last-1], seen[last]
		return &root.Bracket{A: a.u, B: b.u, AtA: a.beyond, AtB: b.beyond}, nil
	}
}

// place is a time, as its logarithm, and how far beyond the limit the content is then.
type place struct{ u, beyond float64 }

// dip looks between the times for a short stay beyond the limit.
func (s *State) dip(w *diffusion.March, n diffusion.Settings, beyond func(mean float64) float64, seen []place) (*root.Bracket, error) {
	best := 0
	for i, p := range seen {
		if p.beyond > seen[best].beyond {
			best = i
		}
	}
	if best == 0 || best == len(seen)-1 {
		return nil, nil
	}
	a, m, b := seen[best-1], seen[best], seen[best+1]
	var r diffusion.Result
	u, height, err := root.Least(func(u float64) (float64, error) {
		err := s.After(w, math.Exp(u), n, &r)
		return -beyond(r.Nozzle.Mean), err
	}, root.Valley{A: a.u, M: m.u, B: b.u, AtA: -a.beyond, AtM: -m.beyond, AtB: -b.beyond}, root.Tolerance{Width: 1e-3})
	if err != nil || height > 0 {
		return nil, err
	}
	return &root.Bracket{A: a.u, B: u, AtA: a.beyond, AtB: -height}, nil
}

// band sets the numerical error: what a refined march finds at that time, over the slope.
func (s *State) band(w *diffusion.March, t *Time, n diffusion.Settings) error {
	var later, fine diffusion.Result
	if err := s.After(w, t.Seconds, n, &t.Result); err != nil {
		return err
	}
	if err := s.After(w, 1.05*t.Seconds, n, &later); err != nil {
		return err
	}
	if err := s.After(w, t.Seconds, n.Refined(), &fine); err != nil {
		return err
	}
	m, err := s.model(t.Seconds)
	if err != nil {
		return err
	}
	mean := t.Result.Nozzle.Mean
	off := m.GridConvergenceIndex(mean, fine.Nozzle.Mean) + m.LeastError(n)*mean + math.Abs(mean-s.Limit)
	rise := math.Abs(later.Nozzle.Mean - t.Result.Nozzle.Mean)
	if rise > 0 {
		t.NumericalError = math.Min(off/rise*0.05*t.Seconds, t.Seconds)
	} else {
		t.NumericalError = t.Seconds
	}
	return nil
}
