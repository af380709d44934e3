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

// limits are they as JSON, with the words on them.
type limits struct {
	Limit    float64 `json:"limit"` // that the verdict is about
	Printing float64 `json:"printing_limit"`
	Moulding float64 `json:"moulding_limit"`
}

type limitWords struct {
	Of      string `json:"limit_of"`       // printing, moulding or stated
	Meaning string `json:"limits_meaning"` // how often it is within each, and what lies beyond
}

func limitsOf(m *diffusion.Design) limits {
	return limits{m.Limit, m.Material.PrintingLimit.Value, m.Material.MouldingLimit.Value}
}

func limitWordsOf(m *diffusion.Design, o *diffusion.Odds) limitWords {
	out := limitWords{m.Purpose.String(), BothLimits(&m.Material, o)}
	if m.LimitStated {
		out.Of = "stated"
	}
	return out
}
