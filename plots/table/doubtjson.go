package table

import (
	"math"

	"strandry/diffusion/sensitivity"
	"strandry/scenarios/studies/doubt"
)

// json has contents in kg/kg dry, shares and widths as fractions.
func (d *Doubt) json() any {
	t, a, m := d.Answer, d.Answer.Assessment, d.Answer.Design
	return object{
		{"version", d.Version},
		{"title", d.Title},
		{"file", d.File},
		{"material", m.Material.ID},
		{"origin", m.Material.Origin}, // of the material: library, or the file that its values come from
		{"verdict", a.Verdict.String()},
		{"survives", a.Endurance.Survival.String()},
		{"probability", a.Probability},
		{"mean", a.Nozzle.Mean},
		{"low", a.Low},   // 10 % point of the mean
		{"high", a.High}, // 90 % point
		{"", limitsOf(m)},
		{"limit_low", t.Limit.Low}, // between these nine times in ten
		{"limit_high", t.Limit.High},
		{"ratio_low", math.Exp(t.Spread.Low)}, // 10 % point of the content over the limit
		{"ratio_high", math.Exp(t.Spread.High)},
		{"variance", t.Variance}, // of the logarithm of that
		{"unknowns", each(t.Rows, func(r *doubt.Row) object { // the greatest total share first
			return object{
				{"name", r.Unknown},
				{"first_order", indexOf(r.First)},
				{"total", indexOf(r.Total)},
				{"width_left_if_known", r.Left}, // share of the width of the logarithm of the content over the limit
			}
		})},
		{"share_by_acting_together", t.Together},
		{"measure", each(t.Order, func(s *doubt.Step) object { // in this order
			return object{{"name", s.Unknown}, {"width_left", s.Left}, {"how", measuring(s.Unknown, m)}}
		})},
		{"surrogate_error", t.Fit}, // relative to the content
		{"conclusion", d.Conclusion()},
		{"notes", d.notes()},
	}
}

func indexOf(x sensitivity.Index) object {
	return object{
		{"value", x.Value},
		{"low", x.Low}, // between these nine times in ten
		{"high", x.High},
		{"estimate", x.Estimate}, // before it was brought to where an index can lie
	}
}
