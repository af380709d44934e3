package diffusion

import (
	"fmt"
	"math"

	"strandry/diffusion/surrogate"
	"strandry/materials"
)

// Doubt is the logarithm of the content at the nozzle over the limit, as a function of all that is not known for sure.
type Doubt struct {
	Unknowns []string        // the limit is the last, where there is doubt about it
	Limit    materials.Value // [kg/kg dry]; certain where its ends are alike
	Fit      float64         // error of the surrogate: root mean square over fresh draws, relative to the content; no less than that of [Odds]

	surrogate *surrogate.Surrogate
	marched   int // unknowns of the surrogate
}

// Doubt makes the function from the marches of [March.Odds], and tries it at some thirty more: what leaving out tells of the error is too little where there are
// hardly more values than coefficients.
func (w *March) Doubt(d *Design, s Settings) (*Doubt, error) {
	e, fit, err := w.learned(d, s)
	if err != nil {
		return nil, err
	}
	f, err := fit.surrogate.Copy(e.marches.draws(len(e.unknowns))[:copied])
	if err != nil {
		return nil, fmt.Errorf("the doubt: %w", err)
	}
	out := &Doubt{Limit: d.LimitInDoubt(), surrogate: f, marched: len(e.unknowns)}
	out.Fit = max(fit.surrogate.Error, e.off(f))
	for _, u := range e.unknowns {
		out.Unknowns = append(out.Unknowns, u.Name)
	}
	if out.Limit.Low < out.Limit.High {
		out.Unknowns = append(out.Unknowns, UnknownLimit)
	}
	return out, nil
}

// copied are the draws at which the surrogate of the odds is asked for a copy of it that is quicker: the studies of a doubt ask it some hundred thousand times.
const copied = 64

// off is by how much a surrogate differs from marches at fresh draws: the root mean square.
func (e *ensemble) off(s *surrogate.Surrogate) float64 {
	const tries, seed = 32, 555
	sum, known := 0.0, 0.0
	for _, z := range surrogate.Draws(tries, len(e.unknowns), seed) {
		if log := e.march(z); !math.IsNaN(log) {
			sum += (s.At(z) - log) * (s.At(z) - log)
			known++
		}
	}
	return math.Sqrt(sum / max(1, known))
}

// At is the function at standard normal deviates of the unknowns.
func (d *Doubt) At(deviates []float64) float64 {
	limit := d.Limit.Value
	if len(deviates) > d.marched {
		limit = d.Limit.LogNormal(deviates[d.marched])
	}
	return d.surrogate.At(deviates[:d.marched]) - math.Log(limit)
}
