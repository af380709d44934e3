package radial

import (
	"math"

	"strandry/diffusion/rosenbrock"
)

// beginning tells of the state at the beginning of a march. It leaves the start of the first step evaluated.
func (m *March) beginning() rosenbrock.Beginning {
	m.evaluateStart()
	g, last := m.Grid, len(m.y)-1
	leads := m.k0[last-1] * max(m.slope0[last-1], m.slope0[last])
	m.scale = g.Spacing() * g.Spacing() * g.perLog[last-1] / leads
	m.evaluateRates()
	m.ready = true
	b := rosenbrock.Beginning{Changes: m.changes, Crossing: m.scale}
	if c := m.beside.companion; c != nil {
		b.Changes += math.Abs(m.beside.rate(m.start)) / c.Scale()
	}
	size := rosenbrock.Size(m.y, g.weight, g.Radius()*g.Radius()/2, m.floor)
	off, rate := 0.0, 0.0 // by which the surface stands off what its surroundings ask for, and how fast that changes
	switch {
	case m.given != nil:
		off, rate = m.y[last]-m.y[last-1], m.start.dt
	case m.start.dc > 0:
		off, rate, leads = m.start.j/m.start.dc, m.start.dt/m.start.dc, leads+m.start.dc
	}
	b.Answer = g.weight[last] / leads
	b.Surface(off, rate, m.y[last], size, g.Spacing()/g.Radius())
	return b
}
