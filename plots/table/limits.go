package table

import (
	"fmt"

	"strandry/diffusion"
	"strandry/materials"
)

// Limits are the limit that the verdict is about, with whose it is, and the others.
func Limits(m *diffusion.Design) string {
	printing, moulding := Limit(m.Material.PrintingLimit.Value), Limit(m.Material.MouldingLimit.Value)
	switch {
	case m.LimitStated:
		return fmt.Sprintf("%s, as the scenario states (printing: %s; moulding: %s)", Limit(m.Limit), printing, moulding)
	case m.Purpose == materials.Moulding:
		return fmt.Sprintf("%s, for moulding (printing: %s)", Limit(m.Limit), printing)
	}
	return fmt.Sprintf("%s, for printing (moulding: %s)", Limit(m.Limit), moulding)
}

// BothLimits says how often a strand is within each of the material's limits, and what lies beyond.
func BothLimits(p *materials.Polymer, o *diffusion.Odds) string {
	harm := "the chain is cut and the part is weaker"
	if !p.Hydrolyses {
		harm = "moulders see streaks (water does not cut this chain)"
	}
	return fmt.Sprintf("within the printing limit of %s %s: beyond, bubbles, strings or rough skin show; within the moulding limit of %s %s: beyond, %s",
		Limit(p.PrintingLimit.Value), Chance(o.Printing), Limit(p.MouldingLimit.Value), Chance(o.Moulding), harm)
}

// limitsOf are the limit that the verdict is about and the material's own.
func limitsOf(m *diffusion.Design) object {
	return object{{"limit", m.Limit}, {"printing_limit", m.Material.PrintingLimit.Value}, {"moulding_limit", m.Material.MouldingLimit.Value}}
}

// limitWordsOf says whose the limit is: printing, moulding or stated; how often the strand is within each, and what lies beyond.
func limitWordsOf(m *diffusion.Design, o *diffusion.Odds) object {
	of := m.Purpose.String()
	if m.LimitStated {
		of = "stated"
	}
	return object{{"limit_of", of}, {"limits_meaning", BothLimits(&m.Material, o)}}
}
