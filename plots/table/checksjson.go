package table

import "strandry/scenarios/studies/checked"

// checkOf is a length of strand that was weighed at the machine, beside the model.
func checkOf(c *checked.Check) object {
	return object{
		{"title", c.Title},
		filled("zone", c.Zone),     // behind which it left the machine; else at the nozzle
		filled("reason", c.Reason), // why there is no prediction
		{"speed", c.Speed},
		{"resolution", c.Step}, // of the scale
		{"resolution_given", c.Stepped},
		{"comparisons", each(c.Comparisons, comparisonOf)},
		filled("diffusivity_factor", c.Diffusivity.Value), // if all else is as the model has it at its medians; left out where no factor does
		filled("diffusivity_factor_low", c.Diffusivity.Low),
		filled("diffusivity_factor_high", c.Diffusivity.High),
		{"left_at_most", c.Residue.Most}, // by drying out
		{"left_given", c.Residue.Known},
		{"gained", c.Gained},
	}
}

func comparisonOf(c *checked.Comparison) object {
	estimate := func(e checked.Estimate) object {
		return object{{"value", e.Value}, {"low", e.Low}, {"high", e.High}} // 10 and 90 % points
	}
	return object{
		{"of", c.Of.String()}, // start, exit: contents; lost: over the mass before
		{"measured", estimate(c.Measured)},
		{"predicted", estimate(c.Predicted)},
		{"numerical_error", c.Off},
		{"probability", c.Chance}, // of so large a difference or a larger one, if the model is right
		{"outcome", c.Outcome.String()},
	}
}
