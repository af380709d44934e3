package table

import (
	"strings"
	"unicode/utf8"
)

// column is one of a table, its width without the space before it. A negative
// width sets it to the left.
type column struct {
	head, unit string
	width      int
}

// heads writes the two lines of column heads and the rule below them.
func heads(b *strings.Builder, columns []column) {
	names, units := make([]string, len(columns)), make([]string, len(columns))
	total := len(columns) - 1
	for i, c := range columns {
		names[i], units[i] = c.head, c.unit
		total += max(c.width, -c.width)
	}
	row(b, columns, names)
	row(b, columns, units)
	b.WriteString(strings.Repeat("─", total) + "\n")
}

// row writes one line of cells.
func row(b *strings.Builder, columns []column, cells []string) {
	var line strings.Builder
	for i, c := range columns {
		if i > 0 {
			line.WriteByte(' ')
		}
		gap := strings.Repeat(" ", max(0, max(c.width, -c.width)-utf8.RuneCountInString(cells[i])))
		if c.width < 0 {
			line.WriteString(cells[i] + gap)
		} else {
			line.WriteString(gap + cells[i])
		}
	}
	b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
}
