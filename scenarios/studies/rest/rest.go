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

// passes finds when the content comes to the limit, from below or, where sign is negative, from above.
func (s *State) passes(w *diffusion.March, n diffusion.Settings, sign float64) (Time, error) {
	var t Time
	short := func(mean float64) float64 { return sign * (1 - mean/s.Limit) }
	b, err := s.between(w, n, short)
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
		return short(t.Result.Nozzle.Mean), err
	}, *b, root.Tolerance{Value: 1e-7, Width: 1e-8})
	if err != nil {
		return Time{}, err
	}
	t.Seconds = math.Exp(u)
	return t, s.band(w, &t, n)
}

// between is [State.bracket], looked for in few steps first: where the limit is passed between two times then, those are marched again.
func (s *State) between(w *diffusion.March, n diffusion.Settings, short func(mean float64) float64) (*root.Bracket, error) {
	b, err := s.bracket(w, n.Rough(), short)
	if err != nil || b == nil || b.A == b.B || b.A < math.Log(shortest) {
		return s.bracket(w, n, short)
	}
	m, err := s.model(longest)
	if err != nil {
		return nil, err
	}
	at := [...]*float64{&b.AtA, &b.AtB}
	err = w.RunLengths(&m.Model, 0, []float64{math.Exp(b.A), math.Exp(b.B)}, n, func(i int, r *diffusion.Result) error {
		*at[i] = short(r.Nozzle.Mean)
		return nil
	})
	if err != nil || !(b.AtA > 0 && b.AtB <= 0) {
		return s.bracket(w, n, short)
	}
	return b, nil
}

// bracket goes through the times until the limit is passed between two of them, on a logarithmic scale;
// of no width where it is from the start, nil where it is not in thirty years.
func (s *State) bracket(w *diffusion.March, n diffusion.Settings, short func(mean float64) float64) (*root.Bracket, error) {
	m, err := s.model(longest)
	if err != nil {
		return nil, err
	}
	if len(m.Storage) == 0 && short(m.Start) > 0 && short(s.Equilibrium()) >= 0 {
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
	seen := make(root.Walk, 0, len(durations)+1)
	var b root.Bracket
	err = w.RunLengths(&m.Model, 0, durations, n, func(i int, r *diffusion.Result) error {
		if i == 0 {
			seen = append(seen, root.Place{X: math.Log(shortest) - long, Y: short(r.Start.Mean)})
		}
		seen = append(seen, root.Place{X: math.Log(durations[i]), Y: short(r.Nozzle.Mean)})
		var passed bool
		if b, passed = seen.Crossed(); passed || seen[0].Y <= 0 {
			return errPassed
		}
		return nil
	})
	switch {
	case err == nil: // there may be a short stay beyond the limit
		var result diffusion.Result
		_, b, passed, err := seen.Dip(func(u float64) (float64, error) {
			err := s.After(w, math.Exp(u), n, &result)
			return short(result.Nozzle.Mean), err
		}, root.Tolerance{Width: 2e-3})
		if err != nil || !passed {
			return nil, err
		}
		return &b, nil
	case !errors.Is(err, errPassed):
		return nil, err
	case seen[0].Y <= 0:
		return &root.Bracket{A: seen[0].X, B: seen[0].X}, nil
	}
	return &b, nil
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
