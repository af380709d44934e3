package table

import (
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// json has contents in kg/kg dry.
func (s *Suits) json() any {
	t := s.Answer
	return object{
		{"version", s.Version},
		{"title", s.Title},
		{"file", s.File},
		{"zone", t.Zone},                 // whose length is sought
		{"length", t.Length},             // that it has
		{"longest_buildable", t.Longest}, // [build] longest
		{"speed", t.Speed},
		{"lain", t.RoomTime},                  // time in the room of the second view
		{"soaked", each(t.Soaked, s.jsonRow)}, // in equilibrium with the room
		{"opened", each(t.Opened, s.jsonRow)}, // dry, then in the room
		{"held_humidity", t.Held},             // zones whose relative humidity is held
		{"conclusion", s.Conclusion()},
		{"contradicting_evidence", Contradictions(s.Contradicting)},
		{"assumptions", s.Assumed},
	}
}

func (s *Suits) jsonRow(r *suits.Row) object {
	obstacle, survives := "", ""
	if r.Class == suits.Forbidden {
		obstacle = r.Obstacle.String()
	}
	if r.Class != suits.Unanswered {
		survives = r.Survives.String()
	}
	needed, reliable := object{{"none_needed", r.Needed.None()}}, object{} // met up to the length
	if r.Needed.Outcome == size.Met {
		needed = append(needed, member{"length", r.Needed.Value}, member{"numerical_error", r.Needed.NumericalError}, member{"dwell", r.Needed.Value / s.Answer.Speed})
	}
	if r.Reliable.Outcome == size.Met {
		reliable = object{{"length", r.Reliable.Value}, {"dwell", r.Reliable.Value / s.Answer.Speed}}
	}
	return object{
		{"material", r.Material.ID},
		{"origin", r.Material.Origin},               // library, or the file that its values come from
		{"class", r.Class.String()},                 // at the medians: within its limit as it is, buildable, too long, no answer, no length will do
		{"as_drawn", r.Kind().String()},             // needs no drying, dry as drawn, unsure as drawn, wet as drawn, softens, no answer
		{"dry_if_built", r.Built(s.Answer.Longest)}, // not dry as drawn, but nine times in ten at another length that can be built
		{"fast_is_wetter", r.Odds.FastIsWetter},     // the greater the diffusivity, the wetter at the nozzle
		filled("obstacle", obstacle),
		filled("failed", r.Failed), // why there is no answer; all figures are zero then
		{"temperature", r.Heated},
		{"limit", r.Limit},
		{"start", r.Start},
		{"mean", r.Mean},
		{"numerical_error", r.NumericalError},
		{"", oddsOf(&r.Odds)},
		{"verdict", r.Verdict.String()},
		filled("survives", survives), // holds, doubtful, softens
		{"length", object{ // at the medians
			{"outcome", r.Needed.Outcome.String()}, // met, everywhere, nowhere
			{"", needed},
		}},
		{"length_nine_in_ten", object{ // from which on the limit is met so often
			{"outcome", r.Reliable.Outcome.String()},
			{"", reliable},
			filled("probability", r.Reliable.Probability), // there, or the most that was found; absent where no length meets the limit at the medians
		}},
		{"rest", restOf(r.Rest)},
		{"rest_nine_in_ten", reliableTimeOf(r.RestReliable, "from the beginning", "not in 30 years")},
		{"floor", r.Floor},
	}
}

// reliableTimeOf is the time from which on, or until which, the limit is met nine times in ten. It names the outcomes: met, or with words for from the beginning and
// for not in the thirty years that are looked at.
func reliableTimeOf(t rest.ReliableTime, already, never string) object {
	outcome, time := "met", member{"time", t.Seconds}
	switch {
	case t.Already:
		outcome, time = already, member{}
	case t.Never:
		outcome, time = never, member{}
	}
	return object{{"outcome", outcome}, time, filled("probability", t.Probability)} // then, or the most that was found, or after thirty years
}

// restOf is a time at the medians; absent where the limit is never passed, or is as the rest begins.
func restOf(t rest.Time) object {
	out := object{{"already", t.Already}, {"never", t.Never}}
	if t.Never || t.Already {
		return out
	}
	return append(out, member{"time", t.Seconds}, member{"numerical_error", t.NumericalError})
}
