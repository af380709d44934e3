package table

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
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
	line := s.csvHeads()
	err := w.Write(line)
	for i := range s.Grid.Rows {
		if err != nil {
			return err
		}
		line = s.csvCells(line[:0], i)
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
	heads = append(heads, "mean [%]", "centre [%]", "skin [%]")
	if !s.Grid.Quick {
		heads = append(heads, "low [%]", "high [%]", "probability")
	}
	heads = append(heads, "limit [%]", "removed [%]")
	if !s.Grid.Quick {
		heads = append(heads, "verdict")
	}
	return append(heads, "survives", "resolution", "tolerance", "heat", "no answer because")
}

func (s *Sweep) csvCells(line []string, i int) []string {
	row := &s.Grid.Rows[i]
	for k, place := range s.Grid.At(i) {
		line = append(line, axisCell(s.Grid.Axes[k], place))
	}
	answered := row.Failed == ""
	add := func(text string, known bool) {
		if !known {
			text = ""
		}
		line = append(line, text)
	}
	for _, x := range []float64{row.Mean, row.Centre, row.Skin} {
		add(exact(100*x), answered)
	}
	if !s.Grid.Quick {
		add(exact(100*row.Low), answered)
		add(exact(100*row.High), answered)
		add(exact(row.Probability), answered)
	}
	add(exact(100*row.Limit), row.Limit > 0)
	add(exact(100*row.Removed), answered)
	if !s.Grid.Quick {
		add(row.Verdict.String(), answered)
	}
	add(row.Survives().String(), answered)
	stated := row.Settings.Resolution > 0
	add(exact(row.Settings.Resolution), stated)
	add(exact(row.Settings.Tolerance), stated)
	add(row.Settings.Heat.String(), stated)
	return append(line, inert.Cell(row.Failed))
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
		{"numerical_error", g.NumericalError},
		{"relative_error", g.RelativeError},
		{"rows_checked_for_error", g.Checked},
		{"figures", s.Figures},
	}
	text, err := json.MarshalIndent(head, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s,\n  \"rows\": [", text[:len(text)-2])
	for i := range g.Rows {
		if err != nil {
			return err
		}
		if text, err = json.Marshal(s.rowData(i)); err != nil {
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

func (s *Sweep) rowData(i int) object {
	row := &s.Grid.Rows[i]
	known := func(name string, x float64, known bool) member {
		if !known {
			return member{name, nil}
		}
		return member{name, x}
	}
	answered, stated, full := row.Failed == "", row.Settings.Resolution > 0, row.Failed == "" && !s.Grid.Quick
	out := object{{"at", s.Grid.At(i)}, known("mean", row.Mean, answered), known("centre", row.Centre, answered), known("skin", row.Skin, answered)}
	if full {
		out = append(out, member{"low", row.Low}, member{"high", row.High}, member{"probability", row.Probability})
	}
	out = append(out, known("limit", row.Limit, stated), known("removed", row.Removed, answered))
	if full {
		out = append(out, member{"verdict", row.Verdict.String()})
	}
	if answered {
		out = append(out, member{"survives", row.Survives().String()}) // holds, doubtful, softens
	}
	if stated {
		out = append(out, member{"resolution", row.Settings.Resolution}, member{"tolerance", row.Settings.Tolerance}, member{"heat", row.Settings.Heat.String()})
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
