package radial

import "math"

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
		e := m.start
		t.far, t.below[last], t.on[last] = m.lastRow[0], m.lastRow[1], m.lastRow[2]+e.dc*tau/(tau-e.dq)
	}
	t.factorise()
	if m.beside.companion != nil {
		m.besideColumn(tau)
	}
}

// solveStage finds the increments of stage i in a step of size h.
func (m *March) solveStage(i int, h float64) {
	t, last := m.method, len(m.y)-1
	flux, lost := m.balance(i, h)
	rhs := m.rhs
	if i == 0 && m.problem.Source == nil {
		copy(rhs, m.f) // there is no history yet
	} else {
		m.Grid.apply(rhs, m.f, m.sum)
	}
	if m.unsteady {
		for j, r := range m.rate {
			rhs[j] += t.Dt[i] * h * r
		}
	}
	tau, e := 1/(t.Gamma*h), m.start
	drift := t.Dt[i] * h * e.dt
	row, left := m.lastRow, rhs[last]+lost
	if m.given != nil {
		rhs[last] = m.given(m.Time+t.Alpha[i]*h) - m.stage[last] + drift
	} else {
		flux += drift
		rhs[last] -= flux + e.dq*(flux+lost)/(tau-e.dq)
	}
	m.matrix.solve(rhs)
	if m.beside.companion != nil {
		left += m.besideStage(i, h, flux+lost, rhs)
	}
	// What the last row leaves over has left. To take it from the flux would lose
	// the balance where a large film coefficient meets a small difference.
	m.uLost[i] = (left - row[0]*rhs[last-2] - row[1]*rhs[last-1] - row[2]*rhs[last]) / tau
	for j, u := range rhs {
		m.u[j][i] = u
	}
}

// balance leaves the field of stage i in m.stage, the balance of its nodes in m.f
// and Σ (c_ij/h) u_j with the source in m.sum. It gives R j at the stage and the
// share of the amount lost in that sum.
func (m *March) balance(i int, h float64) (flux, history float64) {
	t, n := m.method, len(m.y)
	if i == 0 {
		copy(m.stage, m.y)
		flow(m.f, m.k0[:n-1], m.g0)
		copy(m.sourceNow, m.source)
		m.addSource(i, h)
		m.beside.stage, m.beside.history, m.beside.now = m.Beside, 0, m.beside.rate(m.start)
		return m.start.j, 0
	}
	lost, history := m.combine(i, h)
	if !t.Fresh[i] {
		m.addSource(i, h)
		return m.start.j, history
	}
	at := m.Time + t.Alpha[i]*h
	m.conductance(at, m.beside.stage, m.k)
	m.problem.Potential.Potential(m.stage, m.g, m.slope)
	flow(m.f, m.k[:n-1], m.g)
	if m.problem.Source != nil {
		m.problem.Source(at, m.Grid.r, m.sourceNow)
	}
	m.addSource(i, h)
	now := m.exchangeAt(at, m.stage[n-1], lost, m.beside.stage)
	if m.beside.companion != nil {
		m.beside.now = m.beside.companion.Drift(at, m.beside.stage) + now.load
	}
	return now.j, history
}

func (m *March) addSource(i int, h float64) {
	if i == 0 {
		clear(m.sum)
	}
	if m.problem.Source == nil {
		return
	}
	for k := range m.sum {
		m.sum[k] += m.sourceNow[k] + m.method.Dt[i]*h*m.sourceDot[k]
	}
}

// combine sets m.stage to y + Σ a_ij u_j and m.sum to Σ (c_ij/h) u_j, and gives the
// same of the amount lost. The coefficients are taken all at once: those beyond the
// stage are zero, and the increments of the last step that they meet are finite.
// In both methods the last stage stands one increment further than the one before.
func (m *March) combine(i int, h float64) (lost, history float64) {
	a, c, per := &m.method.A[i], &m.method.C[i], 1/h
	a0, a1, a2, a3 := a[0], a[1], a[2], a[3]
	c0, c1, c2, c3, c4 := c[0]*per, c[1]*per, c[2]*per, c[3]*per, c[4]*per
	n := len(m.y)
	stage, sum, y := m.stage[:n], m.sum[:n], m.y
	if i == m.method.Stages-1 {
		for k := range m.u[:n] {
			u := &m.u[k]
			stage[k] += u[i-1]
			sum[k] = (c0*u[0] + c1*u[1]) + (c2*u[2] + c3*u[3]) + c4*u[4]
		}
	} else {
		for k := range m.u[:n] {
			u := &m.u[k]
			stage[k] = y[k] + (a0*u[0] + a1*u[1]) + (a2*u[2] + a3*u[3])
			sum[k] = (c0*u[0] + c1*u[1]) + (c2*u[2] + c3*u[3])
		}
	}
	lost = m.Lost
	for j := range i {
		lost += a[j] * m.uLost[j]
		history += c[j] * per * m.uLost[j]
	}
	if m.beside.companion != nil {
		m.beside.combine(m.Beside, a[:i], c[:i], per)
	}
	return lost, history
}

// finish leaves the field at the end of the step in m.stage, one increment further
// than the last stage, and gives the error estimate, which is that increment: root mean
// squares over the section, error over field.
func (m *March) finish() float64 {
	t := m.method
	last := t.Stages - 1
	errors, field := 0.0, 0.0
	n := len(m.y)
	stage, weight := m.stage[:n], m.Grid.weight[:n]
	for k := range m.u[:n] {
		e := m.u[k][last]
		v := stage[k] + e
		stage[k] = v
		errors += weight[k] * e * e
		field += weight[k] * v * v
	}
	m.newLost = m.Lost
	for j := range t.Stages {
		m.newLost += t.Advance[j] * m.uLost[j]
	}
	if !(field < math.Inf(1)) { // true for NaN too
		return math.Inf(1)
	}
	whole := m.Grid.Radius() * m.Grid.Radius() / 2
	scale := max(math.Sqrt(field/whole), m.floor)
	size := math.Sqrt(errors / whole)
	if scale > 0 { // a field of nothing has no size
		size /= scale
	}
	if m.beside.companion != nil {
		size = max(size, m.beside.finish(t, m.Beside))
	}
	return size
}
