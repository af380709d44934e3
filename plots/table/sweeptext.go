package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// mostShown is the number of rows up to which the text shows each.
const mostShown = 50

// WriteText writes what the sweep found in short; of one axis with few values
// every row.
func (s *Sweep) WriteText(out io.Writer) error { return written(out, s.check, s.text) }

func (s *Sweep) text(b *strings.Builder) {
	paragraph(b, "", s.Title)
	for _, axis := range s.Grid.Axes {
		paragraph(b, "  ", span(axis))
	}
	b.WriteByte('\n')
	if len(s.Grid.Axes) == 1 && len(s.Grid.Rows) <= mostShown {
		s.rows(b)
		b.WriteByte('\n')
	}
	s.counts(b)
	s.extremes(b)
	s.failures(b)
	s.accuracy(b)
}

// span tells how far an axis reaches.
func span(a scenarios.Axis) string {
	if a.Names != nil {
		return a.Key.Name + ": " + strings.Join(a.Names, ", ")
	}
	if a.Len() == 1 {
		return fmt.Sprintf("%s: %s", a.Key.Name, valueAt(a, 0))
	}
	return fmt.Sprintf("%s: %s to %s, %d values", a.Key.Name, valueAt(a, 0), valueAt(a, a.Len()-1), a.Len())
}

// valueAt is a value of an axis with its unit, to four digits.
func valueAt(a scenarios.Axis, place int) string {
	switch {
	case a.Names != nil:
		return a.Names[place]
	case a.Key.Plain():
		return Given(a.Values[place])
	}
	return a.Key.Dimension.Format(a.Values[place], unitOf(a), 4)
}

// where names the place of a row on every axis.
func (s *Sweep) where(row int) string {
	var parts []string
	for i, place := range s.Grid.At(row) {
		parts = append(parts, s.Grid.Axes[i].Key.Name+" = "+valueAt(s.Grid.Axes[i], place))
	}
	return strings.Join(parts, ", ")
}

func (s *Sweep) rows(b *strings.Builder) {
	columns := []column{{shorten(s.Grid.Axes[0].Key.Name, 22), "", -22}, {"mean", "%", 7}}
	if s.Grid.Sketched == nil {
		columns = append(columns, column{"skin", "%", 7})
	}
	if !s.Grid.Quick {
		columns = append(columns, column{"low", "%", 7}, column{"high", "%", 7}, column{"within", "of 100", 6}, column{"verdict", "", -7})
	}
	columns = append(columns, column{"survives", "", -8})
	heads(b, columns)
	for i := range s.Grid.Rows {
		r := &s.Grid.Rows[i]
		cells := []string{shorten(valueAt(s.Grid.Axes[0], i), 22), Cell(r.Mean)}
		if s.Grid.Sketched == nil {
			cells = append(cells, Cell(r.Skin))
		}
		if !s.Grid.Quick {
			cells = append(cells, Cell(r.Low), Cell(r.High), chance(r.Probability), r.Verdict.String())
		}
		cells = append(cells, r.Survives().String())
		if r.Failed != "" {
			for k := range cells[1:] {
				cells[1+k] = "-"
			}
		}
		row(b, columns, cells)
	}
	if !s.Grid.Quick {
		paragraph(b, "low, high: ", "the mean lies between them eight times in ten; within: how often it is within the limit.")
	}
}

func (s *Sweep) counts(b *strings.Builder) {
	var of [4]int // by verdict
	within, soft, doubtful := 0, 0, 0
	for i := range s.Grid.Rows {
		r := &s.Grid.Rows[i]
		if r.Failed != "" {
			continue
		}
		of[r.Verdict]++
		switch {
		case r.Fits():
			within++
		case r.Mean <= r.Limit:
			soft++
		}
		if r.Survives() == diffusion.Doubtful {
			doubtful++
		}
	}
	text := fmt.Sprintf("Rows: %d; dry: %d; unsure: %d; wet: %d; soft: %d. Dry: within the limit nine times in ten or more; wet: one time in ten or less; unsure: between, or the "+s.errs()+" leaves it open.",
		len(s.Grid.Rows), of[diffusion.Dry], of[diffusion.Unsure], of[diffusion.Wet], of[diffusion.TooHot])
	if s.Grid.Quick {
		text = fmt.Sprintf("Rows: %d; within the limit at the central diffusivity: %d; above it: %d; within it but soft: %d.",
			len(s.Grid.Rows), within, s.Grid.Answered()-within-soft, soft)
	}
	if soft+of[diffusion.TooHot] > 0 {
		text += " Soft: the strand softens in the heat, however dry it is."
	}
	if doubtful > 0 {
		text += fmt.Sprintf(" Rows in which it is doubtful whether the strand bears the heat: %d.", doubtful)
	}
	paragraph(b, "", text)
}

// errs is what may leave a verdict open.
func (s *Sweep) errs() string {
	if s.Grid.Sketched != nil {
		return "error of the sketch"
	}
	return "numerical error"
}

func (s *Sweep) extremes(b *strings.Builder) {
	low := s.first(true)
	if low < 0 {
		return
	}
	high := low
	for i, r := range s.Grid.Rows {
		switch {
		case r.Failed != "":
		case r.Mean < s.Grid.Rows[low].Mean:
			low = i
		case r.Mean > s.Grid.Rows[high].Mean:
			high = i
		}
	}
	paragraph(b, "Driest:  ", s.extreme(&s.Grid.Rows[low], low))
	paragraph(b, "Wettest: ", s.extreme(&s.Grid.Rows[high], high))
}

func (s *Sweep) extreme(r *sweep.Row, i int) string {
	text := fmt.Sprintf("%s (limit %s) at %s", Percent(r.Mean), Limit(r.Limit), s.where(i))
	switch r.Survives() {
	case diffusion.Softens:
		return text + ", where the strand softens"
	case diffusion.Doubtful:
		return text + ", where it is doubtful whether the strand bears the heat"
	}
	return text
}

// first is the first row with an answer, or without one; -1 for none.
func (s *Sweep) first(answered bool) int {
	return slices.IndexFunc(s.Grid.Rows, func(r sweep.Row) bool { return (r.Failed == "") == answered })
}

func (s *Sweep) failures(b *strings.Builder) {
	if i := s.first(false); i >= 0 {
		paragraph(b, "", fmt.Sprintf("Rows without an answer: %d. The first of them, at %s: %s",
			len(s.Grid.Rows)-s.Grid.Answered(), s.where(i), s.Grid.Rows[i].Failed))
	}
}

func (s *Sweep) accuracy(b *strings.Builder) {
	if s.Grid.Sketched != nil {
		s.sketched(b)
		return
	}
	i, counted := s.first(true), ""
	if i < 0 {
		return
	}
	if !s.Grid.Quick {
		counted = ", and by so much, but no more than " + Percent(s.Grid.NumericalError) + ", counted in the verdict of each row"
	}
	n := s.Grid.Rows[i].Settings
	apart(b, fmt.Sprintf("strandry %s, %s; resolution %s, tolerance %s. Numerical error at the corners and in the middle of the grid (rows: %d): "+
		"up to %s %% of the content%s. [numerics] in the scenario sets finer steps.",
		s.Version, s.File, Given(n.Resolution), Given(n.Tolerance), s.Grid.Checked, Significant(100*s.Grid.RelativeError, 2), counted))
}
