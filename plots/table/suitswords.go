package table

import (
	"fmt"
	"strings"

	"strandry/scenarios/studies/suits"
)

// Conclusion says which materials the dryer is for.
func (s *Suits) Conclusion() string { return strings.Join(s.conclusions(), " ") }

// conclusions say it for each view, as it is drawn and as it could be built.
func (s *Suits) conclusions() []string {
	t := s.Answer
	out := []string{s.concludes("Soaked", t.Soaked), s.concludes("Opened "+Duration(t.RoomTime)+" ago", t.Opened)}
	if strings.Contains(strings.Join(out, ""), "?") {
		out = append(out, "?: the strand may give way in the heat of the path.")
	}
	return out
}

// concludes is the conclusion of one view.
func (s *Suits) concludes(view string, unsorted []suits.Row) string {
	rows, longest := suits.AsDrawn(unsorted), s.Answer.Longest
	var kinds []string
	for _, k := range suits.Kinds() {
		said := label
		if k == suits.UnsureAsDrawn {
			said = func(r *suits.Row) string { return label(r) + " " + chance(r.Odds.Probability) }
		}
		if in := names(rows, func(r *suits.Row) bool { return r.Kind() == k }, said); len(in) > 0 {
			_, one, many := kindWords(k)
			kinds = append(kinds, fmt.Sprintf("%d %s: %s", len(in), plural(len(in), one, many), strings.Join(in, ", ")))
		}
	}
	said := fmt.Sprintf("%s, as drawn, of %d: %s.", view, len(rows), strings.Join(kinds, "; "))
	built := names(rows, func(r *suits.Row) bool { return r.Built(longest) }, func(r *suits.Row) string { return label(r) + " " + s.reliableLength(r.Reliable) + " m" })
	even := names(rows, func(r *suits.Row) bool { return r.Even(longest) }, label)
	if len(built) > 0 {
		said += fmt.Sprintf(" With up to %s of %s, %d more would be dry nine times in ten: %s.", Length(longest), s.Answer.Zone, len(built), strings.Join(built, ", "))
	} else if len(names(rows, (*suits.Row).Wanting, label)) > 0 {
		said += fmt.Sprintf(" With up to %s of %s, none more would be dry nine times in ten.", Length(longest), s.Answer.Zone)
	}
	if len(even) > 0 {
		said += fmt.Sprintf(" At the medians, but not so often: %s.", strings.Join(even, ", "))
	}
	return said
}

func label(r *suits.Row) string { return r.Material.Label() + unlessHolds(r) }

// names lists those of the rows that are in.
func names(rows []*suits.Row, in func(r *suits.Row) bool, said func(r *suits.Row) string) []string {
	var all []string
	for _, r := range rows {
		if in(r) {
			all = append(all, said(r))
		}
	}
	return all
}
