package section

import (
	"math"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// beside is the companion in a step. Its unknown borders the system of the field by a row and a column.
type beside struct {
	companion radial.Companion
	graded    radial.Graded // the same, where it is one

	drift        float64   // at the start
	rateX, rateT float64   // derivatives of dx/dt at the start
	flux         []float64 // derivative of the exchange of the exposed nodes on x
	fluxX        float64   // their sum

	column  []float64 // derivative of the balance of the nodes on x, but for the exchange
	z       []float64 // what the field answers to a unit of x
	zLost   float64   // and the amount lost
	inverse float64   // of the pivot of x

	now float64 // dx/dt at the stage
}

// rate is dx/dt at the start of the step.
func (b *beside) rate(start *exchanged) float64 { return b.drift + start.load }

// besideTime takes the derivative in time, by a difference of dt [s]. The exchange at the later time is in m.later.
func (m *March) besideTime(later, dt float64) {
	b := &m.beside
	b.rateT = (b.companion.Drift(later, m.Beside) - b.drift + m.later.load - m.start.load) / dt
}

// besideRates takes the derivatives on the companion.
func (m *March) besideRates() {
	b := &m.beside
	const small = 1e-6 // of the scale: an error of the same size in the derivative
	dx := max(b.companion.Scale()*small, math.Abs(m.Beside)*0x1p-30)
	x := m.Beside + dx
	dx = x - m.Beside
	m.conductance(m.Time, x, m.k)
	for i, k := range m.k {
		m.k[i] = (k - m.k0[i]) / dx
	}
	m.flow(b.column, m.k, m.g0)
	m.exchangeAt(m.Time, m.skin(m.y), m.Lost, x, &m.later)
	for a, j := range m.later.j {
		b.flux[a] = (j - m.start.j[a]) / dx
	}
	b.fluxX = (m.later.sum - m.start.sum) / dx
	b.rateX = (b.companion.Drift(m.Time, x) - b.drift + m.later.load - m.start.load) / dx
}

// grades takes all derivatives at the start from a companion that knows them.
func (m *March) grades() {
	b, e := &m.beside, &m.start
	last := len(m.k) - 1
	byTime, byX := m.k, m.scratch[:last+1]
	if b.graded.ConductanceGrades(m.Time, m.Beside, byTime, byX) { // the flows are those at the start, so many times
		m.unsteady, m.changes = byTime[0] != 0, math.Abs(byTime[0])
		for i, f := range m.f0 {
			m.rate[i], b.column[i] = byTime[0]*f, byX[0]*f
		}
	} else {
		m.unsteady, m.changes = true, math.Abs(byTime[last])
		for i, k := range m.k0 {
			byTime[i], byX[i] = byTime[i]*k, byX[i]*k
		}
		m.flow(b.column, byX, m.g0)
		m.flow(m.rate, byTime, m.g0)
	}
	r, skin := m.Grid.radial.Radius(), m.skin(m.y)
	b.rateT, b.rateX = b.graded.DriftGrades(m.Time, m.Beside)
	b.fluxX, e.sumDt = 0, 0
	for a, open := range m.Grid.open[:m.Grid.exposed] {
		byTime, byX := b.graded.ExchangeGrades(m.Time, skin[a], m.Lost, m.Beside, e.response[a])
		e.dt[a], b.flux[a] = r*open*byTime.Flux, r*open*byX.Flux
		e.sumDt, b.fluxX = e.sumDt+e.dt[a], b.fluxX+b.flux[a]
		b.rateT, b.rateX = b.rateT+open*byTime.Load, b.rateX+open*byX.Load
	}
}

// besideColumn solves for the column of the companion once the field's matrix is factorised.
func (m *March) besideColumn(tau float64) {
	b, e := &m.beside, &m.start
	copy(b.z, b.column)
	skin := m.skin(b.z)
	for a, f := range b.flux {
		skin[a] -= f + e.dq[a]*b.fluxX/(tau-e.sumDq)
	}
	m.matrix.solve(b.z)
	loss, load := b.fluxX, 0.0
	for a, dc := range e.dc {
		loss += dc * skin[a]
		load += e.loadC[a] * skin[a]
	}
	b.zLost = loss / (tau - e.sumDq)
	b.inverse = 1 / (tau - b.rateX - load - e.loadQ*b.zLost)
}

// besideStage finds the increment of the companion in stage i and corrects those of the field, u, by it. leaving is
// the exchange with what the amount lost brings along. It gives what the conductances add to the balance of the surface.
func (m *March) besideStage(i int, h, leaving float64, u []float64) float64 {
	b, e, skin := &m.beside, &m.start, m.skin(u)
	tau := 1 / (rosenbrock.Method().Gamma * h)
	loss, load := leaving, 0.0
	for a, dc := range e.dc {
		loss += dc * skin[a]
		load += e.loadC[a] * skin[a]
	}
	x := (b.now + m.u.Beside.History + rosenbrock.Method().Dt[i]*h*b.rateT + load + e.loadQ*loss/(tau-e.sumDq)) * b.inverse
	m.u.Beside.U[i] = x
	simd.AddScaled(u, b.z, x)
	sum := 0.0
	for _, v := range m.skin(b.column) {
		sum += v
	}
	return sum * x
}
