package table

import (
	"fmt"

	"strandry/diffusion"
	"strandry/materials"
)

// Limits are the limit that the verdict is about, with whose it is, and the others.
func Limits(m *diffusion.Model) string {
	printing, moulding := limit(m.Material.PrintingLimit.Value), limit(m.Material.MouldingLimit.Value)
	switch {
	case m.LimitStated:
		return fmt.Sprintf("%s, as the scenario states (printing: %s; moulding: %s)", limit(m.Limit), printing, moulding)
	case m.Purpose == materials.Moulding:
		return fmt.Sprintf("%s, for moulding (printing: %s)", limit(m.Limit), printing)
	}
	return fmt.Sprintf("%s, for printing (moulding: %s)", limit(m.Limit), moulding)
}

// BothLimits says what a content at the nozzle [kg/kg dry] within the one and beyond the other of the material's limits means.
func BothLimits(p *materials.Polymer, content float64) string {
	printing, moulding := p.PrintingLimit.Value, p.MouldingLimit.Value
	sound, harm := "the chain is not cut", "the chain may be cut and the part be weaker"
	if !p.Hydrolyses {
		sound, harm = "no streaks either", "moulders would see streaks (water does not cut this chain)"
	}
	switch {
	case content <= printing && content <= moulding:
		return fmt.Sprintf("within the printing limit and the moulding limit of %s: as a rule no bubbles, and %s", limit(moulding), sound)
	case content <= printing:
		return fmt.Sprintf("within the printing limit of %s but over the moulding limit of %s: prints without bubbles as a rule, but %s", limit(printing), limit(moulding), harm)
	case content <= moulding:
		return fmt.Sprintf("over the printing limit of %s but within the moulding limit of %s: %s, but bubbles, strings or rough skin are likely", limit(printing), limit(moulding), sound)
	}
	return fmt.Sprintf("over the printing limit of %s and the moulding limit of %s: bubbles, strings or rough skin are likely, and %s", limit(printing), limit(moulding), harm)
}

// limits are they as JSON, with the words on them.
type limits struct {
	Limit    float64 `json:"limit"` // that the verdict is about
	Printing float64 `json:"printing_limit"`
	Moulding float64 `json:"moulding_limit"`
}

type limitWords struct {
	Of      string `json:"limit_of"`       // printing, moulding or stated
	Meaning string `json:"limits_meaning"` // of the mean at the nozzle beside both
}

func limitsOf(m *diffusion.Model) limits {
	return limits{m.Limit, m.Material.PrintingLimit.Value, m.Material.MouldingLimit.Value}
}

func limitWordsOf(m *diffusion.Model, mean float64) limitWords {
	out := limitWords{m.Purpose.String(), BothLimits(&m.Material, mean)}
	if m.LimitStated {
		out.Of = "stated"
	}
	return out
}
