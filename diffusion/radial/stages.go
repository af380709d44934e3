package radial

import (
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// assemble forms M/(γh) - J, row i: the mass matrix times tau = 1/(γh) less the
// derivative of the balance, and factorises it. The amount lost is eliminated
// beforehand: it adds to the last pivot only.
func (m *March) assemble(tau float64) {
	g, t := &m.Grid.mass, &m.matrix
	last := len(m.y) - 1
	k, s := m.k0, m.slope0
	lower, on, upper := g.lower[:last+1], g.diag[:last+1], g.upper[:last+1]
	before, slope := 0.0, 0.0 // conductance and slope inwards of the row
	for i := range last {
		ki, si := k[i], s[i]
		t.below[i] = tau*lower[i] - before*slope
		t.on[i] = tau*on[i] + (before+ki)*si
		t.above[i] = tau*upper[i] - ki*s[i+1]
		before, slope = ki, si
	}
	m.lastRow = [3]float64{tau * g.far, tau*lower[last] - before*slope, tau*on[last] + before*s[last]}
	if m.given != nil {
		t.far, t.below[last], t.on[last] = 0, 0, 1
	} else {
		e := &m.start
		m.answers = e.dq / (tau - e.dq)
		t.far, t.below[last], t.on[last] = m.lastRow[0], m.lastRow[1], m.lastRow[2]+e.dc*(1+m.answers)
	}
	t.factorise()
	if m.beside.companion != nil {
		m.besideColumn(tau)
	}
}

// solveStage finds the increments of stage i in a step of size h.
func (m *March) solveStage(i int, h float64) {
	t, last, rhs := rosenbrock.Method(), len(m.y)-1, m.u.Field[i]
	flux, lost := m.balance(i, h)
	drift := t.Dt[i] * h * m.start.dt
	row, left := &m.lastRow, rhs[last]+lost
	if m.given != nil {
		rhs[last] = m.given(m.Time+t.Alpha[i]*h) - m.stage[last] + drift
	} else {
		flux += drift
		rhs[last] -= flux + m.answers*(flux+lost)
	}
	m.matrix.solve(rhs)
	if m.beside.companion != nil {
		left += m.besideStage(i, h, flux+lost)
	}
	// What the last row leaves over has left. To take it from the flux would lose
	// the balance where a large film coefficient meets a small difference.
	m.u.Lost.U[i] = (left - row[0]*rhs[last-2] - row[1]*rhs[last-1] - row[2]*rhs[last]) * (t.Gamma * h)
}

// balance leaves the right-hand side of stage i in the place of its increments but for what crosses the surface: the balance of the nodes, the mass matrix times
// Σ (c_ij/h) u_j and the source, and γ_i h times the derivative in time. It gives R j at the stage and the share of the amount lost in that sum.
func (m *March) balance(i int, h float64) (flux, history float64) {
	t, n, rhs := rosenbrock.Method(), len(m.y), m.u.Field[i]
	drift := t.Dt[i] * h
	if i == 0 {
		m.stage[n-1] = m.y[n-1]
		m.u.Beside.Now, m.u.Beside.History, m.beside.now = m.Beside, 0, m.beside.rate(m.start)
		if m.problem.Source == nil { // there is no history yet
			copy(rhs, m.f0)
			m.addRate(rhs, drift)
			return m.start.j, 0
		}
		copy(m.sourceNow, m.source)
		clear(m.sum)
		m.addSource(i, h)
		m.gather(rhs, m.k0, m.g0)
		m.addRate(rhs, drift)
		return m.start.j, 0
	}
	m.u.Stage(i, h, m.y, m.stage, m.sum, m.Lost, m.Beside)
	lost, history := m.u.Lost.Now, m.u.Lost.History
	at := m.Time + t.Alpha[i]*h
	if x := m.u.Beside.Now; t.Alpha[i] != t.Alpha[i-1] || x != m.conducted { // else it is that of the stage before
		m.conductance(at, x, m.k)
		m.conducted = x
	}
	m.problem.Potential.Potential(m.stage, m.g, m.slope)
	if m.problem.Source != nil {
		m.problem.Source(at, m.Grid.r, m.sourceNow)
	}
	flux, load := m.leavingAt(at, m.stage[n-1], lost, m.u.Beside.Now)
	m.addSource(i, h)
	m.gather(rhs, m.k, m.g)
	m.addRate(rhs, drift)
	if m.beside.companion != nil {
		m.beside.now = m.beside.companion.Drift(at, m.u.Beside.Now) + load
	}
	return flux, history
}

// addSource adds the source at stage i to the histories.
func (m *March) addSource(i int, h float64) {
	if m.problem.Source == nil {
		return
	}
	for k := range m.sum {
		m.sum[k] += m.sourceNow[k] + rosenbrock.Method().Dt[i]*h*m.sourceDot[k]
	}
}

// addRate adds the derivative in time at the start, so many times.
func (m *March) addRate(rhs []float64, times float64) {
	if !m.unsteady || times == 0 {
		return
	}
	simd.AddScaled(rhs, m.rate, times)
}

// gather sets the right-hand side to the balance of every node but for the exchange at the surface, as [flow] gives it, plus the mass matrix times
// the histories.
func (m *March) gather(rhs, k, g []float64) {
	a, n, v := &m.Grid.mass, len(rhs), m.sum
	rhs[0] = k[0]*(g[1]-g[0]) + (a.diag[0]*v[0] + a.upper[0]*v[1])
	simd.Gather(rhs, k, g, v, a.lower, a.diag, a.upper)
	rhs[n-1] = a.far*v[n-3] + (a.lower[n-1]*v[n-2] + a.diag[n-1]*v[n-1]) - k[n-2]*(g[n-1]-g[n-2])
}
