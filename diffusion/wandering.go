package diffusion

import (
	"math"
	"slices"

	"strandry/diffusion/surrogate"
)

// wander lets the covers of a model wander round the strand, which takes a march along the radius instead of one of the section, a tenth of the time or less. The model's path
// and storage must be its own.
func (m *Model) wander() {
	for _, zones := range [...][]Zone{m.Path, m.Storage} {
		for i := range zones {
			if c := &zones[i].Contact; c.Fixed() {
				c.Moves = true
			}
		}
	}
}

// wandering is an ensemble of the same draws of a design in which covers wander; its diffusivity is such that it gives at the medians what the
// section does, so that it changes with the unknowns much as the section. It is false where the medians have no answer, or no cover keeps its place.
func (e *ensemble) wandering() (*ensemble, bool) {
	if e.measure != nil || e.wanders || !e.design.covered() || math.IsNaN(e.middle) {
		return nil, false
	}
	out, alike := *e, *e.design
	out.wanders, out.result, out.failed, out.similarBalances = true, Result{}, nil, e.medianBalances
	alike.Path, alike.Storage = slices.Clone(alike.Path), slices.Clone(alike.Storage)
	alike.wander()
	out.design = &alike
	if !out.calibrate(e.middle) {
		return nil, false
	}
	out.begin()
	return &out, !out.unanswered
}

// calibrate scales the diffusivity of the ensemble's design, which is its own, so that its medians give the logarithm of a content; as near as it comes where the diffusivity does not decide.
// False where they have no answer.
func (e *ensemble) calibrate(log float64) bool {
	const near, tries = 0.02, 5
	low, high := math.Log(0.1), math.Log(2.)
	scaled := e.design.Material.Diffusivity.ReferenceValue
	at := func(u float64) float64 {
		k := math.Exp(u)
		v := &e.design.Material.Diffusivity.ReferenceValue
		v.Value, v.Low, v.High = k*scaled.Value, k*scaled.Low, k*scaled.High
		if e.marches.runFrom(e.similarBalances, &e.design.Model, e.settings.Bounded(), &e.result) != nil {
			return math.NaN()
		}
		return e.log(e.result.Nozzle.Mean) - log
	}
	u, off := 0.0, at(0)
	best, least := u, math.Abs(off)
	next := min(max(off, -1./2), 1./2) // the less diffusivity, the wetter, as a rule
	for try := 0; try < tries && least > near; try++ {
		after := at(next)
		if math.IsNaN(after) {
			break
		}
		if math.Abs(after) < least {
			best, least = next, math.Abs(after)
		}
		step := -after * (next - u) / (after - off)
		u, off = next, after
		if next = min(max(u+step, low), high); math.IsNaN(next) || next == u {
			break
		}
	}
	at(best)
	return !math.IsNaN(least)
}

// learnt is the surrogate of the content while covers wander; nil where there is none.
func (e *ensemble) learnt() *surrogate.Surrogate {
	alike, ok := e.wandering()
	if !ok {
		return nil
	}
	f, _, err := alike.emulate(0, batches, alike.each)
	if err != nil {
		return nil
	}
	return f
}
