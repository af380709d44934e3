package diffusion

import (
	"math"
	"slices"

	"strandry/diffusion/surrogate"
)

// DesignPoint is the design point of the first-order reliability method, its most probable failure point, at a deviate of 1.28: the most likely of the
// cases in which all that is in doubt conspires so far against a strand that only one time in ten it is worse (Hasofer & Lind, J. Eng. Mech. Div. 100 (1974) 111, from
// memory). Where a strand meets its limit there, it does so about nine times in ten, so that one march stands for the odds.
type DesignPoint struct {
	Unknowns []string
	Deviates []float64 // of each, standard normal
	Limit    float64   // as strict as it may be [kg/kg dry]

	medianBalances []airBalance // of air and strand at the medians
}

// DesignPoint finds the design point of a design from its marches at the centre and on the axes of [surrogate.Points], a fifth or so of those of
// [March.Odds], which find the same one. A march without an answer in the steps that are usual is an error.
func (w *March) DesignPoint(d *Design, s Settings) (DesignPoint, error) {
	e, err := w.ensemble(d, boundedSettings(s))
	if err != nil {
		return DesignPoint{}, err
	}
	e.begin()
	values := e.each(surrogate.Points(len(e.unknowns)))
	if slices.ContainsFunc(values, math.IsNaN) {
		return DesignPoint{}, e.failed
	}
	return e.designPoint(values), nil
}

// designPoint is that found from the logarithms of the content at the centre and on the axes.
func (e *ensemble) designPoint(values []float64) DesignPoint {
	limit := e.design.LimitInDoubt()
	p := DesignPoint{Deviates: make([]float64, len(e.unknowns)), Limit: limit.Value, medianBalances: e.medianBalances}
	strict := math.Log(limit.Value / limit.LogNormal(-1))
	sum := strict * strict
	for i, u := range e.unknowns {
		p.Unknowns = append(p.Unknowns, u.Name)
		p.Deviates[i] = (values[1+2*i] - values[2+2*i]) / (2 * surrogate.Step)
		sum += p.Deviates[i] * p.Deviates[i]
	}
	if !(sum > 0) {
		return p
	}
	far := surrogate.Step / math.Sqrt(sum)
	for i := range p.Deviates {
		p.Deviates[i] *= far
	}
	p.Limit = limit.LogNormal(-strict * far)
	return p
}

// AtDesignPoint gives, for each of some designs, the logarithm of its content at the nozzle over the limit with the unknowns and the limit of a design point, which may be
// that of a design that differs from it: NaN where it cannot be marched in the steps that are usual, zero or less where it is dry nine times in ten or so. The marches are as coarse
// as those of [March.Odds], on several cores; which core marches changes nothing.
func (w *March) AtDesignPoint(designs []*Design, p *DesignPoint, s Settings) []float64 {
	return onCores(w.cores(len(designs)), len(designs), func(w *March, i int) float64 { return w.atDesignPoint(designs[i], p, s) })
}

// boundedSettings are those of marches of which there are many, and none is worth waiting for.
func boundedSettings(s Settings) Settings { return drawSettings(s).Bounded() }

// Bounded are the same for marches of which none is worth waiting for: one that takes many more steps than is usual has no answer.
func (s Settings) Bounded() Settings {
	s.boundedSteps = true
	return s
}

func (w *March) atDesignPoint(d *Design, p *DesignPoint, s Settings) float64 {
	e, err := w.ensemble(d, boundedSettings(s))
	if err != nil {
		return math.NaN()
	}
	e.medianBalances = p.medianBalances
	log, err := e.tried(p.deviates(e.unknowns))
	if err != nil {
		return math.NaN()
	}
	return log - math.Log(p.Limit)
}

// deviates of the unknowns of a design; zero for what the case does not know.
func (p *DesignPoint) deviates(unknowns []Unknown) []float64 {
	out := make([]float64, len(unknowns))
	for i, u := range unknowns {
		if k := slices.Index(p.Unknowns, u.Name); k >= 0 {
			out[i] = p.Deviates[k]
		}
	}
	return out
}
