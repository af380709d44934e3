package buildlog

import (
	"slices"

	"strandry/diffusion"
	"strandry/scenarios"
)

// Film is what the uncertainty of the film coefficients does to the answer.
type Film struct {
	Heat, Mass float64 // largest uncertainty of the coefficients of a zone, relative [-]; zero where they are given
	Low, High  float64 // mean content with all of them at either end [kg/kg dry]
}

// films runs the design with all its film coefficients at their lower and at their upper ends.
func films(w *diffusion.March, s *scenarios.Scenario, a *diffusion.Assessment) (Film, error) {
	f := Film{Low: a.Nozzle.Mean, High: a.Nozzle.Mean}
	var r diffusion.Result
	for _, sign := range [...]float64{-1, 1} {
		m := s.Model
		m.Path = slices.Clone(m.Path)
		for i, z := range a.Zones {
			heat, mass := z.Film.Uncertainty, z.Film.MassUncertainty
			f.Heat, f.Mass = max(f.Heat, heat), max(f.Mass, mass)
			// A coefficient that is given stays so.
			m.Path[i].Film.HeatFactor, m.Path[i].Film.MassFactor = end(sign, heat), end(sign, mass)
		}
		if err := w.Run(&m, a.Settings, &r); err != nil {
			return f, err
		}
		f.Low, f.High = min(f.Low, r.Nozzle.Mean), max(f.High, r.Nozzle.Mean)
	}
	return f, nil
}

// end is the factor 1 + u or its inverse, which stays above zero for any u.
func end(sign, u float64) float64 {
	if sign < 0 {
		return 1 / (1 + u)
	}
	return 1 + u
}
