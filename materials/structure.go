package materials

import (
	"slices"

	"strandry/materials/text/strict"
)

// Structure is what holds a strand together when it is warm.
type Structure int

const (
	// Amorphous: its glass, up to the glass transition. A few crystals that do not keep a strand from
	// sticking do not count.
	Amorphous Structure = iota
	// Semicrystalline: its crystals, or hard segments, nearly up to their melting.
	Semicrystalline
)

func structures() []string { return []string{"amorphous", "semicrystalline"} }

// String returns the word used in material files.
func (s Structure) String() string { return word(structures(), int(s)) }

// GivesWay is the range of temperature [K] over which a pulled strand begins to stretch or stick: up to its
// Min it holds, above its Max it is all but sure to give way (5 and 95 % points). That is the range of Softening, and
// for a semicrystalline polymer no more than its melting allows.
func (p *Polymer) GivesWay() Range {
	r := Range{Min: p.Softening.Low, Max: p.Softening.High}
	if p.Melting != nil {
		r.Min, r.Max = min(r.Min, p.Melting.Low), min(r.Max, p.Melting.High)
	}
	return r
}

// HottestAir is the temperature above which no air can be meant for a strand [K]: that of the nozzle given
// [K], or of melting where that is lower; an amorphous strand whose crystals, if it had any, would melt is meant as little.
func (p *Polymer) HottestAir(nozzle float64) float64 {
	if p.Melting != nil {
		return min(nozzle, p.Melting.Value)
	}
	return nozzle
}

// HottestDrying is the highest temperature that drying goes up to unasked [K]: the usual one, where the strand
// holds.
func (p *Polymer) HottestDrying() float64 { return min(p.DryingTemperature.Value, p.GivesWay().Min) }

func readStructure(t *strict.Table, p *Polymer, complete bool) {
	if complete {
		t.Require("structure")
	}
	if word, ok := t.Choice("structure", structures()); ok {
		p.Structure = Structure(slices.Index(structures(), word))
	}
}
