package masses

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"strandry/materials/text/inert"
	"strandry/materials/text/strict"
)

// What a table may hold at most, and has to hold.
const (
	MaxSize = 4 << 20 // [bytes]
	MaxRows = 10_000
	MinRows = 4

	MaxColumns = 100

	Lightest = 1e-8                  // least mass [kg]
	Heaviest = 100.0                 // greatest mass [kg]
	Shortest = 1.0                   // between first and last [s]
	Longest  = 10 * 365.25 * 86400.0 // greatest time [s]
)

// Table is what was read.
type Table struct {
	Rows []Row    // in the order of the text, MinRows to MaxRows of them; times never fall, and the last is later than the first by Shortest or more
	Left []string // names of the columns that were not read, escaped where they cannot be printed
	Said []string // what was decided in reading, for people
}

// Row is one weighing.
type Row struct {
	Time float64 // [s], 0 to Longest
	Mass float64 // [kg], Lightest to Heaviest
	Line int     // in the text, from 1
}

// Read makes a table of a text; file is its name in messages. The error is [strict.Faults].
func Read(file string, text []byte) (*Table, error) {
	r := &reader{file: inert.Escaped(file), table: &Table{}}
	if plain, ok := r.decoded(text); ok && r.open(plain) {
		r.rows()
		r.judge()
	}
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return r.table, nil
}

// reader is one pass over a text.
type reader struct {
	file    string
	csv     *csv.Reader
	columns columns
	number  numbers
	clock   clock
	table   *Table
	empty   []int // lines without a mass
	faults  strict.Faults
}

// fault records what is wrong with a cell, or with a line where it has no name.
func (r *reader) fault(line int, column, given, problem, allowed string) {
	r.report(strict.Fault{Line: line, Key: column, Given: given, Problem: problem, Allowed: allowed})
}

func (r *reader) report(f strict.Fault) {
	f.File = r.file
	r.faults = append(r.faults, f)
}

// decoded is the text in UTF-8 with one kind of line end.
func (r *reader) decoded(text []byte) (plain string, ok bool) {
	problem, allowed := "", "text in UTF-8, as spreadsheets save it under the name CSV UTF-8"
	switch {
	case len(text) > MaxSize:
		problem, allowed = "the file is too long", fmt.Sprintf("up to %d MiB", MaxSize>>20)
	case bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")):
		problem = "this is UTF-16"
	case bytes.IndexByte(text, 0) >= 0:
		problem = "this is no text file: it holds zero bytes"
	case bytes.HasPrefix(text, []byte("PK\x03\x04")):
		problem = "this is an archive or a workbook"
	case !utf8.Valid(text):
		problem = "this is no text in UTF-8"
	}
	if problem != "" {
		r.fault(0, "", "", problem, allowed)
		return "", false
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(text)), true
}

// open finds out how the text is laid out, and reads its header.
func (r *reader) open(plain string) bool {
	at, first := firstLine(plain)
	comma, named := separatorNamed(first)
	if named {
		plain = plain[:at] + "#" + plain[at:] // and the lines keep their numbers
	} else {
		comma = separator(first)
	}
	r.layOut(plain, comma)
	cells, line, ok := r.next()
	if !ok {
		if len(r.faults) == 0 {
			r.fault(0, "", "", "the file holds nothing", anExample)
		}
		return false
	}
	return r.header(withoutEmptyEnd(cells), line)
}

func (r *reader) layOut(plain string, comma rune) {
	r.csv = csv.NewReader(strings.NewReader(plain))
	r.csv.Comma, r.csv.Comment, r.csv.FieldsPerRecord = comma, '#', -1
	r.csv.TrimLeadingSpace = comma != '\t'
	r.number.comma = comma
}

// next gives the cells of the next line that says something; ok is false after the last.
func (r *reader) next() (cells []string, line int, ok bool) {
	for {
		cells, err := r.csv.Read()
		var wrong *csv.ParseError
		switch {
		case errors.As(err, &wrong):
			r.fault(wrong.StartLine, "", "", "a quotation mark where none can stand",
				"a cell with one stands between quotation marks, and doubles it inside (RFC 4180)")
			return nil, 0, false
		case errors.Is(err, io.EOF) || err != nil:
			return nil, 0, false
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if len(withoutEmptyEnd(cells)) > 0 && !strings.HasPrefix(cells[0], "#") {
			line, _ := r.csv.FieldPos(0)
			return cells, line, true
		}
	}
}

// withoutEmptyEnd are the cells up to the last that holds something; a spreadsheet writes more.
func withoutEmptyEnd(cells []string) []string {
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	return cells
}

// rows reads the weighings, up to the first fault that all others would repeat.
func (r *reader) rows() {
	for count := 0; ; count++ {
		cells, line, ok := r.next()
		if !ok {
			return
		}
		if count == MaxRows {
			r.fault(line, "", "", "too many rows", fmt.Sprintf("up to %d", MaxRows))
			return
		}
		if !r.row(cells, line) {
			return
		}
	}
}

// row reads one weighing; false where the rest cannot be read.
func (r *reader) row(cells []string, line int) bool {
	written, filled, names := quoted(strings.Join(cells, string(r.number.comma))), withoutEmptyEnd(cells), len(r.columns.names)
	switch {
	case r.headerAgain(cells):
		r.fault(line, "row", written, "a second header", "one line of names with units in brackets, above all weighings")
		return true
	case len(filled) > names && r.number.comma == ',' && allDigits(filled):
		r.fault(line, "row", written, "the comma is taken for a decimal sign and parts cells too",
			"decimal points, or semicolons or tabs between the cells")
		return false
	case len(filled) > names:
		r.fault(line, "row", written, "too many cells", fmt.Sprintf("%d, one under each name of the header", names))
		return true
	case len(cells) < names:
		r.fault(line, "row", written, "too few cells", fmt.Sprintf("%d, one under each name of the header", names))
		return true
	}
	time, known, goOn := r.time(r.columns.timeOf(cells), line)
	mass, weighed := r.mass(cells[r.columns.mass], line)
	if known && weighed {
		r.table.Rows = append(r.table.Rows, Row{Time: time, Mass: mass, Line: line})
	}
	return goOn
}

// judge looks at all rows together.
func (r *reader) judge() {
	r.unweighed()
	if rows := r.table.Rows; len(r.faults) == 0 {
		switch {
		case len(rows) < MinRows:
			r.fault(0, "", "", "too few weighings", fmt.Sprintf("%d to %d", MinRows, MaxRows))
		case rows[len(rows)-1].Time-rows[0].Time < Shortest:
			r.fault(rows[0].Line, r.columns.names[r.columns.time], "", "all weighings lie within a second", "times that rise")
		}
	}
	r.slips()
	r.said()
}

// unweighed reports the lines without a mass together: those of a table that is still to be filled in.
func (r *reader) unweighed() {
	if len(r.empty) == 0 {
		return
	}
	problem := "not weighed yet"
	if more := len(r.empty) - 1; more > 0 {
		problem = fmt.Sprintf("not weighed yet, nor are %d further lines", more)
		if more == 1 {
			problem = fmt.Sprintf("not weighed yet, nor is line %d", r.empty[1])
		}
	}
	r.fault(r.empty[0], r.columns.names[r.columns.mass], quoted(""), problem, "the mass, or no such line")
}

// shortened leaves out the end of a name that is too long to be read.
func shortened(name string) string {
	const most = 60
	if runes := []rune(name); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return name
}

// said tells what was left out and decided.
func (r *reader) said() {
	for i, name := range r.columns.names {
		if i != r.columns.time && i != r.columns.mass && i != r.columns.date && name != "" {
			r.table.Left = append(r.table.Left, inert.Escaped(shortened(name)))
		}
	}
	r.table.Said = append(r.table.Said, r.clock.said()...)
}
