package table

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"

	"strandry/materials/text/inert"
	"strandry/materials/text/quantity"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// Sweep is all that the files of a sweep show.
type Sweep struct {
	Title   string
	File    string
	Version string
	Origin  sweep.Origin
	Grid    *sweep.Grid
	Figures []string // their files
}

// WriteCSV writes a line for each row: its place on the axes in the units of the
// scenario, contents in % of dry weight. A row without an answer has its reason in
// the last column and nothing in those of the answer. A text that a spreadsheet would take for a formula has an apostrophe
// before it, see [inert.Cell].
func (s *Sweep) WriteCSV(out io.Writer) error {
	if err := s.check(); err != nil {
		return err
	}
	w := csv.NewWriter(out)
	line, columns := s.csvHeads(), s.columns()
	err := w.Write(line)
	for i := range s.Grid.Rows {
		if err != nil {
			return err
		}
		line = s.csvCells(line[:0], columns, i)
		err = w.Write(line)
	}
	w.Flush()
	return w.Error()
}

func (s *Sweep) csvHeads() []string {
	var heads []string
	for _, axis := range s.Grid.Axes {
		head := axis.Key.Name
		if unit := unitOf(axis); unit != "" {
			head += " [" + unit + "]"
		}
		heads = append(heads, head)
	}
	for k, head := range heads {
		heads[k] = inert.Cell(head)
	}
	for _, c := range s.columns() {
		heads = append(heads, c.name+c.unit)
	}
	if s.Grid.Sketched != nil {
		heads = append(heads, "sketched by marches", "off by about [%]")
	}
	return append(heads, "no answer because")
}

func (s *Sweep) csvCells(line []string, columns []sweepColumn, i int) []string {
	row := &s.Grid.Rows[i]
	for k, place := range s.Grid.At(i) {
		line = append(line, axisCell(s.Grid.Axes[k], place))
	}
	for _, c := range columns {
		text := ""
		if c.known(row) {
			switch x := c.value(row).(type) {
			case float64:
				if c.unit != "" {
					x *= 100
				}
				text = exact(x)
			case string:
				text = x
			}
		}
		line = append(line, text)
	}
	if told := s.Grid.Sketched; told != nil {
		line = append(line, strconv.Itoa(told.Marches), exact(100*told.Slack()))
	}
	return append(line, inert.Cell(row.Failed))
}

// sweepColumn is what is told of each row, for programs and for spreadsheets.
type sweepColumn struct {
	name, unit string // the unit after its name in CSV; in JSON SI holds
	spread     bool   // of the odds, which a quick sweep has not
	null       bool   // in JSON, where it is not known; else it is left out
	known      func(r *sweep.Row) bool
	value      func(r *sweep.Row) any // a number in SI, or a word
}

func (s *Sweep) columns() []sweepColumn {
	answered := func(r *sweep.Row) bool { return r.Failed == "" }
	stated := func(r *sweep.Row) bool { return r.Settings.Resolution > 0 }
	all := []sweepColumn{
		{"mean", " [%]", false, true, answered, func(r *sweep.Row) any { return r.Mean }},
		{"centre", " [%]", false, true, answered, func(r *sweep.Row) any { return r.Centre }},
		{"skin", " [%]", false, true, answered, func(r *sweep.Row) any { return r.Skin }},
		{"low", " [%]", true, false, answered, func(r *sweep.Row) any { return r.Low }},
		{"high", " [%]", true, false, answered, func(r *sweep.Row) any { return r.High }},
		{"probability", "", true, false, answered, func(r *sweep.Row) any { return r.Probability }},
		{"limit", " [%]", false, true, stated, func(r *sweep.Row) any { return r.Limit }},
		{"removed", " [%]", false, true, answered, func(r *sweep.Row) any { return r.Removed }},
		{"verdict", "", true, false, answered, func(r *sweep.Row) any { return r.Verdict.String() }},
		{"survives", "", false, false, answered, func(r *sweep.Row) any { return r.Survives().String() }}, // holds, doubtful, softens
		{"resolution", "", false, false, stated, func(r *sweep.Row) any { return r.Settings.Resolution }},
		{"tolerance", "", false, false, stated, func(r *sweep.Row) any { return r.Settings.Tolerance }},
		{"heat", "", false, false, stated, func(r *sweep.Row) any { return r.Settings.Heat.String() }},
	}
	return slices.DeleteFunc(all, func(c sweepColumn) bool {
		return c.spread && s.Grid.Quick || s.Grid.Sketched != nil && slices.Contains([]string{"centre", "skin", "removed"}, c.name)
	})
}

// exact writes a number so that reading gives the same bits.
func exact(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// unitOf is the unit that the values of an axis are shown in; "" for plain
// numbers and names.
func unitOf(a scenarios.Axis) string {
	if a.Names != nil || a.Key.Plain() {
		return ""
	}
	if _, ok := a.Key.Dimension.In(0, a.Unit); ok {
		return a.Unit
	}
	return a.Key.Dimension.Usual()
}

// axisCell is a value of an axis in that unit.
func axisCell(a scenarios.Axis, place int) string {
	const digits = 12 // as the values of a sweep are written
	switch {
	case a.Names != nil:
		return inert.Cell(a.Names[place])
	case a.Key.Plain():
		return quantity.Number(a.Values[place], digits)
	}
	x, _ := a.Key.Dimension.In(a.Values[place], unitOf(a))
	return quantity.Number(x, digits)
}

// WriteJSON writes the sweep as JSON in SI units, one line to a row; at gives the
// places of a row on the axes, from 0.
func (s *Sweep) WriteJSON(out io.Writer) error {
	if err := s.check(); err != nil {
		return err
	}
	g := s.Grid
	head := object{
		{"version", s.Version},
		{"title", s.Title},
		{"file", s.File},
		{"origin", s.Origin.String()},
		{"axes", each(g.Axes, func(a *scenarios.Axis) object {
			out := object{{"key", a.Key.Name}, {"unit_in_scenario", unitOf(*a)}} // the values are in SI
			if len(a.Values) > 0 {
				out = append(out, member{"values", a.Values})
			}
			if len(a.Names) > 0 {
				out = append(out, member{"names", a.Names})
			}
			return out
		})},
	}
	if g.Sketched == nil {
		head = append(head, member{"numerical_error", g.NumericalError}, member{"relative_error", g.RelativeError}, member{"rows_checked_for_error", g.Checked})
	} else {
		head = append(head, member{"sketched", sketchedData(g.Sketched)})
	}
	head = append(head, member{"figures", s.Figures})
	text, err := json.MarshalIndent(head, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s,\n  \"rows\": [", text[:len(text)-2])
	columns := s.columns()
	for i := range g.Rows {
		if err != nil {
			return err
		}
		if text, err = json.Marshal(s.rowData(columns, i)); err != nil {
			return err
		}
		separator := ","
		if i == 0 {
			separator = ""
		}
		_, err = fmt.Fprintf(out, "%s\n    %s", separator, text)
	}
	if err == nil {
		_, err = io.WriteString(out, "\n  ]\n}\n")
	}
	return err
}

func (s *Sweep) rowData(columns []sweepColumn, i int) object {
	row, out := &s.Grid.Rows[i], object{{"at", s.Grid.At(i)}}
	for _, c := range columns {
		if c.known(row) {
			out = append(out, member{c.name, c.value(row)})
		} else if c.null {
			out = append(out, member{c.name, nil})
		}
	}
	return append(out, filled("no_answer_because", row.Failed))
}

func (s *Sweep) check() error { return Finite("the sweep", s.Grid) }

// SweepOrigin reads the origin from what [Sweep.WriteJSON] wrote.
func SweepOrigin(in io.Reader) (sweep.Origin, error) {
	var head struct {
		Origin string `json:"origin"`
	}
	if err := json.NewDecoder(in).Decode(&head); err != nil {
		return sweep.Origin{}, fmt.Errorf("its JSON cannot be read: %w", err)
	}
	return sweep.ParseOrigin(head.Origin)
}
