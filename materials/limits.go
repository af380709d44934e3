package materials

import (
	"slices"

	"strandry/materials/text/strict"
)

// Purpose is what a limit of moisture is kept for.
type Purpose int

const (
	// Printing: no bubbles, strings or rough skin to be seen on what is printed.
	Printing Purpose = iota
	// Moulding: no chain cut by water in the melt, or, where water cuts none, no streaks on a moulded part.
	Moulding
)

func purposes() []string { return []string{"printing", "moulding"} }

// String returns the word used in scenarios: "printing" or "moulding".
func (p Purpose) String() string { return word(purposes(), int(p)) }

// PurposeOf is the purpose of a word; ok is false where it is none.
func PurposeOf(word string) (p Purpose, ok bool) {
	i := slices.Index(purposes(), word)
	return Purpose(max(i, 0)), i >= 0
}

// Limit is the wettest strand for a purpose [kg/kg dry].
func (p *Polymer) Limit(purpose Purpose) Value {
	if purpose == Moulding {
		return p.MouldingLimit
	}
	return p.PrintingLimit
}

// readHydrolyses reads whether water cuts the chain.
func readHydrolyses(t *strict.Table, p *Polymer, complete bool) {
	if complete {
		t.Require("hydrolyses")
	}
	if t.Has("hydrolyses") {
		p.Hydrolyses, _ = t.Bool("hydrolyses")
	}
}
