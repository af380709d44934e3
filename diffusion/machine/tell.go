package machine

import (
	"fmt"
	"math"

	"strandry/diffusion"
)

// Tell gives what the dryer takes for a design and the result of its march, the machine's chambers being those of the path in their order. The march is used to look for
// flows of air that do not matter any more, by rougher marches of the same design; nil where they are not asked for. An error says what cannot be computed, and why.
func Tell(march *diffusion.March, d *diffusion.Design, r *diffusion.Result, m *Machine) (*Answer, error) {
	if len(m.Chambers) != len(d.Path) || len(r.Zones) != len(d.Path) {
		return nil, fmt.Errorf("machine: %d chambers and %d results for %d zones: there must be one for each", len(m.Chambers), len(r.Zones), len(d.Path))
	}
	a := &Answer{Assumed: m.Assumed}
	for i := range m.Chambers {
		h, err := m.housed(d, r, i)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m.Chambers[i].Name, err)
		}
		a.Chambers = append(a.Chambers, h)
		a.Power += math.Max(0, h.Steady.Heater)
	}
	flow := m.strandFlow(d)
	if flow > 0 {
		a.PerKilo = a.Power / flow
	}
	if march != nil {
		m.flows(march, d, r, a)
	}
	if err := m.fill(d, a); err != nil {
		return nil, err
	}
	if err := m.draw(d, r, a); err != nil {
		return nil, err
	}
	a.Pause = pause(d, r, m)
	if march != nil && a.Pause.Told {
		a.Pause.Dries = m.dries(march, d, r, &a.Pause)
	}
	m.count(a, flow)
	m.warn(a)
	return a, nil
}

// strandFlow is the dry polymer that all strands carry through the machine [kg/s]; those of the chamber with most count.
func (m *Machine) strandFlow(d *diffusion.Design) float64 {
	most := 1
	for i := range d.Path {
		most = max(most, d.Path[i].Air.Strands)
	}
	return float64(most) * oneFlow(d)
}

// oneFlow is the dry polymer that one strand carries [kg/s].
func oneFlow(d *diffusion.Design) float64 {
	return math.Pi * d.Radius * d.Radius * d.Material.Density.Value * d.Speed
}
