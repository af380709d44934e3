package section

import "math"

// assemble forms M/(γh) - J: the mass matrix times tau = 1/(γh) less the derivative of the balance, and factorises
// it. The amount lost is eliminated beforehand: it adds to the last block only. False where that fails.
func (m *March) assemble(tau float64) bool {
	g, t := m.Grid, &m.matrix
	lower, diag, upper, far := g.radial.Mass()
	angles, n := g.Angles(), len(diag)
	block, size := angles*angles, 2*angles
	clear(t.on)
	for i := range n {
		for a, share := range g.share {
			t.on[i*block+a*angles+a] += tau * diag[i] * share
		}
		if i == n-1 {
			break
		}
		k, q := m.k0[i], g.gaps[i*size*size:(i+1)*size*size]
		inner, outer := m.slope0[i*angles:(i+1)*angles], m.slope0[(i+1)*angles:(i+2)*angles]
		own, above := t.on[i*block:(i+1)*block], t.above[i*block:(i+1)*block]
		below, next := t.below[(i+1)*block:(i+2)*block], t.on[(i+1)*block:(i+2)*block]
		for a := range angles {
			near, away := q[a*size:(a+1)*size], q[(angles+a)*size:(angles+a+1)*size]
			for b := range angles {
				at := a*angles + b
				own[at] -= k * near[b] * inner[b]
				above[at] = -k * near[angles+b] * outer[b]
				below[at] = -k * away[b] * inner[b]
				next[at] -= k * away[angles+b] * outer[b]
			}
			above[a*angles+a] += tau * upper[i] * g.share[a]
			below[a*angles+a] += tau * lower[i+1] * g.share[a]
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
	t, rhs := m.method, m.rhs
	now, lost := m.balance(i, h)
	if i == 0 {
		copy(rhs, m.f) // there is no history yet
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
	m.uLost[i] = left / tau
	for j, u := range rhs {
		m.u[j][i] = u
	}
}

// balance leaves the field of stage i in m.stage, the balance of its nodes in m.f and Σ (c_ij/h) u_j in
// m.sum. It gives the exchange at the stage and the share of the amount lost in that sum.
func (m *March) balance(i int, h float64) (now *exchanged, history float64) {
	t := m.method
	if i == 0 {
		copy(m.stage, m.y)
		m.flow(m.f, m.k0, m.g0)
		m.beside.stage, m.beside.history, m.beside.now = m.Beside, 0, m.beside.rate(&m.start)
		return &m.start, 0
	}
	lost, history := m.combine(i, h)
	if !t.Fresh[i] {
		return &m.start, history
	}
	at := m.Time + t.Alpha[i]*h
	m.conductance(at, m.beside.stage, m.k)
	m.potential(m.stage, m.g, m.slope)
	m.flow(m.f, m.k, m.g)
	m.exchangeAt(at, m.skin(m.stage), lost, m.beside.stage, &m.later)
	if m.beside.companion != nil {
		m.beside.now = m.beside.companion.Drift(at, m.beside.stage) + m.later.load
	}
	return &m.later, history
}

// applyMass sets out to f plus the mass matrix times v.
func (g *Grid) applyMass(out, f, v []float64) {
	lower, diag, upper, far := g.radial.Mass()
	n, m := len(diag), len(g.share)
	for i := range n {
		here, result, balance := v[i*m:(i+1)*m], out[i*m:(i+1)*m], f[i*m:(i+1)*m]
		before, after, third := here, here, here
		l, u, t := lower[i], upper[i], 0.0
		if i > 0 {
			before = v[(i-1)*m : i*m]
		}
		if i < n-1 {
			after = v[(i+1)*m : (i+2)*m]
		} else {
			third, t = v[(n-3)*m:(n-2)*m], far
		}
		for a, share := range g.share {
			result[a] = balance[a] + share*(l*before[a]+diag[i]*here[a]+u*after[a]+t*third[a])
		}
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
	r := m.Grid.radial.Radius()
	whole := r * r / 2
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
