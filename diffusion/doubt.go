package diffusion

import (
	"math"

	"strandry/diffusion/surrogate"
	"strandry/materials"
)

// Doubt is the logarithm of the content at the nozzle over the limit, as a function of all that is not known for sure.
type Doubt struct {
	Unknowns []string        // the limit is the last, where there is doubt about it
	Limit    materials.Value // [kg/kg dry]; certain where its ends are alike
	Fit      float64         // error of the surrogate, as in [Odds]

	surrogate *surrogate.Surrogate
	marched   int // unknowns of the surrogate
}

// Doubt makes the function from some fifty marches, those of [March.Odds].
func (w *March) Doubt(m *Model, s Settings) (*Doubt, error) {
	e, err := w.ensemble(m, drawSettings(s))
	if err != nil {
		return nil, err
	}
	fit, err := e.fit(e.each)
	if err != nil {
		return nil, err
	}
	d := &Doubt{Limit: m.limit(), Fit: fit.surrogate.Error, surrogate: fit.surrogate, marched: len(e.unknowns)}
	for _, u := range e.unknowns {
		d.Unknowns = append(d.Unknowns, u.Name)
	}
	if d.Limit.Low < d.Limit.High {
		d.Unknowns = append(d.Unknowns, UnknownLimit)
	}
	return d, nil
}

// At is the function at standard normal deviates of the unknowns.
func (d *Doubt) At(deviates []float64) float64 {
	limit := d.Limit.Value
	if len(deviates) > d.marched {
		limit = d.Limit.LogNormal(deviates[d.marched])
	}
	return d.surrogate.At(deviates[:d.marched]) - math.Log(limit)
}
