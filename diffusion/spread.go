package diffusion

// Spread gives the 10 and 90 % points of a measure of the model, above zero, when all that is in doubt about the design is drawn. The measure is
// asked of some fifty drawn models, with the settings of all draws.
func (w *March) Spread(d *Design, s Settings, measure func(m *Model, s Settings) (float64, error)) (Between, error) {
	coarse := drawSettings(s)
	e, err := w.ensemble(d, coarse)
	if err != nil {
		return Between{}, err
	}
	e.measure = func(m *Model) (float64, error) { return measure(m, coarse) }
	fit, err := e.fit(e.each)
	if err != nil {
		return Between{}, err
	}
	return deciles(fit.sample), nil
}
