package table

import (
	"fmt"
	"strings"
)

// machine is all that is told of the machine, on paper; nothing where nothing is stated.
func (a *Answer) machine(b *strings.Builder) {
	m := a.Machine
	if m == nil {
		a.untold(b)
		return
	}
	b.WriteString("\nThe machine, as far as it is stated: every number is an estimate, measure yours\n")
	for _, p := range m.Parts() {
		fmt.Fprintf(b, "\n%s\n", p.Head)
		for _, row := range p.Rows {
			paragraph(b, fmt.Sprintf("%-15s", row[0]), row[1])
		}
	}
	if bought := m.Bought(); len(bought) > 0 {
		b.WriteString("\nParts, at your prices\n")
		for _, cells := range bought {
			paragraph(b, "  - ", cells[0]+": "+strings.Join(nonEmpty(cells[1:len(cells)-1]), " at ")+" = "+cells[len(cells)-1])
		}
	}
	list(b, "What to look at in the machine", m.Alerts())
	if cautions := m.Cautions(); len(cautions) > 0 {
		b.WriteString("\nCautions for the machine\n")
		for _, c := range cautions {
			paragraph(b, "  - ", c)
		}
	}
	list(b, "Taken as usual of the machine", m.Assumed)
}

// nonEmpty are the texts that say something.
func nonEmpty(all []string) (out []string) {
	for _, text := range all {
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}

// untold tells why it cannot be told what the machine takes, where that is so.
func (a *Answer) untold(b *strings.Builder) {
	if a.Untold != "" {
		b.WriteByte('\n')
		paragraph(b, "The machine    ", "cannot be told: "+a.Untold)
	}
}
