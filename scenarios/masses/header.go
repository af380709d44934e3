package masses

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"strandry/materials/text/nearest"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// columns are what the header says of the cells.
type columns struct {
	names              []string // as written
	time, mass         int      // where they stand
	date               int      // of the date of a clock; -1 where it has none of its own
	timeUnit, massUnit string   // timeUnit is "" for a clock
}

// timeOf is the cell of a time, the date before it.
func (c *columns) timeOf(cells []string) string {
	if c.date < 0 {
		return cells[c.time]
	}
	return cells[c.date] + " " + cells[c.time]
}

// anExample is what a header may look like.
const anExample = "a first line that names the columns with their units, such as time [h],mass [g]"

// Names of columns that are read.
func timeNames() []string  { return []string{"time", "elapsed", "clock"} }
func massNames() []string  { return []string{"mass", "weight"} }
func clockNames() []string { return []string{"clock", "time"} } // without a unit

// parted are the name of a column, in small letters, and what stands in brackets behind it.
func parted(cell string) (name, unit string) {
	name = strings.TrimSpace(cell)
	for _, brackets := range [...]string{"[]", "()"} {
		open := strings.IndexByte(name, brackets[0])
		if open >= 0 && strings.HasSuffix(name, brackets[1:]) {
			return strings.ToLower(strings.TrimSpace(name[:open])), strings.TrimSpace(name[open+1 : len(name)-1])
		}
	}
	return strings.ToLower(name), ""
}

// firstLine is the first line that says something, and where it begins.
func firstLine(plain string) (at int, line string) {
	for line := range strings.Lines(plain) {
		if bare := strings.TrimSpace(line); bare != "" && bare[0] != '#' {
			return at, bare
		}
		at += len(line)
	}
	return at, ""
}

// separatorNamed is what a spreadsheet names in a line of its own above the header: sep=;
func separatorNamed(line string) (comma rune, ok bool) {
	named, ok := strings.CutPrefix(line, "sep=")
	if ok && (named == "," || named == ";") {
		return rune(named[0]), true
	}
	return 0, false
}

// separator is what parts the cells of a header: of tab, semicolon and comma that which makes most columns of it that are read.
func separator(header string) rune {
	best, most := ',', -1
	for _, comma := range "\t;," {
		if !strings.ContainsRune(header, comma) {
			continue
		}
		read := 0
		for _, cell := range strings.Split(header, string(comma)) {
			name, _ := parted(strings.Trim(strings.TrimSpace(cell), `"`))
			if slices.Contains(timeNames(), name) || slices.Contains(massNames(), name) {
				read++
			}
		}
		if read > most {
			best, most = comma, read
		}
	}
	return best
}

// header reads the names of the columns; false where no row can be read under them.
func (r *reader) header(cells []string, line int) bool {
	r.columns = columns{names: cells, date: -1}
	if !slices.ContainsFunc(cells, func(cell string) bool { return !looksLikeData(cell) }) {
		r.fault(line, "header", quoted(strings.Join(cells, string(r.number.comma))), "numbers where the names of the columns belong", anExample)
		return false
	}
	if len(cells) > MaxColumns {
		r.fault(line, "header", quoted(strings.Join(cells, string(r.number.comma))), "too many columns", fmt.Sprintf("up to %d", MaxColumns))
		return false
	}
	if len(cells) == 1 {
		r.fault(line, "header", quoted(cells[0]), "one column alone", "columns for time and mass, with commas, semicolons or tabs between them")
		return false
	}
	var timed, weighed bool
	r.columns.time, timed = r.column(line, "time", "time [h]", timeNames())
	r.columns.mass, weighed = r.column(line, "mass", "mass [g]", massNames())
	if timed {
		r.columns.timeUnit, timed = r.unit(line, cells[r.columns.time], quantity.Duration(), clockNames())
	}
	if timed && r.columns.timeUnit == "" {
		r.columns.date = slices.IndexFunc(cells, func(cell string) bool { return strings.EqualFold(cell, "date") })
	}
	if weighed {
		r.columns.massUnit, weighed = r.unit(line, cells[r.columns.mass], quantity.Mass(), nil)
	}
	return timed && weighed
}

// column finds the one column of some names.
func (r *reader) column(line int, what, example string, names []string) (at int, ok bool) {
	at = -1
	for i, cell := range r.columns.names {
		name, _ := parted(cell)
		if !slices.Contains(names, name) {
			continue
		}
		if at >= 0 {
			r.fault(line, cell, "", "a second column for the "+what+", beside "+r.columns.names[at], "one")
			return at, false
		}
		at = i
	}
	if at >= 0 {
		return at, true
	}
	near := ""
	for _, cell := range r.columns.names {
		if name, _ := parted(cell); near == "" && nearest.Name(name, names) != "" {
			near = example
		}
	}
	r.report(strict.Fault{Line: line, Key: "header", Given: quoted(strings.Join(r.columns.names, string(r.number.comma))),
		Problem: "no column for the " + what, Allowed: "one called " + example, Nearest: near})
	return 0, false
}

// unit is that of a column, by its usual name. Columns of some names need none.
func (r *reader) unit(line int, cell string, dim quantity.Dimension, without []string) (unit string, ok bool) {
	name, written := parted(cell)
	if written == "" && slices.Contains(without, name) {
		return "", true
	}
	usual := dim.Unit("1 " + written)
	first, err := dim.Parse("1 " + written)
	if second, _ := dim.Parse("1 " + usual); err == nil && first == second && written != "" {
		return usual, true
	}
	f := strict.Fault{Line: line, Key: cell, Problem: "no unit of " + dim.Name(), Allowed: strings.Join(dim.Units(), ", ") + " in brackets"}
	var detail *quantity.Error
	switch {
	case written == "":
		f.Problem, f.Nearest = "the column has no unit", name+" ["+example(dim)+"]"
	case errors.As(err, &detail):
		f.Problem, f.Nearest = detail.Problem, detail.Nearest
	}
	r.report(f)
	return "", false
}

// example is the unit that most people would use in a table.
func example(dim quantity.Dimension) string {
	if dim.Name() == quantity.Duration().Name() {
		return "h"
	}
	return dim.Usual()
}

// headerAgain tells that a row holds names of columns, or their units, and no weighing.
func (r *reader) headerAgain(cells []string) bool {
	named := false
	for _, cell := range cells {
		if cell != "" && looksLikeData(cell) {
			return false
		}
		name, unit := parted(cell)
		if name == "" && unit != "" {
			name = unit
		}
		named = named || slices.Contains(timeNames(), name) || slices.Contains(massNames(), name) ||
			slices.Contains(quantity.Duration().Units(), name) || slices.Contains(quantity.Mass().Units(), name)
	}
	return named
}

// looksLikeData tells that a cell is a number, a time of day, or nothing.
func looksLikeData(cell string) bool {
	_, err := strconv.ParseFloat(strings.ReplaceAll(cell, ",", "."), 64)
	_, _, timed := clockTime(cell)
	return cell == "" || err == nil || timed
}

func quoted(cell string) string { return strconv.Quote(cell) }
