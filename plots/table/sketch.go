package table

import (
	"fmt"
	"strings"

	"strandry/scenarios/studies/sweep"
)

// sketched tells that the rows are, by what, and how far they may be off.
func (s *Sweep) sketched(b *strings.Builder) {
	k := s.Grid.Sketched
	text := fmt.Sprintf("Sketched: these numbers rest on %d marches and a surrogate between them, not on a march for each row. They are off by about %s %% of the content, "+
		"as leaving out each march in turn tells", k.Marches, Significant(100*k.Error, 2))
	if k.Checked > 0 {
		text += fmt.Sprintf("; at %d rows that were marched besides, by %s %%, and by %s %% at most", k.Checked, Significant(100*k.Off, 2), Significant(100*k.Worst, 2))
	}
	text += ". The larger counts in the verdict of each row. "
	if k.Exhausted {
		text += fmt.Sprintf("More than the %s %% that was sought: a sketch has no more marches to make, and this map is a rough one. ", Significant(100*k.Sought, 2))
	}
	if k.Unanswered > 0 {
		text += fmt.Sprintf("Marches without an answer, which were taken for as wet as the wettest: %d. ", k.Unanswered)
	}
	text += "Whether the strand bears the heat, and whether there is an answer at all, was looked at where rows were marched"
	if k.Looked > 0 {
		text += fmt.Sprintf(", %d more of them where that changes,", k.Looked)
	}
	text += " and is taken to be alike between those that agree. Without --sketch each row is marched."
	paragraph(b, "", text)
	apart(b, fmt.Sprintf("strandry %s, %s.", s.Version, s.File))
}

func sketchedData(k *sweep.Sketched) object {
	return object{
		{"marches", k.Marches}, {"error", k.Error}, {"error_sought", k.Sought}, {"exhausted", k.Exhausted}, {"batches", k.Batches},
		{"marches_without_answer", k.Unanswered}, {"rows_checked", k.Checked}, {"error_checked", k.Off}, {"error_checked_worst", k.Worst},
		{"rows_looked_at", k.Looked},
	}
}
