package diffusion

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Spread gives the 10 and 90 % points of a measure of the model, above zero, when all that is in doubt about the model is drawn. The measure is
// asked of some seventy drawn models, with the settings of all draws.
func (w *March) Spread(m *Model, s Settings, measure func(m *Model, s Settings) (float64, error)) (Between, error) {
	coarse := drawSettings(s)
	e, err := w.ensemble(m, coarse)
	if err != nil {
		return Between{}, err
	}
	e.measure = func(m *Model) (float64, error) { return measure(m, coarse) }
	fit, err := e.fit(e.each)
	if err != nil {
		return Between{}, err
	}
	sample := make([]float64, len(fit.sample))
	for i, log := range fit.sample {
		sample[i] = math.Exp(log)
	}
	slices.Sort(sample)
	return Between{stat.Quantile(Unlikely, stat.Empirical, sample, nil), stat.Quantile(Likely, stat.Empirical, sample, nil)}, nil
}
