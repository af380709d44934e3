package section

import (
	"math"

	"strandry/diffusion/rosenbrock"
)

// beginning tells of the state at the beginning of a march, as in package radial. It leaves the start of the first
// step evaluated.
func (m *March) beginning() rosenbrock.Beginning {
	m.evaluateStart()
	g, r := m.Grid.radial, m.Grid.radial.Radius()
	outermost, angles := len(m.k0)-1, m.Grid.Angles()
	skin, inner := m.skin(m.slope0), m.slope0[outermost*angles:]
	m.scale = g.Spacing() * g.Spacing() / (m.k0[outermost] * max(skin[0], inner[0]))
	m.evaluateRates()
	m.ready = true
	b := rosenbrock.Beginning{Changes: m.changes, Crossing: m.scale}
	if c := m.beside.companion; c != nil {
		b.Changes += math.Abs(m.beside.rate(&m.start)) / c.Scale()
	}
	off, drift, whole := 0.0, 0.0, 0.0
	b.Answer = math.Inf(1)
	for a, dc := range m.start.dc {
		open := m.Grid.open[a]
		if !(dc > 0) {
			continue
		}
		step := m.start.j[a] / dc
		off, drift, whole = off+open*step*step, drift+m.start.dt[a], whole+dc
		leads := m.k0[outermost]*g.PerLog(outermost)*max(skin[a], inner[a]) + dc/open
		b.Answer = min(b.Answer, g.Weights()[outermost+1]/leads)
	}
	if whole > 0 {
		size := rosenbrock.Size(m.y, m.Grid.weight, r*r/2, m.floor)
		b.Surface(math.Sqrt(off), drift/whole, m.Grid.Skin(m.y), size, g.Spacing()/r)
	}
	return b
}
