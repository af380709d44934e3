package cheapest

import (
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/scenarios"
)

// Demand is what a design has to meet.
type Demand int

// The demands. The first two are made of every design, the others where the scenario states what they go by.
const (
	Dry      Demand = iota // nine times in ten
	Cool                   // no air and no strand hotter than the strand bears
	Fits                   // each chamber into the box
	Bends                  // no sharper than the least radius
	Pulled                 // by the feeder, even if all that holds the strand back is at its most
	Heated                 // by the heaters that are stated
	Supplied               // the desiccant, fresh, holds the air that is stated
	demands  = iota
)

func (d Demand) String() string {
	return [...]string{"dry nine times in ten", "no hotter than the strand bears", "fits the box", "least bend radius", "pull of the feeder", "power of the heater", "what the desiccant holds"}[d]
}

// demandsOf are those that are made of the designs of a scenario.
func demandsOf(s *scenarios.Scenario) []Demand {
	m := &s.Machine
	all := []Demand{Dry, Cool}
	made := [demands]bool{Fits: m.Box != machine.Box{}, Bends: m.LeastBend > 0, Pulled: m.Pull.Feeder > 0, Heated: hasHeater(m), Supplied: m.Bed.Mass > 0}
	for d := Fits; d < demands; d++ {
		if made[d] {
			all = append(all, d)
		}
	}
	return all
}

func hasHeater(m *machine.Machine) bool {
	return slices.ContainsFunc(m.Chambers, func(c machine.Chamber) bool { return c.Heater > 0 })
}

// violation is by how much a demand is not met, zero or less where it is, in shares of what is allowed or thereabouts.
func violation(d Demand, m *machine.Machine, e diffusion.Endurance, o *diffusion.Odds, a *machine.Answer) float64 {
	const usual = 10 // [K], which is much for a strand
	switch d {
	case Dry:
		return math.Log(o.Ratio.High)
	case Cool:
		return e.Excess().Bear / usual
	case Fits:
		return beyondBox(m, a)
	case Bends:
		if a.Pull.Radius == 0 {
			return -1
		}
		return m.LeastBend/a.Pull.Radius - 1
	case Pulled:
		return a.Pull.Result.Pull.High/m.Pull.Feeder - 1
	case Heated:
		worst := -1.0
		for i := range a.Chambers {
			if h := &a.Chambers[i]; h.Heated && h.Heater > 0 {
				worst = max(worst, h.Steady.Heater/h.Heater-1)
			}
		}
		return worst
	}
	if !a.Bed.Used || a.Bed.Fresh <= 0 {
		return -1
	}
	return math.Log(a.Bed.Fresh / a.Bed.Target)
}

// beyondBox is the share by which a side of a chamber is greater than that of the box, sides in order, where that is worst.
func beyondBox(m *machine.Machine, a *machine.Answer) float64 {
	worst := -1.0
	room := sorted(m.Box.Length, m.Box.Width, m.Box.Height)
	for i := range a.Chambers {
		h := &a.Chambers[i]
		if !h.Boxed {
			continue
		}
		const hair = 1e-9 // [m]
		for k, side := range sorted(h.Outer[0], h.Outer[1], h.Outer[2]) {
			worst = max(worst, (side-hair)/room[k]-1)
		}
	}
	return worst
}

func sorted(a, b, c float64) [3]float64 {
	all := [3]float64{a, b, c}
	slices.Sort(all[:])
	return all
}
