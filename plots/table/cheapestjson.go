package table

import (
	"slices"

	"strandry/diffusion/optimum"
	"strandry/scenarios"
	"strandry/scenarios/studies/cheapest"
)

// json has contents in kg/kg dry, costs in the user's currency.
func (c *Cheapest) json() any {
	a, r := c.Answer, c.Answer.Assessment
	d := &a.Scenario.Design
	return object{
		{"version", c.Version},
		{"title", c.Title},
		{"file", c.File},
		{"material", d.Material.ID},
		{"origin", d.Material.Origin}, // of the material: library, or the file that its values come from
		{"currency", c.Scenario.Machine.Currency},
		{"running", c.Scenario.Search.Running}, // that counts in the cost [s]
		{"met", a.Met},                         // a design meets all demands, and the full assessment finds it dry
		{"cost", a.Best.Cost},
		{"parts", a.Machine.Cost.Total},
		{"set", settingsOf(a.Best.Settings)}, // of the free keys, as a file states them
		{"limit", d.Limit},
		{"", limitWordsOf(d, &r.Odds)},
		{"check", moistureOf(d, r)}, // the full assessment of the design
		{"verdict", r.Verdict.String()},
		{"survives", r.Endurance.Survival.String()}, // holds, doubtful, softens
		{"heat", enduranceOf(r.Endurance)},
		{"demands", demandsOf(a)},
		{"binding", wordsOf(a.Binding)}, // but for these a design beside it would be cheaper
		{"at_ends", each(a.AtEnds, func(e *cheapest.End) object { return object{{"key", e.Key}, {"upper", e.Upper}} })},
		{"now", nowOf(a)}, // the design of the file; null where it has no answer
		{"search", object{
			{"seed", c.Scenario.Search.Seed},
			{"budget", c.Scenario.Search.Budget},
			{"looked_at", len(a.Looked) + a.Failed},
			{"without_answer", a.Failed},
			{"starts", a.Starts},
			{"ended", a.Ended},
			{"agreeing", a.Agreeing},
			{"settled", a.Settled},
			{"stopped", a.Stopped}, // by the budget
			{"all", a.All},         // all designs there are were looked at
			{"falls", each(a.Falls, func(f *optimum.Fall) object { return object{{"looked_at", f.Looked}, {"cost", f.Cost}} })},
		}},
		{"random", object{{"count", a.Random.Count}, {"meeting", a.Random.Meeting}, {"", filled("cost", a.Random.Cost)}}},
		{"front", each(a.Front, func(d **cheapest.Design) object { return designOf(*d) })}, // of cost and content, whether dry or not
		{"conclusion", c.Conclusion()},
		{"notes", c.notes()},
	}
}

func settingsOf(set []scenarios.Setting) object {
	var out object
	for _, s := range set {
		out = append(out, member{s.Key, s.Value})
	}
	return out
}

func wordsOf(all []cheapest.Demand) []string {
	out := make([]string, len(all))
	for i, d := range all {
		out[i] = d.String()
	}
	return out
}

// demandsOf tells by how much each demand is not met by the best design, zero or less where it is, and whether any design that was looked at meets it.
func demandsOf(a *cheapest.Answer) []object {
	var out []object
	for i, d := range a.Demands {
		out = append(out, object{{"demand", d.String()}, {"lacks", a.Best.Violations[i]}, {"ever_met", !slices.Contains(a.Never, d)}})
	}
	return out
}

func nowOf(a *cheapest.Answer) any {
	if a.Now == nil {
		return nil
	}
	return designOf(a.Now)
}

func designOf(d *cheapest.Design) object {
	return object{{"set", settingsOf(d.Settings)}, {"cost", d.Cost}, {"mean", d.Mean}, {"low", d.Low}, {"high", d.High}, {"probability", d.Probability}, {"meets", d.Meets()}}
}
