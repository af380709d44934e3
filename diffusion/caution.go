package diffusion

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"strandry/diffusion/surrogate"
	"strandry/materials"
)

// Caution is the most likely of the cases in which all that is in doubt conspires so far against a strand that only one time in ten it is
// worse: the design point of the first-order reliability method at a deviate of 1.28 (Hasofer & Lind, J. Eng. Mech. Div. 100 (1974) 111, from memory).
// Where a strand meets its limit there, it does so about nine times in ten, so that one march stands for the odds.
type Caution struct {
	Deviates []float64 // standard normal, of the unknowns of the same [Odds], in their order
	Limit    float64   // as strict as it may be [kg/kg dry]
}

// cautionAt finds the case from the logarithms of the content at the centre and on the axes of [surrogate.Points], and the limit with its doubt.
func cautionAt(values []float64, limit materials.Value) Caution {
	c := Caution{Deviates: make([]float64, (len(values)-1)/2), Limit: limit.Value}
	strict := math.Log(limit.Value / limit.LogNormal(-1))
	sum := strict * strict
	for i := range c.Deviates {
		c.Deviates[i] = (values[1+2*i] - values[2+2*i]) / (2 * surrogate.Step)
		sum += c.Deviates[i] * c.Deviates[i]
	}
	if sum == 0 {
		return c
	}
	far := surrogate.Step / math.Sqrt(sum)
	for i := range c.Deviates {
		c.Deviates[i] *= far
	}
	c.Limit = limit.LogNormal(-strict * far)
	return c
}

// Cautious gives, for each of some models, the logarithm of its content at the nozzle over the limit in the cautious case of odds, which may be those of a design
// that differs from it: NaN where it cannot be marched, zero or less where it is dry nine times in ten or so. The marches are as coarse as those
// of [March.Odds], on several cores; which core marches changes nothing.
func (w *March) Cautious(models []*Model, o *Odds, s Settings) []float64 {
	out := make([]float64, len(models))
	var next atomic.Int64
	work := func(w *March) {
		for i := int(next.Add(1)) - 1; i < len(models); i = int(next.Add(1)) - 1 {
			out[i] = w.cautious(models[i], o, s)
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

func (w *March) cautious(m *Model, o *Odds, s Settings) float64 {
	e, err := w.ensemble(m, drawSettings(s))
	if err != nil {
		return math.NaN()
	}
	deviates := make([]float64, len(e.unknowns))
	for i, u := range e.unknowns {
		if k := slices.Index(o.Unknowns, u.Name); k >= 0 {
			deviates[i] = o.Cautious.Deviates[k]
		}
	}
	log, err := e.tried(deviates)
	if err != nil {
		return math.NaN()
	}
	return log - math.Log(o.Cautious.Limit)
}
