package diffusion

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"strandry/diffusion/surrogate"
)

// Caution is the most likely of the cases in which all that is in doubt conspires so far against a strand that only one time in ten it is
// worse: the design point of the first-order reliability method at a deviate of 1.28 (Hasofer & Lind, J. Eng. Mech. Div. 100 (1974) 111, from memory).
// Where a strand meets its limit there, it does so about nine times in ten, so that one march stands for the odds.
type Caution struct {
	Unknowns []string
	Deviates []float64 // of each, standard normal
	Limit    float64   // as strict as it may be [kg/kg dry]
}

// Caution finds the cautious case of a model from its marches at the centre and on the axes of [surrogate.Points], a fifth or so of those of
// [March.Odds], which find the same one.
func (w *March) Caution(m *Model, s Settings) (Caution, error) {
	e, err := w.ensemble(m, drawSettings(s))
	if err != nil {
		return Caution{}, err
	}
	e.near = e.agreements()
	axes := 1 + 2*len(e.unknowns)
	values := e.each(surrogate.Points(len(e.unknowns))[:axes])
	if math.IsNaN(values[0]) {
		values[0] = e.centre()
	}
	if math.IsNaN(values[0]) {
		return Caution{}, e.failed
	}
	return e.caution(fill(values, e.wet(values))), nil
}

// caution is the case from the logarithms of the content at the centre and on the axes.
func (e *ensemble) caution(values []float64) Caution {
	limit := e.model.limit()
	c := Caution{Deviates: make([]float64, len(e.unknowns)), Limit: limit.Value}
	strict := math.Log(limit.Value / limit.LogNormal(-1))
	sum := strict * strict
	for i, u := range e.unknowns {
		c.Unknowns = append(c.Unknowns, u.Name)
		c.Deviates[i] = (values[1+2*i] - values[2+2*i]) / (2 * surrogate.Step)
		sum += c.Deviates[i] * c.Deviates[i]
	}
	if !(sum > 0) {
		return c
	}
	far := surrogate.Step / math.Sqrt(sum)
	for i := range c.Deviates {
		c.Deviates[i] *= far
	}
	c.Limit = limit.LogNormal(-strict * far)
	return c
}

// Cautious gives, for each of some models, the logarithm of its content at the nozzle over the limit in a cautious case, which may be that of a design
// that differs from it: NaN where it cannot be marched, zero or less where it is dry nine times in ten or so. The marches are as coarse as those
// of [March.Odds], on several cores; which core marches changes nothing. Where air and strand have to agree, the first model is the start of the others.
func (w *March) Cautious(models []*Model, c *Caution, s Settings) []float64 {
	out := make([]float64, len(models))
	if len(models) == 0 {
		return out
	}
	var near []agreement
	out[0], near = w.cautious(models[0], nil, c, s)
	var next atomic.Int64
	work := func(w *March) {
		for i := int(next.Add(1)); i < len(models); i = int(next.Add(1)) {
			out[i], _ = w.cautious(models[i], near, c, s)
		}
	}
	var all sync.WaitGroup
	for _, other := range w.others(min(runtime.GOMAXPROCS(0), mostAtOnce, len(models)) - 1) {
		all.Go(func() { work(other) })
	}
	work(w)
	all.Wait()
	return out
}

func (w *March) cautious(m *Model, near []agreement, c *Caution, s Settings) (ratio float64, found []agreement) {
	e, err := w.ensemble(m, drawSettings(s))
	if err != nil {
		return math.NaN(), nil
	}
	e.near = near
	deviates := make([]float64, len(e.unknowns))
	for i, u := range e.unknowns {
		if k := slices.Index(c.Unknowns, u.Name); k >= 0 {
			deviates[i] = c.Deviates[k]
		}
	}
	log, err := e.tried(deviates)
	if err != nil {
		return math.NaN(), nil
	}
	return log - math.Log(c.Limit), slices.Clone(e.result.agreements)
}
