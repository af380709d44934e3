package diffusion

import (
	"slices"
	"sync"

	"strandry/diffusion/surrogate"
)

// estimated is the drift by an estimator: the logarithm of the content that it gives at deviates of the unknowns.
func (e *ensemble) estimated(by *estimator) surrogate.Drift {
	if by == nil {
		return nil
	}
	law := e.estimating(by)
	memory := sync.Pool{New: func() any { return new(drawing) }}
	return func(deviates []float64) float64 {
		drawing := memory.Get().(*drawing)
		defer memory.Put(drawing)
		return law.at(drawing, deviates)
	}
}

// estimating is a model at the medians with an estimator of what it gives at deviates of its unknowns.
type estimating struct {
	by       *estimator
	model    Model
	unknowns []Unknown
	hasBores bool
	ensemble *ensemble
}

func (e *ensemble) estimating(by *estimator) *estimating {
	medians := e.design.Model
	medians.Path, medians.Storage = slices.Clone(medians.Path), slices.Clone(medians.Storage)
	_, hasBores := medians.withOpenBores()
	return &estimating{by: by, model: medians, unknowns: e.unknowns, hasBores: hasBores, ensemble: e}
}

// at is the logarithm of the content, with memory for the model.
func (l *estimating) at(own *drawing, deviates []float64) float64 {
	m, open, err := own.of(&l.model, l.unknowns, deviates)
	if err != nil {
		return l.ensemble.log(l.model.Start)
	}
	log := l.ensemble.log(l.by.content(m))
	if !l.hasBores {
		return log
	}
	openBores, _ := m.withOpenBores()
	return betweenMouths(log, l.ensemble.log(l.by.content(&openBores)), open)
}
