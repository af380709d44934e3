package table

import "strandry/scenarios/validation/prove"

// json has each value in its own unit; what is not a number is null.
func (p *Proof) json() any {
	return object{
		{"version", p.Version},
		{"checks", len(p.Results)},
		{"passed", p.Passed()},
		{"families", each(p.Families(), func(f *ProofFamily) object {
			return object{{"name", f.Name}, {"checks", f.Checks}, {"passed", f.Passed}, {"worst_of_tolerance", orNull(f.Worst.Share())}} // null where something was not computed
		})},
		{"orders", each(p.Orders, func(o *prove.Order) object {
			return object{{"problem", o.Name}, {"in", refined(*o)}, {"nodes_or_steps", o.Count}, {"error", o.Error}, {"measured", o.Measured}, {"stated", o.Stated}}
		})},
		{"results", each(p.Results, proofOf)},
	}
}

func proofOf(r *prove.Result) object {
	failed := ""
	if r.Err != nil {
		failed = r.Err.Error()
	}
	return object{
		{"family", r.Family},
		{"case", r.Name},
		{"quantity", r.Quantity},
		{"unit", r.Unit},
		{"expected", orNull(r.Expected)},
		{"got", orNull(r.Got)}, // null where nothing was computed
		{"difference", orNull(r.Difference)},
		{"allowed", orNull(r.Within)},
		{"passed", r.Passed()},
		{"kind", r.Kind.String()},
		{"source", r.Source},
		{"reason_of_tolerance", r.Tolerance.Reason},
		filled("error", failed),
	}
}
