package diffusion

import "math"

// Passage is a draw of all that is in doubt about a design: the mean content with which the strand sets off and with which it arrives [kg/kg dry].
type Passage struct{ Start, End float64 }

// Passages are 2,048 draws of a design, each with both contents of the same strand. They rest on the marches of [March.Odds]: the 10 and 90 % points of
// their ends are Low and High of those, but for the order of a sum. What the strand has after a storage is learnt from some fifty marches more.
func (w *March) Passages(d *Design, s Settings) ([]Passage, error) {
	e, fit, err := w.learned(d, s)
	if err != nil {
		return nil, err
	}
	points := w.drawsFor(fit.surrogate, len(e.unknowns))
	starts, err := w.starts(d, s, e.unknowns, points)
	if err != nil {
		return nil, err
	}
	out := make([]Passage, len(points))
	for i, log := range fit.sample {
		out[i] = Passage{Start: starts[i], End: math.Exp(log)}
	}
	return out, nil
}

// starts are the contents with which a design sets off at some deviates of its unknowns.
func (w *March) starts(d *Design, s Settings, unknowns []Unknown, points [][]float64) ([]float64, error) {
	out := make([]float64, len(points))
	if len(d.Storage) == 0 {
		var memory drawing
		for i, z := range points {
			m, _, err := memory.of(&d.Model, unknowns, z)
			if err != nil {
				return nil, err
			}
			out[i] = m.Start
		}
		return out, nil
	}
	coarse := drawSettings(s)
	e, err := w.ensemble(d, coarse)
	if err != nil {
		return nil, err
	}
	var r Result
	e.measure = func(m *Model) (float64, error) {
		first := *m
		first.Path = m.Path[:1]
		err := w.Run(&first, coarse, &r)
		return max(r.Start.Mean, leastTold*d.Limit), err
	}
	fit, err := e.fit(e.each)
	if err != nil {
		return nil, err
	}
	for i, log := range w.at(fit.surrogate, points) {
		out[i] = math.Exp(log)
	}
	return out, nil
}
