package section

import (
	"math"

	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// assemble forms M/(γh) - J: the mass matrix times tau = 1/(γh) less the derivative of the balance, and factorises
// it. The amount lost is eliminated beforehand: it adds to the last block only. False where that fails.
func (m *March) assemble(tau float64) bool {
	g, t := m.Grid, &m.matrix
	lower, diag, upper, far := g.radial.Mass()
	n := len(diag)
	clear(t.on)
	for i := range n - 1 {
		m.join(i)
	}
	step := g.Angles() + 1 // along the diagonal of a block
	for i := range n {
		on, above, below := t.at(t.on, i), t.at(t.above, i), t.at(t.below, i)
		for a, share := range g.share {
			on[a*step] += tau * diag[i] * share
			above[a*step] += tau * upper[i] * share
			below[a*step] += tau * lower[i] * share
		}
	}
	m.closeLast(tau, far, lower[n-1], diag[n-1])
	if !t.factorise() {
		return false
	}
	if m.beside.companion != nil {
		m.besideColumn(tau)
	}
	return true
}

// join takes the derivative of the flows between circles i and i+1 from the rows of both.
func (m *March) join(i int) {
	g, t, angles := m.Grid, &m.matrix, m.Grid.Angles()
	size := 2 * angles
	k, q := m.k0[i], g.gaps[i*size*size:(i+1)*size*size]
	inner, outer := m.slope0[i*angles:(i+1)*angles], m.slope0[(i+1)*angles:(i+2)*angles]
	own, above, below, next := t.at(t.on, i), t.at(t.above, i), t.at(t.below, i+1), t.at(t.on, i+1)
	if angles == CoarseAngles {
		simd.Join((*[16]float64)(own), (*[16]float64)(above), (*[16]float64)(below), (*[16]float64)(next), (*[64]float64)(q), k,
			(*[4]float64)(inner), (*[4]float64)(outer))
		return
	}
	for a := range angles {
		near, away := q[a*size:(a+1)*size], q[(angles+a)*size:(angles+a+1)*size]
		for b := range angles {
			at := a*angles + b
			own[at] -= k * near[b] * inner[b]
			above[at] = -k * near[angles+b] * outer[b]
			below[at] = -k * away[b] * inner[b]
			next[at] -= k * away[angles+b] * outer[b]
		}
	}
}

// closeLast adds the exchange and the further block to the last row, and keeps the sum of its rows without the exchange.
func (m *March) closeLast(tau, far, lower, diag float64) {
	g, e := m.Grid, &m.start
	angles, n := g.Angles(), g.radial.Len()
	k := m.k0[n-2] / math.Log(g.radial.Node(n-1)/g.radial.Node(n-2))
	for a, share := range g.share {
		m.matrix.far[a] = tau * far * share
		m.last[0][a] = share * tau * far
		m.last[1][a] = share * (tau*lower - k*m.slope0[(n-2)*angles+a])
		m.last[2][a] = share * (tau*diag + k*m.slope0[(n-1)*angles+a])
	}
	on := m.matrix.on[(n-1)*angles*angles:]
	for a, dc := range e.dc {
		on[a*angles+a] += dc
		if dq := e.dq[a]; dq != 0 {
			for b, other := range e.dc {
				on[a*angles+b] += dq * other / (tau - e.sumDq)
			}
		}
	}
}

// solveStage finds the increments of stage i in a step of size h.
func (m *March) solveStage(i int, h float64) {
	t, rhs := rosenbrock.Method(), m.u.Field[i]
	now, lost := m.balance(i, h)
	if i == 0 {
		copy(rhs, m.f0) // there is no history yet
	} else {
		m.Grid.applyMass(rhs, m.f, m.sum)
	}
	if m.unsteady {
		for j, r := range m.rate {
			rhs[j] += t.Dt[i] * h * r
		}
	}
	tau, e := 1/(t.Gamma*h), &m.start
	skin := m.skin(rhs)
	left := lost
	for _, v := range skin {
		left += v
	}
	leaving := now.sum + t.Dt[i]*h*e.sumDt + lost
	for a, j := range now.j {
		skin[a] -= j + t.Dt[i]*h*e.dt[a] + e.dq[a]*leaving/(tau-e.sumDq)
	}
	m.matrix.solve(rhs)
	if m.beside.companion != nil {
		left += m.besideStage(i, h, leaving, rhs)
	}
	// What the last rows leave over has left. To take it from the flux would lose
	// the balance where a large film coefficient meets a small difference.
	angles := m.Grid.Angles()
	outer := rhs[len(rhs)-3*angles:]
	for a := range angles {
		left -= m.last[0][a]*outer[a] + m.last[1][a]*outer[angles+a] + m.last[2][a]*outer[2*angles+a]
	}
	m.u.Lost.U[i] = left / tau
}

// balance leaves the field of stage i in m.stage, the balance of its nodes in m.f and Σ (c_ij/h) u_j in
// m.sum. It gives the exchange at the stage and the share of the amount lost in that sum.
func (m *March) balance(i int, h float64) (now *exchanged, history float64) {
	t := rosenbrock.Method()
	if i == 0 {
		copy(m.stage, m.y)
		m.u.Beside.Now, m.u.Beside.History, m.beside.now = m.Beside, 0, m.beside.rate(&m.start)
		return &m.start, 0
	}
	m.u.Stage(i, h, m.y, m.stage, m.sum, m.Lost, m.Beside)
	lost, history := m.u.Lost.Now, m.u.Lost.History
	at := m.Time + t.Alpha[i]*h
	m.conductance(at, m.u.Beside.Now, m.k)
	m.potential(m.stage, m.g, m.slope)
	m.flow(m.f, m.k, m.g)
	m.exchangeAt(at, m.skin(m.stage), lost, m.u.Beside.Now, &m.later)
	if m.beside.companion != nil {
		m.beside.now = m.beside.companion.Drift(at, m.u.Beside.Now) + m.later.load
	}
	return &m.later, history
}

// applyMass sets out to f plus the mass matrix times v.
func (g *Grid) applyMass(out, f, v []float64) {
	lower, diag, upper, far := g.radial.Mass()
	n, m := len(diag), len(g.share)
	circle := func(of []float64, i int) []float64 { return of[i*m : (i+1)*m] }
	first, second := circle(v, 0), circle(v, 1)
	for a, share := range g.share {
		out[a] = f[a] + share*(diag[0]*first[a]+upper[0]*second[a])
	}
	if m == CoarseAngles {
		simd.Mass(out, f, v, lower, diag, upper, (*[4]float64)(g.share))
	} else {
		for i := 1; i < n-1; i++ {
			before, here, after, result, balance := circle(v, i-1), circle(v, i), circle(v, i+1), circle(out, i), circle(f, i)
			for a, share := range g.share {
				result[a] = balance[a] + share*(lower[i]*before[a]+diag[i]*here[a]+upper[i]*after[a])
			}
		}
	}
	third, before, here, result, balance := circle(v, n-3), circle(v, n-2), circle(v, n-1), circle(out, n-1), circle(f, n-1)
	for a, share := range g.share {
		result[a] = balance[a] + share*(lower[n-1]*before[a]+diag[n-1]*here[a]+far*third[a])
	}
}
