package table

import (
	"slices"
	"strings"

	"strandry/scenarios/studies/suits"
)

// Wrapped sets a text in lines of no more than 79 columns, but for a word that is longer, with an end of line behind.
func Wrapped(text string) string {
	var b strings.Builder
	paragraph(&b, "", text)
	return b.String()
}

// Warnings puts all warnings of the assessment in words.
func (a *Answer) Warnings() []string {
	var out []string
	for _, w := range a.Assessment.Warnings {
		out = append(out, say(w, a.Design))
	}
	return append(out, Contradictions(a.Contradicting)...)
}

// Doubts lists what is doubtful in the data of the material, each with its source.
func (a *Answer) Doubts() []string { return remarks(a.Design.Material.Doubts) }

// Heads are the columns of [Suits.Cells].
func (s *Suits) Heads() []string {
	return []string{"Material", "Dried at, °C", "Limit, %", "Sets off with, %", "At the nozzle, %", "Eight times in ten, %", "Odds, %", "Answer", "Survives",
		"Length needed, m", "Nine times in ten, m", "Dwell", "At rest", "At rest, nine times in ten", "Floor of the air, %"}
}

// Cells are the figures of one material in a view of the answer; "-" for what does not apply.
func (s *Suits) Cells(r *suits.Row) []string {
	cells := []string{r.Material.Title(), trim(r.Heated-zeroCelsius, 0), Given(100 * r.Limit)}
	if r.Class == suits.Unanswered {
		return append(cells, slices.Repeat([]string{"-"}, len(s.Heads())-len(cells))...)
	}
	return append(cells, narrowCell(r.Start), narrowCell(r.Mean), eightInTen(r), chance(r.Odds.Probability), r.Verdict.String(), r.Survives.String(),
		s.needed(r), s.reliableLength(r.Reliable), s.dwell(r), restTime(r.Rest), reliableTime(r.RestReliable), narrowCell(r.Floor))
}

// Group is a class of rows with its heading.
type Group struct {
	Class suits.Class
	Head  string
}

// Groups lists the classes in the order of the rows.
func (s *Suits) Groups() []Group {
	return []Group{
		{suits.AsItIs, "at the medians: sets off within its limit, and may need no drying"},
		{suits.Buildable, "at the medians: can be built, up to " + Length(s.Answer.Longest)},
		{suits.TooLong, "at the medians: longer than can be built"},
		{suits.Unanswered, "no answer"},
		{suits.Forbidden, "at the medians: no length will do"},
	}
}
