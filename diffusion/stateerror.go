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

// setErrors fills in what another march, with refined or coarsened settings, tells of the first one.
func (a *Assessment) setErrors(b band, other *Result) {
	a.Errors = b.state(a.Nozzle, other.Nozzle)
	a.Errors.Profile = max(b.profile(&a.Result, other), a.Errors.Centre, a.Errors.Skin)
	a.NumericalError = a.Errors.Mean
	a.ZoneErrors = nil
	for i := range a.Zones {
		a.ZoneErrors = append(a.ZoneErrors, b.state(a.Zones[i].Exit, other.Zones[i].Exit))
	}
}

// widen adds to the errors what two marches with fewer angles tell, the second with the fewest: twice what they differ by.
func (a *Assessment) widen(more, fewer *Result) {
	wider := func(e StateError, one, other State) StateError {
		e.Mean += angular * math.Abs(one.Mean-other.Mean)
		e.Centre += angular * math.Abs(one.Centre-other.Centre)
		e.Skin += angular * math.Abs(one.Skin-other.Skin)
		return e
	}
	before := a.Errors
	a.Errors = wider(before, more.Nozzle, fewer.Nozzle)
	a.Errors.Profile += max(a.Errors.Centre-before.Centre, a.Errors.Skin-before.Skin)
	a.NumericalError = a.Errors.Mean
	for i := range a.ZoneErrors {
		a.ZoneErrors[i] = wider(a.ZoneErrors[i], more.Zones[i].Exit, fewer.Zones[i].Exit)
	}
}

// band makes the errors of a model from a result and a refined one, or a coarsened one.
type band struct {
	least float64 // relative to the content
	index float64 // of the difference
}

// bandOf is that by a march with [Settings.Refined].
func bandOf(m *Model, s Settings) band {
	return band{m.LeastError(s), m.GridConvergenceIndex(1, 0)}
}

// bandBelow is that by a march with settings that are coarsened. Two coarse marches may agree by chance where a refined one would not: the least error is three times as large.
func bandBelow(m *Model, s Settings) band {
	const chance = 3
	return band{chance * m.LeastError(s), m.coarserIndex()}
}

// skinError is the least error of the skin, relative to the largest content: one node holds it, and two marches may agree there by chance while the content tells them
// apart. Without it three of 800 random models were off by more than they said there, by 5e-5 to 4.8e-4.
const skinError = 2.5e-4

// about is the half-width about a content that is a part of a state with a largest content.
func (b band) about(content, other, largest float64) float64 {
	return b.index*math.Abs(content-other) + b.least*largest
}

func (b band) state(s, refined State) StateError {
	mean := max(s.Mean, refined.Mean)
	largest := max(mean, s.Centre, s.Skin)
	return StateError{
		Mean:   b.about(s.Mean, refined.Mean, mean) + s.below.mean,
		Centre: b.about(s.Centre, refined.Centre, largest) + s.below.centre,
		Skin:   band{max(b.least, skinError), b.index}.about(s.Skin, refined.Skin, largest) + s.below.skin,
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
