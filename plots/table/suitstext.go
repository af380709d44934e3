package table

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"strandry/diffusion"
	"strandry/scenarios/studies/suits"
)

// Check refuses figures that are not finite.
func (s *Suits) Check() error { return Finite("the answer", s.Answer) }

// text says which materials the dryer is for as it is drawn, then what could be built, each for both views.
func (s *Suits) text(b *strings.Builder) {
	t := s.Answer
	paragraph(b, "", s.Title)
	paragraph(b, "", fmt.Sprintf("Which materials is this dryer for, at %s? Heated zones at each material's own usual highest drying temperature, no hotter than it bears. %s Moisture is %% of dry weight.",
		Speed(t.Speed), AirRule(t.Held)))
	for _, said := range s.conclusions() {
		apart(b, said)
	}
	pairs := t.Pairs()
	fmt.Fprintf(b, "\nAs drawn: %s %s\n", t.Zone, Length(t.Length))
	s.drawn(b, pairs)
	fmt.Fprintf(b, "\nAs it could be built: the length of %s, up to %s\n", t.Zone, Length(t.Longest))
	s.built(b, pairs)
	b.WriteByte('\n')
	cutLabels(b, labels(pairs), widestLabel)
	s.legend(b)
	for _, why := range append(s.Failures(), Contradictions(s.Contradicting)...) {
		apart(b, why)
	}
	assumed(b, s.Assumed)
	apart(b, "Hot surfaces burn and hot plastic gives off fumes; some of these temperatures need an oven that was made for them. strandry materials NAME gives the cautions of each.")
	b.WriteByte('\n')
	content, length := s.worst()
	paragraph(b, "", fmt.Sprintf("strandry %s, %s; numerical errors of the moistures at the nozzle up to %s of the content, of the lengths up to %s.", s.Version, s.File, content, length))
}

// drawn sets what the path as it is does for each material, both views beside each other.
func (s *Suits) drawn(b *strings.Builder, pairs []suits.Pair) {
	names, name := narrowed(labels(pairs), widestLabel)
	columns := []column{{"material", "", -name}, {"at", "°C", 3}, {"limit", "%", 5}}
	for range 2 {
		columns = append(columns, column{"start", "%", 5}, column{"8 in 10", "%", -12}, column{"in 100", "", -10})
	}
	fmt.Fprintf(b, "%s soaked%sopened %s ago\n", strings.Repeat(" ", name+len(" 100 0.000")), strings.Repeat(" ", utf8.RuneCountInString("0.000 0.001–0.003+ unsure? 88 ")-len("soaked")), Duration(s.Answer.RoomTime))
	heads(b, columns)
	kind := suits.Kind(-1)
	for i, p := range pairs {
		if k := p.Soaked.Kind(); k != kind {
			kind = k
			heading, _, _ := kindWords(kind)
			fmt.Fprintf(b, "— soaked: %s\n", heading)
		}
		cells := []string{names[i], trim(p.Soaked.Heated-zeroCelsius, 0), Given(100 * p.Soaked.Limit)}
		row(b, columns, slices.Concat(cells, view(p.Soaked), view(p.Opened)))
	}
}

// view is the figures of a material in one view, as drawn.
func view(r *suits.Row) []string {
	if r.Class == suits.Unanswered {
		return []string{"-", "-", "no answer"}
	}
	return []string{narrowCell(r.Start), eightInTen(r) + ifFast(r), verdictWord(r)}
}

// verdictWord is the verdict with its odds, and a question mark where the strand may give way.
func verdictWord(r *suits.Row) string {
	if r.Survives == diffusion.Softens {
		return diffusion.TooHot.String()
	}
	return r.Verdict.String() + unlessHolds(r) + " " + chance(r.Odds.Probability)
}

// ifFast marks a strand that is the wetter the greater its diffusivity is, where that makes a difference of a tenth or more.
func ifFast(r *suits.Row) string {
	const tenth = 1.1
	if o := &r.Odds; o.FastIsWetter && o.ByDiffusivity.High > tenth*o.ByDiffusivity.Low {
		return "+"
	}
	return ""
}

func unlessHolds(r *suits.Row) string {
	if r.Survives == diffusion.Doubtful {
		return "?"
	}
	return ""
}

// built sets what each material needs of the zone that dries, those apart that need nothing in either view.
func (s *Suits) built(b *strings.Builder, pairs []suits.Pair) {
	names, name := narrowed(labels(pairs), widestLabel)
	columns := []column{{"material", "", -name}}
	for range 2 {
		columns = append(columns, column{"length", "m", 7}, column{"9 in 10", "m", 7}, column{"at rest", "", 8}, column{"9 in 10", "", 8})
	}
	fmt.Fprintf(b, "%s soaked%sopened %s ago\n", strings.Repeat(" ", name+2), strings.Repeat(" ", 34-len(" soaked")), Duration(s.Answer.RoomTime))
	heads(b, columns)
	for _, group := range [...]suits.Reach{suits.Reliably, suits.AtMedians, suits.Beyond, suits.Never} {
		named := false
		for i, p := range pairs {
			if p.Soaked.Kind() == suits.Unknown || p.Soaked.Kind() == suits.NeedsNone && p.Opened.Kind() == suits.NeedsNone || p.Soaked.Reach(s.Answer.Longest) != group {
				continue
			}
			if !named {
				fmt.Fprintf(b, "— soaked: %s\n", s.reachWords(group))
				named = true
			}
			row(b, columns, slices.Concat(names[i:i+1], s.lengths(p.Soaked), s.lengths(p.Opened)))
		}
	}
}

// lengths are the figures of what a material needs in one view.
func (s *Suits) lengths(r *suits.Row) []string {
	if r.Class == suits.Unanswered {
		return []string{"-", "-", "-", "-"}
	}
	return []string{s.needed(r), s.reliableLength(r.Reliable), restTime(r.Rest), reliableTime(r.RestReliable)}
}

// kindWords are the heading of a kind, and what is said of one material of it and of several.
func kindWords(k suits.Kind) (heading, one, many string) {
	words := map[suits.Kind][3]string{
		suits.NeedsNone:      {"needs no drying, nine times in ten", "needs no drying", "need no drying"},
		suits.DryAsDrawn:     {"dry as drawn, nine times in ten or more", "is dry nine times in ten or more", "are dry nine times in ten or more"},
		suits.UnsureAsDrawn:  {"unsure as drawn", "is unsure, dry so many times in 100", "are unsure, dry so many times in 100"},
		suits.WetAsDrawn:     {"wet as drawn, nine times in ten or more", "is wet nine times in ten or more", "are wet nine times in ten or more"},
		suits.SoftensAsDrawn: {"softens in the heat", "softens", "soften"},
		suits.Unknown:        {"no answer", "has no answer", "have no answer"},
	}[k]
	return words[0], words[1], words[2]
}

// reachWords are the heading of what can be reached.
func (s *Suits) reachWords(r suits.Reach) string {
	switch r {
	case suits.Reliably:
		return "dry nine times in ten with no more than " + Length(s.Answer.Longest)
	case suits.AtMedians:
		return "dry at the medians with no more than " + Length(s.Answer.Longest) + ", but not nine times in ten"
	case suits.Beyond:
		return "longer than can be built"
	}
	return "no length will do"
}

func (s *Suits) legend(b *strings.Builder) {
	t := s.Answer
	legend(b, [][2]string{
		{"limit:   ", "each material's own for " + t.Purpose.String() + ", or what the scenario states for its own"},
		{"soaked:  ", "it sets off in equilibrium with the room; opened: it was dry, and has lain in the room since"},
		{"start:   ", "mean moisture as it sets off, at the medians of what is in doubt"},
		{"8 in 10: ", "moisture at the nozzle: it lies between these eight times in ten. +: the greater the diffusivity, the wetter it is there, for what lets water out fast has let more in"},
		{"in 100:  ", "times that the limit is met. dry from 90 on, wet up to 10; ?: the strand may give way in the heat of the path"},
		{"length:  ", "the shortest of " + t.Zone + " that meets the limit at the medians, and (9 in 10) nine times in ten. ≤: it needs none, and bears no more; any length will do; none that was looked at does; air: the air itself is too moist; flow: it is too little for the water of the strand; rewets: a later zone wets it again; softens: it does not bear the heat"},
		{"at rest: ", "the same strand, loose, in still air of the same state, until it meets its limit, without later zones; a wound spool takes longer. none: not in 30 years"},
	})
}
