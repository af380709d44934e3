package diffusion

import "math"

// Span gives the mean content at places on the path [m], rising to its end, of the two strands that reach the nozzle with Low and with High of the odds, each the
// likeliest such strand to first order: a band for the content along the path. It is nil where nothing acts on the content, or no such
// strand comes within a tenth of their distance.
func (w *March) Span(d *Design, o *Odds, s Settings, places []float64) ([]Between, error) {
	if o.surrogate == nil {
		return nil, nil
	}
	dry, wet := o.surrogate.Steepest(math.Log(o.Low)), o.surrogate.Steepest(math.Log(o.High))
	if dry == nil || wet == nil {
		return nil, nil
	}
	low, err := w.meansAt(d, dry, s, places)
	if err != nil {
		return nil, err
	}
	high, err := w.meansAt(d, wet, s, places)
	if err != nil {
		return nil, err
	}
	near := 0.1 * (o.High - o.Low)
	if n := len(places) - 1; n < 0 || math.Abs(low[n]-o.Low) > near || math.Abs(high[n]-o.High) > near {
		return nil, nil
	}
	out := make([]Between, len(places))
	for i := range places {
		out[i] = Between{low[i], high[i]}
	}
	return out, nil
}

// meansAt is the mean content at places of the path of the design at deviates of its unknowns.
func (w *March) meansAt(d *Design, deviates []float64, s Settings, places []float64) ([]float64, error) {
	drawn, open, err := d.drawn(d.Unknowns(), deviates)
	if err != nil {
		return nil, err
	}
	means, err := w.meansOf(&drawn, s, places)
	openBores, hasBores := drawn.withOpenBores()
	if err != nil || !hasBores {
		return means, err
	}
	most, err := w.meansOf(&openBores, s, places)
	if err != nil {
		return nil, err
	}
	for i := range means {
		means[i] = math.Exp(betweenMouths(logarithm(means[i], d.Limit), logarithm(most[i], d.Limit), open))
	}
	return means, nil
}

// meansOf is the mean content at rising places of the path, straight between those of a trace.
func (w *March) meansOf(m *Model, s Settings, places []float64) ([]float64, error) {
	t, err := w.Trace(m, s)
	if err != nil {
		return nil, err
	}
	out, i := make([]float64, len(places)), 0
	for k, at := range places {
		for i+1 < len(t.Points) && t.Points[i+1].Position < at {
			i++
		}
		a := &t.Points[i]
		b := &t.Points[min(i+1, len(t.Points)-1)]
		out[k] = b.Mean
		if b.Position > a.Position {
			share := math.Min(math.Max((at-a.Position)/(b.Position-a.Position), 0), 1)
			out[k] = a.Mean + share*(b.Mean-a.Mean)
		}
	}
	return out, nil
}
