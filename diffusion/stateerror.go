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

// setErrors fills in what a march with refined settings tells of the first one. least is the share of a content that
// is added, see [Model.LeastError].
func (a *Assessment) setErrors(refined *Result, least float64) {
	a.Errors = stateError(a.Nozzle, refined.Nozzle, least)
	a.Errors.Profile = max(a.profileError(refined, least), a.Errors.Centre, a.Errors.Skin)
	a.NumericalError = a.Errors.Mean
	a.ZoneErrors = nil
	for i := range a.Zones {
		a.ZoneErrors = append(a.ZoneErrors, stateError(a.Zones[i].Exit, refined.Zones[i].Exit, least))
	}
}

func stateError(s, refined State, least float64) StateError {
	mean := max(s.Mean, refined.Mean)
	largest := max(mean, s.Centre, s.Skin)
	return StateError{
		Mean:   GridConvergenceIndex(s.Mean, refined.Mean) + least*mean + s.below.mean,
		Centre: GridConvergenceIndex(s.Centre, refined.Centre) + least*largest + s.below.centre,
		Skin:   GridConvergenceIndex(s.Skin, refined.Skin) + least*largest + s.below.skin,
	}
}

// profileError is the largest along the nodes, the refined profile between its own by a cubic that does not overshoot.
func (a *Assessment) profileError(refined *Result, least float64) float64 {
	var curve interp.FritschButland
	if err := curve.Fit(refined.Radius, refined.Profile); err != nil { // the nodes rise: it cannot
		return math.Inf(1)
	}
	worst := 0.0
	for i, r := range a.Radius {
		y := curve.Predict(r)
		worst = max(worst, GridConvergenceIndex(a.Profile[i], y)+least*max(a.Profile[i], y))
	}
	return worst + a.below
}
