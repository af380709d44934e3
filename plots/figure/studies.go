package figure

import (
	"slices"
	"strconv"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/keeps"
	"strandry/scenarios/needed"
	"strandry/scenarios/size"
	"strandry/scenarios/suits"
)

// SuitsOf makes the figure of one view of a study, in the order of its rows.
func SuitsOf(study *suits.Study, rows []suits.Row, f Frame) Suits {
	out := Suits{Frame: f, Longest: study.Longest, Given: study.Length, Zone: study.Zone}
	for i := range rows {
		r := &rows[i]
		if r.Class == suits.Unanswered {
			continue
		}
		one := Suit{Material: r.Material.Title(), Temperature: r.Heated, Verdict: r.Verdict, Bears: r.Material.GivesWay().Min}
		one.Sure = r.LikelyWithin(study.Longest)
		likely := 0.0
		if r.Likely.Outcome == size.Met {
			likely = r.Likely.Value
		}
		switch {
		case r.Survives == diffusion.Softens:
		case r.Class == suits.AsItIs || r.Needed.None():
			one.Any, one.Likely = true, likely
		case r.Needed.Outcome == size.Met:
			one.Length, one.Likely = r.Needed.Value, likely
		}
		out.Rows = append(out.Rows, one)
	}
	return out
}

// KeepsOf makes the figure of a study, in the order of its rows.
func KeepsOf(study *keeps.Study, f Frame) Keeps {
	out := Keeps{Frame: f, Air: celsius(study.Air.Temperature) + " and " + digits(100*study.Air.Humidity(), 2) + nbsp + "% humidity"}
	for i := range study.Rows {
		r := &study.Rows[i]
		one := Keep{Material: r.Material.Title(), Survives: r.Survives}
		if r.Survives != diffusion.Softens {
			one.Time, one.Likely = r.Hours.Seconds, r.Likely.Seconds
		}
		out.Rows = append(out.Rows, one)
	}
	return out
}

// NeededOf makes the figure of a table of lengths for a scenario.
func NeededOf(s *scenarios.Scenario, t *needed.Table, f Frame) Needed {
	m := &s.Model
	if slices.Contains(m.Held(), t.Zone) {
		f.Settings += nbsp + "· relative humidity held"
	}
	if t.Unanswered > 0 {
		f.Settings += nbsp + "· " + strconv.Itoa(t.Unanswered) + " places without an answer"
	}
	return Needed{
		Frame: f, Material: m.Material.Name, Zone: t.Zone, Temperatures: t.Temperatures, Speeds: t.Speeds, Lengths: t.Lengths,
		HeatLimit: m.Material.HottestDrying(), GivesWay: m.Material.GivesWay(), Longest: s.Build.Longest, Limit: m.Limit,
	}
}

// FrameOf is the frame of a scenario.
func FrameOf(s *scenarios.Scenario, version string) Frame {
	return Frame{Scenario: s.Title, Version: version, Settings: SettingsText(s.Settings)}
}

// MapOf makes the map of designs over the length of a zone [m] and the speed of the feed [m/s].
func MapOf(s *scenarios.Scenario, zone int, lengths, speeds []float64, designs [][]needed.Design, f Frame) Map {
	z := &s.Model.Path[zone]
	out := Map{Frame: f, Limit: s.Model.Limit, Here: &Mark{X: z.Length, Y: 1000 * s.Model.Speed}}
	out.X = Axis{Name: keyName(scenarios.Key{Name: "zone." + z.Name + ".length", Zone: z.Name}), Unit: "m", Values: lengths, Log: evenly(lengths)}
	out.Y = Axis{Name: keyName(scenarios.Key{Name: "feed.speed"}), Unit: "mm/s", Log: evenly(speeds)}
	for j, v := range speeds {
		out.Y.Values = append(out.Y.Values, 1000*v)
		var content []float64
		var excess []diffusion.Excess
		for _, d := range designs[j] {
			content, excess = append(content, d.Mean), append(excess, d.Excess)
		}
		out.Content, out.Excess = append(out.Content, content), append(out.Excess, excess)
	}
	return out
}
