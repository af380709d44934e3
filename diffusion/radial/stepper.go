package radial

import (
	"math"

	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// stepper holds the problem at hand and the working memory of a step.
type stepper struct {
	problem  Problem
	exchange Exchange
	foretold Foretold // the conductance, where it tells the derivatives of both
	given    Prescribed
	floor    float64

	y, stage          []float64 // field at the start of the step and at a stage
	g0, slope0        []float64 // potential and its slope at the start
	g, slope          []float64 // and at the stage
	k0, k             []float64 // conductance of the gaps over ln of their radii, at the start and at the stage
	conducted         float64   // companion of that at the stage
	f0                []float64 // balance of the nodes at the start, but for the exchange
	rate              []float64 // derivative of the balance of the nodes in time at the start
	scratch           []float64
	unsteady          bool      // rate is not zero
	changes           float64   // relative change in time of the outermost conductance at the start [1/s]
	sum               []float64 // Σ c_ij u_j / h, and the source
	source, sourceDot []float64 // source and its derivative in time, at the start
	sourceNow         []float64 // source at the stage
	u                 rosenbrock.Unknowns
	ready             bool    // the start of the step has been evaluated, with its derivatives
	scale             float64 // a time over which little changes: the last step, or that in which diffusion crosses the outermost gap [s]

	matrix  tridiagonal // M/(γh) - J, factorised
	lastRow [3]float64  // its last row without the exchange
	answers float64     // share by which the exchange answers to what it brings along in the step
	start   exchanged   // exchange at the start of the step
	beside  beside
	from    Instant // the start of the step, where Along is set
}

// exchanged is R j with its derivatives, and the load on the companion with its own.
type exchanged struct{ j, dc, dq, dt, load, loadC, loadQ float64 }

func (m *March) resize(n int) {
	arrays := [...]*[]float64{&m.y, &m.stage, &m.g0, &m.slope0, &m.g, &m.slope, &m.k0, &m.k, &m.f0, &m.rate, &m.scratch, &m.sum,
		&m.source, &m.sourceDot, &m.sourceNow, &m.beside.column, &m.beside.z,
		&m.matrix.below, &m.matrix.on, &m.matrix.above}
	if cap(m.y) < n {
		block := make([]float64, n*len(arrays))
		for i, p := range arrays {
			*p = block[i*n : i*n : (i+1)*n]
		}
	}
	for _, p := range arrays {
		*p = (*p)[:n]
	}
	m.u.Field.Resize(n)
}

// bind takes up a problem. A prescribed value that differs from the present one is
// set at once.
func (m *March) bind(p Problem, s rosenbrock.Settings) {
	m.problem, m.floor = p, s.Floor
	m.exchange, m.given, m.foretold, m.ready, m.scale = nil, nil, nil, false, 0
	m.beside.companion, m.u.Bordered, m.u.Beside.Next = p.Companion, p.Companion != nil, m.Beside
	m.beside.graded, _ = p.Companion.(Graded)
	switch v := p.Surface.(type) {
	case Exchange:
		m.exchange = v
		m.foretold, _ = p.Conductance.(Foretold)
	case Prescribed:
		m.given = v
		m.jump(v(m.Time) - m.y[len(m.y)-1])
	}
	for i := range m.sourceDot {
		m.source[i], m.sourceDot[i], m.sourceNow[i] = 0, 0, 0
	}
	if m.Along != nil {
		m.evaluateStart()
		m.from = Instant{Time: m.Time, Mean: m.Grid.Mean(m.y), Rate: m.meanRate(m.start.j), Beside: m.Beside, BesideRate: m.beside.rate(m.start)}
	}
}

// meanRate is the change of the mean for an outward R j [1/s].
func (m *March) meanRate(flux float64) float64 {
	return -2 * flux / (m.Grid.Radius() * m.Grid.Radius())
}

// try computes a step of size h [s] from the present state without taking it, and
// gives the estimate of its error relative to the size of the field. It is NaN
// or Inf where the step has failed.
func (m *March) try(h float64) float64 {
	if !m.ready {
		if m.scale == 0 {
			m.scale = h
		}
		m.evaluateStart()
		m.evaluateRates()
		m.ready = true
	}
	m.assemble(1 / (rosenbrock.Method().Gamma * h))
	if !m.matrix.sound() {
		return math.Inf(1)
	}
	for i := range rosenbrock.Stages {
		m.solveStage(i, h)
	}
	r, scale := m.Grid.Radius(), 0.0
	if m.beside.companion != nil {
		scale = m.beside.companion.Scale()
	}
	return m.u.End(m.stage, m.Grid.weight, r*r/2, m.floor, m.Lost, m.Beside, scale)
}

// accept takes the step of h that try has computed, which ends at the time now [s].
func (m *March) accept(h, now float64) {
	copy(m.y, m.stage)
	leaves := (m.u.Lost.Next - m.Lost) / h
	m.Lost, m.Beside = m.u.Lost.Next, m.u.Beside.Next
	m.Time, m.scale = now, h
	m.Stats.Steps++
	m.ready = false
	if m.Along != nil {
		m.along(leaves)
	}
	if m.Observe != nil {
		m.Observe(m.Time, m.C)
	}
}

// along gathers over the step that has been taken, in which R j was leaves in the mean.
func (m *March) along(leaves float64) {
	to := Instant{Time: m.Time, Mean: m.Grid.Mean(m.y), Beside: m.Beside}
	if m.given != nil { // what leaves is known for the step as a whole
		to.Rate = m.meanRate(leaves)
		m.from.Rate = to.Rate
	} else {
		m.evaluateStart()
		m.evaluateRates()
		m.ready = true
		to.Rate, to.BesideRate = m.meanRate(m.start.j), m.beside.rate(m.start)
	}
	m.Gathered += m.Along(m.from, to)
	m.from = to
}

func (m *March) evaluateStart() {
	n := len(m.y)
	m.conductance(m.Time, m.Beside, m.k0)
	m.problem.Potential.Potential(m.y, m.g0, m.slope0)
	flow(m.f0, m.k0[:n-1], m.g0)
	m.start = m.exchangeAt(m.Time, m.y[n-1], m.Lost, m.Beside)
	if m.problem.Source != nil {
		m.problem.Source(m.Time, m.Grid.r, m.source)
	}
	if m.beside.companion != nil {
		m.beside.drift = m.beside.companion.Drift(m.Time, m.Beside)
	}
}

// evaluateRates takes the derivatives in time at fixed field and those on the companion, by small differences where they are not
// known.
func (m *March) evaluateRates() {
	if b := &m.beside; b.companion != nil {
		if b.graded != nil && m.problem.Source == nil {
			m.grades()
			return
		}
		m.besideRates()
		if b.companion.Steady(m.Time) && m.problem.Source == nil {
			m.unsteady, m.changes, m.start.dt, b.rateT = false, 0, 0, 0
			return
		}
	}
	n := len(m.y)
	if m.foretold != nil && m.problem.Source == nil && m.foretell() {
		return
	}
	// The difference must be one that the time can hold.
	later := m.Time + max(m.scale*1e-5, math.Abs(m.Time)*0x1p-40)
	dt := later - m.Time
	m.conductance(later, m.Beside, m.k)
	m.unsteady = false
	for i := range n - 1 {
		m.k[i] = (m.k[i] - m.k0[i]) / dt
		m.unsteady = m.unsteady || m.k[i] != 0
	}
	m.changes = math.Abs(m.k[n-2]) / m.k0[n-2]
	if m.unsteady {
		flow(m.rate, m.k[:n-1], m.g0)
	}
	if m.exchange != nil {
		flux, _ := m.leavingAt(later, m.y[n-1], m.Lost, 0)
		m.start.dt = (flux - m.start.j) / dt
	}
	if m.given != nil {
		m.start.dt = (m.given(later) - m.given(m.Time)) / dt
	}
	if m.problem.Source != nil {
		m.problem.Source(later, m.Grid.r, m.sourceDot)
		for i := range m.sourceDot {
			m.sourceDot[i] = (m.sourceDot[i] - m.source[i]) / dt
		}
	}
	if m.beside.companion != nil {
		m.besideTime(later, dt)
	}
}

// foretell takes the derivatives in time from a conductance that tells them, if it can.
func (m *March) foretell() bool {
	r, last := m.Grid.Radius(), len(m.y)-1
	k, flux, known := m.foretold.Grades(m.Time, m.y[last], m.Lost, m.start.j/r)
	if !known {
		return false
	}
	m.unsteady, m.changes, m.start.dt = k != 0, math.Abs(k), r*flux
	if m.unsteady { // the flows are those at the start, so many times
		simd.Scale(m.rate, m.f0, k)
	}
	return true
}

func (m *March) exchangeAt(t, c, q, x float64) exchanged {
	r := m.Grid.Radius()
	if m.beside.companion != nil {
		e := m.beside.companion.Exchange(t, c, q, x)
		return exchanged{j: r * e.Flux, dc: r * e.FluxC, dq: r * e.FluxQ, load: e.Load, loadC: e.LoadC, loadQ: e.LoadQ}
	}
	if m.exchange == nil {
		return exchanged{}
	}
	j, dc, dq := m.exchange(t, c, q)
	return exchanged{j: r * j, dc: r * dc, dq: r * dq}
}

// leavingAt is R j, and the load on the companion, without their derivatives.
func (m *March) leavingAt(t, c, q, x float64) (flux, load float64) {
	switch r := m.Grid.Radius(); {
	case m.beside.companion != nil:
		e := m.beside.companion.Exchange(t, c, q, x)
		return r * e.Flux, e.Load
	case m.exchange != nil:
		j, _, _ := m.exchange(t, c, q)
		return r * j, 0
	}
	return 0, 0
}

// conductance fills k with the conductance of each gap over ln of its radii.
func (m *March) conductance(t, x float64, k []float64) {
	perLog := m.Grid.perLog
	k = k[:len(perLog)]
	var alike bool
	if m.beside.companion != nil {
		alike = m.beside.companion.Conductance(t, x, k)
	} else {
		alike = m.problem.Conductance.Conductance(t, k)
	}
	if alike {
		simd.Scale(k, perLog, k[0])
		return
	}
	for i, l := range perLog {
		k[i] *= l
	}
}

// flow fills f with the balance of every node but for the exchange at the
// surface: k_i (G[i+1]-G[i]) - k_(i-1) (G[i]-G[i-1]).
func flow(f, k, g []float64) {
	before := 0.0
	for i, ki := range k {
		next := ki * (g[i+1] - g[i])
		f[i] = next - before
		before = next
	}
	f[len(k)] = -before
}

// jump adds a step to the surface value. The integrals of c against the test functions
// of the inner nodes do not jump with it, as the fluxes between the nodes are
// finite: the inner nodes give way, by a tenth of the step at the next one and less
// beyond. What the content changes by is lost through the surface.
func (m *March) jump(step float64) {
	if step == 0 {
		return
	}
	g, x, last := m.Grid, m.scratch, len(m.y)-1
	copy(m.matrix.below, g.lower)
	copy(m.matrix.on, g.diag)
	copy(m.matrix.above, g.upper)
	m.matrix.far, m.matrix.below[last], m.matrix.on[last] = 0, 0, 1
	m.matrix.factorise()
	clear(x)
	x[last] = step
	m.matrix.solve(x)
	for i, d := range x {
		m.y[i] += d
		m.Lost -= g.weight[i] * d
	}
}
