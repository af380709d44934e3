package table

import (
	"strandry/diffusion"
	"strandry/diffusion/advice"
)

// setOf is a set of changes made together.
func setOf(m *diffusion.Design, s *advice.Set) object {
	var changes []object
	for _, c := range s.Changes {
		for _, p := range c.Parts {
			zone := "" // none for the feed
			if p.Zone >= 0 {
				zone = m.Path[p.Zone].Name
			}
			changes = append(changes, object{{"change", c.Kind.String()}, filled("zone", zone), {"key", p.Key}, {"from", p.Was}, {"to", p.Is}})
		}
	}
	return object{
		{"changes", changes},           // each a key of the scenario with another value, as its file has it
		{"probability", s.Probability}, // of a mean within the limit
		{"mean", s.Mean},
		{"verdict", s.Verdict.String()},
		{"survives", s.Endurance.Survival.String()},
	}
}

// nearestOf is the set that comes nearest, and what would have to give; none where a set would do.
func nearestOf(m *diffusion.Design, v *advice.Advice) []object {
	if v.Nearest == nil {
		return nil
	}
	return []object{{
		{"", setOf(m, v.Nearest)},
		filled("air_floor", v.Floor), // content that its driest air allows, above the limit
		filled("air_floor_zone", v.FloorZone),
		filled("length_needed", v.Length), // of the drying zone, about
		filled("length_zone", v.LengthZone),
	}}
}
