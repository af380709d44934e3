package diffusion

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// StateError is the numerical error of a [State], each the half-width of the band that holds the exact solution of
// the model [kg/kg dry].
type StateError struct {
	Mean, Centre, Skin float64
	Profile            float64 // the largest along the radius; at the nozzle only
}

// setErrors fills in what a march with refined settings tells of the first one.
func (a *Assessment) setErrors(m *Model, refined *Result) {
	b := bandOf(m, a.Settings)
	a.Errors = b.state(a.Nozzle, refined.Nozzle)
	a.Errors.Profile = max(b.profile(&a.Result, refined), a.Errors.Centre, a.Errors.Skin)
	a.NumericalError = a.Errors.Mean
	a.ZoneErrors = nil
	for i := range a.Zones {
		a.ZoneErrors = append(a.ZoneErrors, b.state(a.Zones[i].Exit, refined.Zones[i].Exit))
	}
}

// band makes the errors of a model from a result and a refined one.
type band struct {
	model *Model
	least float64
}

func bandOf(m *Model, s Settings) band { return band{m, m.LeastError(s)} }

// about is the half-width about a content that is a part of a state with a largest content.
func (b band) about(coarse, refined, largest float64) float64 {
	return b.model.GridConvergenceIndex(coarse, refined) + b.least*largest
}

func (b band) state(s, refined State) StateError {
	mean := max(s.Mean, refined.Mean)
	largest := max(mean, s.Centre, s.Skin)
	return StateError{
		Mean:   b.about(s.Mean, refined.Mean, mean) + s.below.mean,
		Centre: b.about(s.Centre, refined.Centre, largest) + s.below.centre,
		Skin:   b.about(s.Skin, refined.Skin, largest) + s.below.skin,
	}
}

// profile is the largest along the nodes, the refined profile between its own by a cubic that does not overshoot.
func (b band) profile(r, refined *Result) float64 {
	var curve interp.FritschButland
	if err := curve.Fit(refined.Radius, refined.Profile); err != nil { // the nodes rise: it cannot
		return math.Inf(1)
	}
	worst := 0.0
	for i, radius := range r.Radius {
		y := curve.Predict(radius)
		worst = max(worst, b.about(r.Profile[i], y, max(r.Profile[i], y)))
	}
	return worst + r.below
}
