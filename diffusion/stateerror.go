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

// errors fills in what a march with refined settings tells of the first one. unseen is the share of a content that
// is added, see [Model.Unseen].
func (a *Assessment) errors(refined *Result, unseen float64) {
	a.Errors = stateError(a.Nozzle, refined.Nozzle, unseen)
	a.Errors.Profile = max(a.profileError(refined, unseen), a.Errors.Centre, a.Errors.Skin)
	a.NumericalError = a.Errors.Mean
	a.ZoneErrors = nil
	for i := range a.Zones {
		a.ZoneErrors = append(a.ZoneErrors, stateError(a.Zones[i].Exit, refined.Zones[i].Exit, unseen))
	}
}

func stateError(s, refined State, unseen float64) StateError {
	mean := max(s.Mean, refined.Mean)
	largest := max(mean, s.Centre, s.Skin)
	return StateError{
		Mean:   Margin(s.Mean, refined.Mean) + unseen*mean + s.below.mean,
		Centre: Margin(s.Centre, refined.Centre) + unseen*largest + s.below.centre,
		Skin:   Margin(s.Skin, refined.Skin) + unseen*largest + s.below.skin,
	}
}

// profileError is the largest along the nodes, the refined profile between its own by a cubic that does not overshoot.
func (a *Assessment) profileError(refined *Result, unseen float64) float64 {
	var curve interp.FritschButland
	if err := curve.Fit(refined.Radius, refined.Profile); err != nil { // the nodes rise: it cannot
		return math.Inf(1)
	}
	worst := 0.0
	for i, r := range a.Radius {
		y := curve.Predict(r)
		worst = max(worst, Margin(a.Profile[i], y)+unseen*max(a.Profile[i], y))
	}
	return worst + a.below
}
