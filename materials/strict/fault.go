package strict

import (
	"fmt"
	"slices"
	"strings"
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

// String gives the fault on one line.
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
		out.WriteString(f.Key)
		if f.Given != "" {
			out.WriteString(" = " + f.Given)
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
	return out.String()
}

// Faults is the error of a file: every fault found, sorted by line.
type Faults []Fault

// Error gives one line for each fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.String()
	}
	return strings.Join(lines, "\n")
}

func (f Faults) sorted() Faults {
	out := slices.Clone(f)
	slices.SortStableFunc(out, func(a, b Fault) int { return a.Line - b.Line })
	return out
}
