package radial

import "math"

// factorise forms M/(γh) - J, row i: the mass matrix times tau = 1/(γh) less the
// derivative of the balance, and eliminates downwards. The amount lost is
// eliminated beforehand: it adds to the last pivot only.
func (m *March) factorise(tau float64) {
	g, n := m.Grid, len(m.y)
	k, s := m.k0, m.slope0
	before := 0.0
	for i := range n - 1 {
		pivot := tau*g.diag[i] + (before+k[i])*s[i]
		if i > 0 {
			m.mult[i] = (tau*g.lower[i] - before*s[i-1]) * m.inv[i-1]
			pivot -= m.mult[i] * m.above[i-1]
		}
		m.above[i] = tau*g.upper[i] - k[i]*s[i+1]
		m.inv[i] = 1 / pivot
		before = k[i]
	}
	m.lastRow = [3]float64{tau * g.far, tau*g.lower[n-1] - before*s[n-2], tau*g.diag[n-1] + before*s[n-1]}
	e := m.start
	m.farMult = m.lastRow[0] * m.inv[n-3]
	m.mult[n-1] = (m.lastRow[1] - m.farMult*m.above[n-3]) * m.inv[n-2]
	pivot := m.lastRow[2] + e.dc*tau/(tau-e.dq)
	m.inv[n-1] = 1 / (pivot - m.mult[n-1]*m.above[n-2])
}

// solveStage finds the increments of stage i in a step of size h.
func (m *March) solveStage(i int, h float64) {
	t, n := m.method, len(m.y)
	flux := m.balance(i, h) // R j at the stage
	lost := m.history(i, h)
	rhs := m.u[i]
	m.Grid.applyMass(rhs, m.sum)
	for j := range rhs {
		rhs[j] += m.f[j] + t.dt[i]*h*m.rate[j]
	}
	tau := 1 / (t.gamma * h)
	if m.given != nil {
		cs := m.given(m.Time+t.alpha[i]*h) - m.stage[n-1] + t.dt[i]*h*m.start.dt
		m.solvePrescribed(i, cs, lost, tau)
		return
	}
	e := m.start
	flux += t.dt[i] * h * e.dt
	rhs[n-1] -= flux + e.dq*(flux+lost)/(tau-e.dq)
	m.eliminate(rhs, n)
	rhs[n-1] *= m.inv[n-1]
	m.substitute(rhs, n-1)
	m.uLost[i] = (flux + lost + e.dc*rhs[n-1]) / (tau - e.dq)
}

// solvePrescribed finds the increments where that of the surface node is known;
// the last row then tells what has left.
func (m *March) solvePrescribed(i int, surface, lost, tau float64) {
	n, rhs := len(m.y), m.u[i]
	last := rhs[n-1]
	rhs[n-1] = surface
	m.eliminate(rhs, n-1)
	m.substitute(rhs, n-1)
	row := m.lastRow
	m.uLost[i] = (last + lost - row[0]*rhs[n-3] - row[1]*rhs[n-2] - row[2]*surface) / tau
}

// eliminate carries the first n right-hand sides downwards.
func (m *March) eliminate(rhs []float64, n int) {
	for i := 1; i < n; i++ {
		rhs[i] -= m.mult[i] * rhs[i-1]
	}
	if n == len(rhs) {
		rhs[n-1] -= m.farMult * rhs[n-3]
	}
}

// substitute carries the solution upwards from a known rhs[n].
func (m *March) substitute(rhs []float64, n int) {
	for i := n - 1; i >= 0; i-- {
		rhs[i] = (rhs[i] - m.above[i]*rhs[i+1]) * m.inv[i]
	}
}

// balance leaves the field of stage i in m.stage and the balance of its nodes
// in m.f, and gives R j there.
func (m *March) balance(i int, h float64) float64 {
	t, n := m.method, len(m.y)
	if i == 0 {
		copy(m.stage, m.y)
		flow(m.f, m.k0[:n-1], m.g0)
		copy(m.sourceNow, m.source)
		return m.start.j
	}
	lost := m.combine(i)
	if !t.fresh[i] {
		return m.start.j
	}
	at := m.Time + t.alpha[i]*h
	m.conductance(at, m.k)
	m.problem.Potential.Potential(m.stage, m.g, m.slope)
	flow(m.f, m.k[:n-1], m.g)
	if m.problem.Source != nil {
		m.problem.Source(at, m.Grid.r, m.sourceNow)
	}
	return m.exchangeAt(at, m.stage[n-1], lost).j
}

// combine sets m.stage to y + Σ a_ij u_j and gives the same of the amount lost.
func (m *March) combine(i int) float64 {
	copy(m.stage, m.y)
	lost := m.Lost
	for j, a := range m.method.a[i][:i] {
		if a == 0 {
			continue
		}
		for k, u := range m.u[j] {
			m.stage[k] += a * u
		}
		lost += a * m.uLost[j]
	}
	return lost
}

// history sets m.sum to Σ (c_ij/h) u_j and the source, and gives the same of the
// amount lost.
func (m *March) history(i int, h float64) float64 {
	for k := range m.sum {
		m.sum[k] = m.sourceNow[k] + m.method.dt[i]*h*m.sourceDot[k]
	}
	lost := 0.0
	for j, c := range m.method.c[i][:i] {
		c /= h
		for k, u := range m.u[j] {
			m.sum[k] += c * u
		}
		lost += c * m.uLost[j]
	}
	return lost
}

// finish leaves the field at the end of the step in m.stage and gives the error
// estimate: root mean squares over the section, error over field.
func (m *March) finish() float64 {
	t := m.method
	copy(m.stage, m.y)
	m.newLost = m.Lost
	for j := range t.stages {
		a := t.advance[j]
		for k, u := range m.u[j] {
			m.stage[k] += a * u
		}
		m.newLost += a * m.uLost[j]
	}
	errors, field, whole := 0.0, 0.0, 0.0
	last := m.u[t.stages-1] // both methods: the last increment is the error
	for k, w := range m.Grid.weight {
		errors += w * last[k] * last[k]
		field += w * m.stage[k] * m.stage[k]
		whole += w
	}
	scale := math.Max(math.Sqrt(field/whole), m.floor)
	if scale == 0 {
		return math.Sqrt(errors)
	}
	return math.Sqrt(errors/whole) / scale
}
