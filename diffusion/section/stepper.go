package section

import (
	"math"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// stepper holds the problem at hand and the working memory of a step.
type stepper struct {
	problem  radial.Problem
	exchange radial.Exchange
	floor    float64

	y, stage   []float64 // field at the start of the step and at a stage
	g0, slope0 []float64 // potential and its slope at the start
	g, slope   []float64 // and at the stage
	k0, k      []float64 // conductance of the gaps, at the start and at the stage
	f0, f      []float64 // balance of the nodes at the start and at the stage, but for the exchange
	rate       []float64 // its derivative in time at the start
	scratch    []float64
	unsteady   bool      // rate is not zero
	changes    float64   // relative change in time of the outermost conductance at the start [1/s]
	sum        []float64 // Σ c_ij u_j / h
	u          rosenbrock.Unknowns
	ready      bool    // the start of the step has been evaluated, with its derivatives
	scale      float64 // a time over which little changes: the last step, or that in which diffusion crosses the outermost gap [s]

	matrix blocks       // M/(γh) - J, factorised
	last   [3][]float64 // the sum of its last rows without the exchange, on the three outermost circles
	start  exchanged    // exchange at the start of the step
	later  exchanged    // and at another time or stage
	beside beside
	from   radial.Instant // the start of the step, where Along is set
}

// exchanged is the exchange of the exposed nodes, R j times their shares, with its derivatives, and the load on the companion
// with its own; sum, dq and load are those of all of them.
type exchanged struct {
	j, dc, dq, dt, loadC []float64
	sum, sumDq           float64
	sumDt                float64
	load, loadQ          float64
	response             []radial.Response // of each of them
}

func (m *March) resize(g *Grid) {
	n, angles, radii := g.Len(), g.Angles(), g.radial.Len()
	fields := [...]*[]float64{&m.y, &m.stage, &m.g0, &m.slope0, &m.g, &m.slope, &m.f0, &m.f, &m.rate, &m.scratch, &m.sum, &m.beside.column, &m.beside.z}
	for _, p := range fields {
		*p = sized(*p, n)
	}
	for _, p := range [...]*[]float64{&m.matrix.below, &m.matrix.on, &m.matrix.above} {
		*p = sized(*p, n*angles)
	}
	m.k0, m.k = sized(m.k0, radii-1), sized(m.k, radii-1)
	m.matrix.size, m.matrix.far = angles, sized(m.matrix.far, angles)
	m.matrix.row, m.matrix.farBack = sized(m.matrix.row, angles*angles), sized(m.matrix.farBack, angles*angles)
	for i := range m.last {
		m.last[i] = sized(m.last[i], angles)
	}
	for _, e := range [...]*exchanged{&m.start, &m.later} {
		for _, p := range [...]*[]float64{&e.j, &e.dc, &e.dq, &e.dt, &e.loadC} {
			*p = sized(*p, g.exposed)
		}
		if cap(e.response) < g.exposed {
			e.response = make([]radial.Response, g.exposed)
		}
		e.response = e.response[:g.exposed]
	}
	m.beside.flux = sized(m.beside.flux, g.exposed)
	m.u.Field.Resize(n)
}

// sized gives a slice of n, the old one where it is large enough.
func sized(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}

// bind takes up a problem.
func (m *March) bind(p radial.Problem, s rosenbrock.Settings) {
	m.problem, m.floor = p, s.Floor
	m.exchange, m.ready, m.scale = nil, false, 0
	m.beside.companion, m.u.Bordered, m.u.Beside.Next = p.Companion, p.Companion != nil, m.Beside
	m.beside.graded, _ = p.Companion.(radial.Graded)
	if v, ok := p.Surface.(radial.Exchange); ok {
		m.exchange = v
	}
	if m.Along != nil {
		m.evaluateStart()
		m.from = m.instant()
	}
}

// instant is the present state, which has been evaluated.
func (m *March) instant() radial.Instant {
	r := m.Grid.radial.Radius()
	return radial.Instant{Time: m.Time, Mean: m.Grid.Mean(m.y), Rate: -2 * m.start.sum / (r * r), Beside: m.Beside, BesideRate: m.beside.rate(&m.start)}
}

// try computes a step of size h [s] from the present state without taking it, and gives the estimate of its error
// relative to the size of the field. It is NaN or Inf where the step has failed.
func (m *March) try(h float64) float64 {
	if !m.ready {
		if m.scale == 0 {
			m.scale = h
		}
		m.evaluateStart()
		m.evaluateRates()
		m.ready = true
	}
	if !m.assemble(1 / (rosenbrock.Method().Gamma * h)) {
		return math.Inf(1)
	}
	for i := range rosenbrock.Stages {
		m.solveStage(i, h)
	}
	r, scale := m.Grid.radial.Radius(), 0.0
	if m.beside.companion != nil {
		scale = m.beside.companion.Scale()
	}
	return m.u.End(m.stage, m.Grid.weight, r*r/2, m.floor, m.Lost, m.Beside, scale)
}

// accept takes the step of h that try has computed, which ends at the time now [s].
func (m *March) accept(h, now float64) {
	copy(m.y, m.stage)
	m.Lost, m.Beside = m.u.Lost.Next, m.u.Beside.Next
	m.Time, m.scale = now, h
	m.Stats.Steps++
	m.ready = false
	if m.Along != nil {
		m.evaluateStart()
		m.evaluateRates()
		m.ready = true
		to := m.instant()
		m.Gathered += m.Along(m.from, to)
		m.from = to
	}
	if m.Observe != nil {
		m.Observe(m.Time, m.C)
	}
}

func (m *March) evaluateStart() {
	m.conductance(m.Time, m.Beside, m.k0)
	m.potential(m.y, m.g0, m.slope0)
	m.flow(m.f0, m.k0, m.g0)
	m.exchangeAt(m.Time, m.skin(m.y), m.Lost, m.Beside, &m.start)
	if m.beside.companion != nil {
		m.beside.drift = m.beside.companion.Drift(m.Time, m.Beside)
	}
}

// potential fills g and slope. What counts of g is differences: it is taken from the first node, so that a uniform
// field gives no flow even in rounding.
func (m *March) potential(c, g, slope []float64) {
	m.problem.Potential.Potential(c, g, slope)
	base := g[0]
	for i := range g {
		g[i] -= base
	}
}

// skin is the part of a field at the surface.
func (m *March) skin(c []float64) []float64 { return c[len(c)-m.Grid.Angles():] }

// evaluateRates takes the derivatives in time at fixed field and those on the companion, by small differences where they are not known.
func (m *March) evaluateRates() {
	if b := &m.beside; b.companion != nil {
		if b.graded != nil {
			m.grades()
			return
		}
		m.besideRates()
		if b.companion.Steady(m.Time) {
			m.unsteady, m.changes, m.start.sumDt, b.rateT = false, 0, 0, 0
			clear(m.start.dt)
			return
		}
	}
	// The difference must be one that the time can hold.
	later := m.Time + max(m.scale*1e-5, math.Abs(m.Time)*0x1p-40)
	dt := later - m.Time
	m.conductance(later, m.Beside, m.k)
	m.unsteady = false
	for i, k := range m.k {
		m.k[i] = (k - m.k0[i]) / dt
		m.unsteady = m.unsteady || m.k[i] != 0
	}
	m.changes = math.Abs(m.k[len(m.k)-1]) / m.k0[len(m.k)-1]
	if m.unsteady {
		m.flow(m.rate, m.k, m.g0)
	}
	m.exchangeAt(later, m.skin(m.y), m.Lost, m.Beside, &m.later)
	m.start.sumDt = (m.later.sum - m.start.sum) / dt
	for a, j := range m.later.j {
		m.start.dt[a] = (j - m.start.j[a]) / dt
	}
	if m.beside.companion != nil {
		m.besideTime(later, dt)
	}
}

// exchangeAt fills e with the exchange of the exposed nodes at the surface values c.
func (m *March) exchangeAt(t float64, c []float64, q, x float64, e *exchanged) {
	e.sum, e.sumDq, e.load, e.loadQ = 0, 0, 0, 0
	r := m.Grid.radial.Radius()
	for a, open := range m.Grid.open[:m.Grid.exposed] {
		var v radial.Response
		if m.beside.companion != nil {
			v = m.beside.companion.Exchange(t, c[a], q, x)
		} else if m.exchange != nil {
			v.Flux, v.FluxC, v.FluxQ = m.exchange(t, c[a], q)
		}
		e.response[a] = v
		part := r * open
		e.j[a], e.dc[a], e.dq[a], e.loadC[a] = part*v.Flux, part*v.FluxC, part*v.FluxQ, open*v.LoadC
		e.sum += e.j[a]
		e.sumDq += e.dq[a]
		e.load += open * v.Load
		e.loadQ += open * v.LoadQ
	}
}

// conductance fills k with the conductance of each gap.
func (m *March) conductance(t, x float64, k []float64) {
	var alike bool
	if m.beside.companion != nil {
		alike = m.beside.companion.Conductance(t, x, k)
	} else {
		alike = m.problem.Conductance.Conductance(t, k)
	}
	if alike {
		for i := range k {
			k[i] = k[0]
		}
	}
}

// flow fills f with the balance of every node but for the exchange at the surface. The nodes of the two circles of a
// gap lie side by side.
func (m *March) flow(f, k, g []float64) {
	angles := m.Grid.Angles()
	if angles == CoarseAngles {
		simd.Flow(f, k, g, m.Grid.gaps)
		return
	}
	clear(f)
	size := 2 * angles
	for i, ki := range k {
		at := i * angles
		give(f[at:at+size], m.Grid.gaps[i*size*size:(i+1)*size*size], g[at:at+size], ki)
	}
}
