package strict

import (
	"fmt"
	"slices"
	"strings"

	"strandry/materials/text/inert"
)

// Fault is one thing wrong with a file. Empty fields say nothing.
type Fault struct {
	File    string // the file's name as given to [Parse]
	Line    int    // counted from 1; 0 when it belongs to no line
	Key     string // full path of the key, such as zone[2].length
	Given   string // the value as written, strings in quotes
	Problem string // what is wrong
	Allowed string // what is allowed
	Nearest string // the allowed name closest to the one given
}

// String gives the fault on one line; what cannot be printed is escaped.
func (f Fault) String() string {
	var out strings.Builder
	out.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&out, ":%d", f.Line)
	}
	if out.Len() > 0 {
		out.WriteString(": ")
	}
	if f.Key != "" {
		out.WriteString(shortened(f.Key))
		if f.Given != "" {
			out.WriteString(" = " + shortened(f.Given))
		}
		out.WriteString(": ")
	}
	out.WriteString(f.Problem)
	if f.Allowed != "" {
		out.WriteString("; allowed: " + f.Allowed)
	}
	if f.Nearest != "" {
		fmt.Fprintf(&out, "; did you mean %q?", f.Nearest)
	}
	return inert.Escaped(out.String())
}

// Faults is the error of a file: every fault found, sorted by line.
type Faults []Fault

// mostTold is the number of faults that an error tells.
const mostTold = 40

// Error gives one line for each fault, and of very many the first and how many more there are.
func (f Faults) Error() string {
	told := f[:min(len(f), mostTold)]
	lines := make([]string, len(told), len(told)+1)
	for i, fault := range told {
		lines[i] = fault.String()
	}
	if more := len(f) - len(told); more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(lines, "\n")
}

// shortened leaves out the middle of what is too long to be read.
func shortened(s string) string {
	const ends = 60
	runes := []rune(s)
	if len(runes) <= 2*ends+1 {
		return s
	}
	return string(runes[:ends]) + "…" + string(runes[len(runes)-ends:])
}

// Err is the error of the faults, nil for none.
func (f Faults) Err() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

func (f Faults) sorted() Faults {
	out := slices.Clone(f)
	slices.SortStableFunc(out, func(a, b Fault) int { return a.Line - b.Line })
	return out
}
