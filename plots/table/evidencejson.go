package table

import "strandry/scenarios/validation/measured"

func (e *Evidence) json() any {
	all := e.Evidence
	return object{
		{"version", e.Version},
		{"independent", tallyOf(all.Independent)},
		{"anchors", tallyOf(all.Anchors)},
		{"without_measured_figure", all.Unmeasured},
		{"with_anchors_alone", all.AnchoredOnly},
		{"without_independent_figure_of_diffusivity", all.DiffusivityUntested},
		{"figures", each(all.Comparisons, figureOf)},
		{"not_set_against_a_prediction", each(all.Unusable, func(a *measured.Unusable) object {
			return object{{"materials", a.Materials}, {"what", a.What}, {"why", a.Why}, {"source", a.Source}}
		})},
	}
}

func tallyOf(t measured.Tally) object {
	return object{{"figures", t.All()}, {"inside", t.Inside}, {"partly", t.Partly}, {"outside", t.Outside}}
}

func figureOf(c *measured.Comparison) object {
	return object{
		{"material", c.Material},
		{"quantity", c.Quantity.String()},
		{"unit", c.Quantity.Unit()},
		{"temperature_K", c.At.Temperature},
		{"to_temperature_K", unlessZero(c.At.To)}, // null where there is none, as below
		{"relative_humidity", unlessZero(c.At.Humidity)},
		{"thickness_m", unlessZero(c.At.Thickness)},
		{"time_s", unlessZero(c.At.Time)},
		{"measured_low", c.Low},
		{"measured_high", c.High},
		{"predicted", c.Predicted.Value},
		{"predicted_low", c.Predicted.Low},
		{"predicted_high", c.Predicted.High},
		{"measured_over_predicted", c.Off()},
		{"verdict", c.Verdict.String()},
		{"independent", c.Independent()},
		{"extrapolated", c.Predicted.Extrapolated},
		{"kind", c.Kind.String()},
		{"read_in", c.Read},
		{"source", c.Source},
		filled("reckoned", c.Reckoned),
		filled("anchor", c.Anchor),
		filled("remark", c.Remark),
	}
}

// unlessZero is nil for a condition that a quantity does not have.
func unlessZero(x float64) any {
	if x == 0 {
		return nil
	}
	return x
}
