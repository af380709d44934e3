package figure

import (
	"fmt"
	"slices"
	"strconv"

	"strandry/diffusion"
	"strandry/plots/words"
	"strandry/scenarios"
	"strandry/scenarios/studies/required"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

// SuitsOf makes the figure of one view of a study, in the order of its rows.
func SuitsOf(study *suits.Study, rows []suits.Row, f Frame) Suits {
	f.Setup.Strand, f.Setup.Start, f.Setup.Length, f.Setup.Heat = "", "", "", ""
	out := Suits{Frame: f, Longest: study.Longest, Given: study.Length, Zone: study.Zone}
	for i := range rows {
		r := &rows[i]
		if r.Class == suits.Unanswered {
			continue
		}
		one := Suit{Material: r.Material.Title(), Temperature: r.Heated, Verdict: r.Verdict, Bears: r.Material.GivesWay().Min}
		one.Sure = r.ReliableWithin(study.Longest)
		reliable := 0.0
		if r.Reliable.Outcome == size.Met {
			reliable = r.Reliable.Value
		}
		switch {
		case r.Survives == diffusion.Softens:
		case r.Class == suits.AsItIs || r.Needed.None():
			one.Any, one.Reliable = true, reliable
		case r.Needed.Outcome == size.Met:
			one.Length, one.Reliable = r.Needed.Value, reliable
		}
		out.Rows = append(out.Rows, one)
	}
	return out
}

// RequiredOf makes the figure of a table of lengths for a scenario; where no length is enough at any temperature and speed, that of the least moisture that
// any length leaves.
func RequiredOf(s *scenarios.Scenario, t *required.Table, f Frame) Figure {
	m := &s.Design
	f.Setup.Feed, f.Setup.Length, f.Setup.Heat = "", "", ""
	if t.Unanswered > 0 {
		f.Notes = append(slices.Clone(f.Notes), strconv.Itoa(t.Unanswered)+" places without an answer")
	}
	if floor, ok := floorOf(s, t, f); ok {
		return floor
	}
	n := Required{Frame: f, Table: *t, Material: m.Material.Name, HeatLimit: m.Material.HottestDrying(), GivesWay: m.Material.GivesWay(), Longest: s.Build.Longest, Limit: m.Limit}
	if t.Own < 0 {
		n.NineInTen, n.OneInTen = nil, nil
	}
	return n
}

// floorOf is the least moisture that any length leaves, over the temperature of the zone's air, at the scenario's own feed; ok tells that no length is
// enough anywhere, and that it is known at two temperatures or more.
func floorOf(s *scenarios.Scenario, t *required.Table, f Frame) (floor Line, ok bool) {
	for _, row := range t.Lengths {
		for _, length := range row {
			if length > 0 {
				return floor, false
			}
		}
	}
	way := heatOf(s.Model.Material.GivesWay())
	l := Line{Frame: f, Limit: s.Limit, Of: "least moisture that any length leaves", X: Axis{Name: "air temperature of " + t.Zone, Unit: "°C", Heat: way}}
	l.Setup.Feed = words.Speed(s.Model.Speed)
	spread := true
	for i, residual := range t.Residual {
		if residual.Mean <= 0 {
			continue
		}
		celsius := t.Temperatures[i] - words.ZeroCelsius
		l.X.Values, l.Content = append(l.X.Values, celsius), append(l.Content, residual.Mean)
		l.Low, l.High = append(l.Low, residual.Low), append(l.High, residual.High)
		l.Excess = append(l.Excess, diffusion.Excess{Yield: celsius - way.Yields, Bear: celsius - way.Bears})
		spread = spread && residual.Low > 0
	}
	if !spread {
		l.Low, l.High = nil, nil
	}
	if len(l.Content) < 2 {
		return floor, false
	}
	best, found := 0, false
	for i, x := range l.Excess {
		if x.Survival() == diffusion.Holds && (!found || l.Content[i] < l.Content[best]) {
			best, found = i, true
		}
	}
	l.Says = fmt.Sprintf("No length of %s brings %s within its limit of %s: at %s, up to where it holds, the least left is %s",
		t.Zone, s.Model.Material.Name, words.Percent(l.Limit), l.X.say(l.X.Values[best]), l.keeps(best))
	return l, true
}

// FrameOf is the frame of a scenario.
func FrameOf(s *scenarios.Scenario, version string) Frame {
	return Frame{Version: version, Setup: setupOf(s)}
}

// PathOf makes the figure of a strand on its path, with the band that its odds give: two more marches.
func PathOf(w *diffusion.March, m *diffusion.Design, t *diffusion.Trace, o *diffusion.Odds, n diffusion.Settings, f Frame) (Path, error) {
	places := make([]float64, len(t.Points))
	for i, p := range t.Points {
		places[i] = p.Position
	}
	span, err := w.Span(m, o, n, places)
	return Path{Frame: f, Design: m, Trace: t, Odds: o, Span: span}, err
}
