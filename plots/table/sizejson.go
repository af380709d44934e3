package table

import "strandry/scenarios/studies/size"

// json has values of the key in its SI unit (unit; 1 for a plain number or a fraction), contents in kg/kg dry.
func (s *Size) json() any {
	a, r, l := s.Answer, s.Answer.Check, &s.Answer.Reliable
	return object{
		{"version", s.Version},
		{"title", s.Title},
		{"file", s.File},
		{"material", a.Design.Material.ID},
		{"origin", a.Design.Material.Origin}, // of the material: library, or the file that its values come from
		{"key", a.Key.Name},
		{"outcome", a.Outcome.String()}, // met, everywhere, nowhere
		{"value", a.Value},              // that meets the limit at the medians, else the driest
		{"written", a.Setting.Value},    // the value as a file states it
		{"numerical_error", a.NumericalError},
		{"limit_met_from", a.DryFrom},
		{"limit_met_to", a.DryTo},
		{"searched_from", a.From},
		{"searched_to", a.To},
		{"nine_in_ten", object{
			{"outcome", l.Outcome.String()}, // met, everywhere, nowhere
			{"value", l.Value},              // next to that at the medians; else the likeliest
			{"met_from", l.From},
			{"met_to", l.To},
			{"probability", l.Probability}, // of meeting the limit at the value
			{"survives", l.Survives.String()},
		}},
		{"limit", a.Design.Limit},
		{"", limitWordsOf(a.Design, &r.Odds)},
		{"check", moistureOf(a.Design, r)}, // the run at the value
		{"verdict", r.Verdict.String()},
		{"survives", r.Endurance.Survival.String()}, // at the value: holds, doubtful, softens
		{"heat", enduranceOf(r.Endurance)},
		{"cause", a.Diagnosis.Cause.String()}, // what stands in the way: nothing, air, flow, rewetting, time
		{"air_floor", a.Diagnosis.Floor},
		{"conclusion", s.Conclusion()},
		{"marches", a.Marches},
		{"points", each(a.Points, func(p *size.Point) object { // that were tried, rising
			return object{{"value", p.X}, {"content_over_limit", p.Ratio}, {"survives", p.Survives.String()}}
		})},
		{"notes", s.notes()},
	}
}
