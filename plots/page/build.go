package page

import (
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/plots/table"
	"strandry/scenarios/studies/buildlog"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
	"strandry/scenarios/validation/measured"
)

// atLeast and atMost keep three significant digits of a number that was found, on its safe side.
func atLeast(x float64) float64 { return quantity.Outward(x, 3, true) }
func atMost(x float64) float64  { return quantity.Outward(x, 3, false) }

// suits is the section of materials.
func (l *Log) suits() []block {
	answer := l.Survey.Suits
	if answer == nil {
		return []block{text("This could not be found out: " + l.Survey.SuitsReason + ".")}
	}
	t := &table.Suits{Title: l.Scenario.Title, Answer: answer, Version: l.Answer.Version, File: l.Scenario.File}
	blocks := []block{text(t.Conclusion())}
	for _, why := range append(t.Failures(), contradictions(answer)...) {
		blocks = append(blocks, text(why))
	}
	return append(blocks,
		text(fmt.Sprintf("Each material runs through this path at %s, a heated zone at its own usual highest drying temperature, no hotter than it bears. %s "+
			"Odds: how many times in a hundred the limit is met on the path as it is; eight times in ten: where the moisture at the nozzle lies. "+
			"Length needed: of %s (now %s) to just meet the limit at the medians of what is in doubt; nine times in ten: to meet it so often. "+
			"At rest: the time that a loose strand would need in still air of the same state, the same way. Floor: what that air leaves in it for ever, at the medians.",
			table.Speed(answer.Speed), table.AirRule(answer.Held), answer.Zone, table.Length(answer.Length))),
		head("In equilibrium with the room"), block{Grid: suited(t, answer.Soaked)},
		head("Dry, then "+table.Duration(answer.RoomTime)+" in the room"), block{Grid: suited(t, answer.Opened)},
		text("Length needed is the shortest that meets the limit. ≤: the strand needs none and bears no more. No length but a word: any length will do; none that was looked at does; air: the air itself is too moist; flow: it is too little for the water of the strand; rewets: a later zone wets the strand again; softens: it does not bear the heat. A time at rest that is none is longer than thirty years."),
	)
}

// contradictions name what was measured outside of the data of the materials.
func contradictions(answer *suits.Answer) []string {
	var all []materials.Polymer
	for i := range answer.Soaked {
		all = append(all, answer.Soaked[i].Material)
	}
	found, err := measured.Contradicting(all)
	if err != nil {
		return []string{err.Error()}
	}
	return table.Contradictions(found)
}

func suited(t *table.Suits, rows []suits.Row) *grid {
	g := &grid{Heads: t.Heads()}
	for _, group := range t.Groups() {
		head := []line{{Group: group.Head}}
		for i := range rows {
			if rows[i].Class == group.Class {
				g.Rows, head = append(g.Rows, head...), nil
				g.add(t.Cells(&rows[i])...)
			}
		}
	}
	return g
}

func (l *Log) build() []block {
	m, v := l.Answer.Design, l.Survey
	zone := m.Path[v.Zone].Name
	blocks := []block{text(l.sized())}
	for _, part := range []struct {
		head  string
		sized buildlog.Sized
	}{
		{"Length of " + zone, v.Length}, {"Temperature of " + zone, v.Heat}, {"Feed", v.Feed},
	} {
		blocks = append(blocks, head(part.head))
		if part.sized.Answer == nil {
			blocks = append(blocks, text("Not sized: "+part.sized.Reason))
			continue
		}
		s := table.Size{Title: l.Scenario.Title, File: l.Scenario.File, Version: l.Answer.Version, Answer: part.sized.Answer}
		blocks = append(blocks, text(s.Conclusion()), block{Facts: s.Lines()})
	}
	blocks = append(blocks, head("Air and film of each zone"), block{Grid: l.films()})
	return append(blocks, head("Not designed yet"),
		text("What is given here is the path of the strand and the state of its air. Before anything is built, these are still to be worked out:"),
		block{List: l.undesigned()})
}

// sized says what to build, from the length that just meets the limit.
func (l *Log) sized() string {
	a, m := l.Survey.Length.Answer, l.Answer.Design
	if a == nil {
		return "No length could be sized."
	}
	zone, longest := m.Path[l.Survey.Zone].Name, l.Scenario.LongestOf(l.Survey.Zone)
	long := func(x float64) string {
		if x == a.DryTo || x == a.Reliable.To {
			x = atMost(x)
		} else {
			x = atLeast(x)
		}
		return fmt.Sprintf("%s of %s (%s at %s)", table.Length(x), zone, table.Duration(x/m.Speed), table.Speed(m.Speed))
	}
	if e := a.Check.Endurance; e.Survival == diffusion.Softens {
		return fmt.Sprintf("Build nothing of this yet: with %s of %s, which would just meet the limit or come nearest, the strand softens, %s. Cool it first, then seek the length again.", table.Length(a.Value), m.Path[l.Survey.Zone].Name, where(e))
	}
	switch {
	case a.Outcome == size.Everywhere:
		return fmt.Sprintf("At the medians any length of %s meets the limit: it is not what the strand needs to be dry. %s", zone, l.reliably(long))
	case a.Outcome == size.Nowhere:
		return fmt.Sprintf("Length alone will not do: at the medians no length of %s brings the strand within its limit on this path. The sections below tell what else was tried.", zone)
	}
	text := fmt.Sprintf("At the medians of what is in doubt it takes at least %s to meet the limit, as likely as not. ", long(a.Value))
	switch {
	case a.Value == a.DryTo:
		text = fmt.Sprintf("Build no more than %s: beyond, the strand is wetter than its limit at the medians of what is in doubt. ", long(a.Value))
	case a.Value > longest:
		text += fmt.Sprintf("That is more than the %s that is to be built: change something else first. ", table.Length(longest))
	}
	return text + l.reliably(long)
}

// reliably says what to build to be dry nine times in ten.
func (l *Log) reliably(long func(x float64) string) string {
	a, longest := l.Survey.Length.Answer, l.Scenario.LongestOf(l.Survey.Zone)
	n := &a.Reliable
	switch {
	case n.Outcome == size.Nowhere:
		return fmt.Sprintf("No length that was looked at is dry nine times in ten; %s is %s.", table.Length(n.Value), table.Chance(n.Probability))
	case n.Outcome == size.Everywhere:
		return "Nine times in ten every length that was looked at does."
	case n.Survives == diffusion.Softens:
		return "What would be dry nine times in ten softens."
	case n.From <= a.From || a.Value == a.DryTo:
		return fmt.Sprintf("To be dry nine times in ten, build no more than %s.", long(n.To))
	case n.From > longest:
		return fmt.Sprintf("To be dry nine times in ten it takes %s, more than is to be built.", long(n.From))
	}
	return fmt.Sprintf("To be dry nine times in ten, build at least %s.", long(n.From))
}

// films lists air and film of each zone.
func (l *Log) films() *grid {
	m := l.Answer.Design
	g := &grid{Heads: []string{"Zone", "Length and time", "Air", "Moisture of the air", "Flow", "Film", "Heat, W/(m² K)", "Vapour, m/s"}, Words: true}
	for i, z := range l.Answer.Assessment.Zones {
		in := &m.Path[i]
		g.add(z.Name, table.Length(z.Length)+", "+table.Duration(z.Residence), table.Celsius(z.AirTemperature), l.moisture(in), l.flow(in),
			z.Film.Correlation, coefficient(z.Film.Heat, z.Film.Uncertainty), coefficient(z.Film.Mass, z.Film.MassUncertainty))
	}
	return g
}

func coefficient(value, uncertainty float64) string {
	text := table.Significant(value, 3)
	if uncertainty > 0 {
		text += " ± " + table.Significant(100*uncertainty, 2) + " %"
	}
	return text
}

// keeping is the section of dry storage.
func (l *Log) keeping() []block {
	answer := l.Survey.Keeps
	if answer == nil {
		return []block{text("This could not be found out: " + l.Survey.KeepsReason + ".")}
	}
	k := table.Keeps{Title: l.Scenario.Title, File: l.Scenario.File, Version: l.Answer.Version, Answer: answer}
	blocks := []block{text("How long a dry loose strand of this material stays within its limit in the air of the room, and what a store with a door that is opened does to it. A wound spool keeps longer."), {Facts: k.Lines()}}
	if assumed := slices.Concat(l.Scenario.Store.Assumed, l.Scenario.Opening.Assumed); len(assumed) > 0 {
		blocks = append(blocks, text("Not given and assumed:"), block{List: assumed})
	}
	return blocks
}
