package radial

import (
	"math"

	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/simd"
)

// Companion is a scalar x that goes with the field and answers to it, as the
// temperature of a body does to what evaporates from it:
//
//	dx/dt = drift(t, x) + load(t, c, q, x)
//
// The conductance and the exchange depend on it. It is one more unknown of the same
// step, implicit as all others, so that a coupling of any strength is stable.
type Companion interface {
	// Conductance is that of [Problem] at the value x.
	Conductance(t, x float64, k []float64) (alike bool)
	// Exchange is the response of the surface at the surface value c, after the amount q
	// has left.
	Exchange(t, c, q, x float64) Response
	// Drift is the part of dx/dt that does not depend on the field.
	Drift(t, x float64) float64
	// Steady tells that from time t on nothing changes but by x and the field.
	Steady(t float64) bool
	// Scale is the error of x that counts as much as an error as large as the field.
	Scale() float64
}

// Graded is a companion that knows the derivatives of what it gives; those of any other are taken by differences.
type Graded interface {
	Companion
	// ConductanceGrades fills byTime and byX with the derivatives of ln k on t and on x [1/s, 1/unit of x]; alike tells that they are the same in all
	// gaps, and stand in the first alone.
	ConductanceGrades(t, x float64, byTime, byX []float64) (alike bool)
	// ExchangeGrades gives the derivatives of Flux and Load of Exchange, which is now.
	ExchangeGrades(t, c, q, x float64, now Response) (byTime, byX Response)
	// DriftGrades gives those of Drift.
	DriftGrades(t, x float64) (byTime, byX float64)
}

// Response is what crosses the surface: an outward flux density [unit of c times m/s], and the load
// that comes with it on the companion [unit of x/s], both with their derivatives on c and q.
type Response struct {
	Flux, FluxC, FluxQ float64
	Load, LoadC, LoadQ float64
}

// beside is the companion in a step. Its unknown borders the tridiagonal system by a row and a column.
type beside struct {
	companion Companion
	graded    Graded // the same, where it is one

	drift        float64 // at the start
	rateX, rateT float64 // derivatives of dx/dt at the start
	fluxX        float64 // derivative of R j on x

	column  []float64 // derivative of the balance of the nodes on x, but for the exchange
	z       []float64 // what the field answers to a unit of x
	zLost   float64   // and the amount lost
	inverse float64   // of the pivot of x

	now float64 // dx/dt at the stage
}

// rate is dx/dt at the start of the step.
func (b *beside) rate(start exchanged) float64 { return b.drift + start.load }

// besideTime takes the derivatives in time by a difference of dt [s].
func (m *March) besideTime(later, dt float64) {
	b := &m.beside
	flux, load := m.leavingAt(later, m.y[len(m.y)-1], m.Lost, m.Beside)
	m.start.dt = (flux - m.start.j) / dt
	b.rateT = (b.companion.Drift(later, m.Beside) - b.drift + load - m.start.load) / dt
}

// besideRates takes the derivatives on the companion.
func (m *March) besideRates() {
	b, n := &m.beside, len(m.y)
	const small = 1e-6 // of the scale: an error of the same size in the derivative
	dx := max(b.companion.Scale()*small, math.Abs(m.Beside)*0x1p-30)
	x := m.Beside + dx
	dx = x - m.Beside
	m.conductance(m.Time, x, m.k)
	for i := range n - 1 {
		m.k[i] = (m.k[i] - m.k0[i]) / dx
	}
	flow(b.column, m.k[:n-1], m.g0)
	flux, load := m.leavingAt(m.Time, m.y[n-1], m.Lost, x)
	b.fluxX = (flux - m.start.j) / dx
	b.rateX = (b.companion.Drift(m.Time, x) - b.drift + load - m.start.load) / dx
}

// grades takes all derivatives at the start from a companion that knows them.
func (m *March) grades() {
	b, r, last := &m.beside, m.Grid.Radius(), len(m.y)-1
	byTime, byX := m.k[:last], m.scratch[:last]
	alike := b.graded.ConductanceGrades(m.Time, m.Beside, byTime, byX)
	if alike { // the flows are those at the start, so many times
		m.unsteady, m.changes = byTime[0] != 0, math.Abs(byTime[0])
		simd.Scale(m.rate, m.f0, byTime[0])
		simd.Scale(b.column, m.f0, byX[0])
	} else {
		m.unsteady, m.changes = true, math.Abs(byTime[last-1])
		for i, k := range m.k0[:last] {
			byTime[i], byX[i] = byTime[i]*k, byX[i]*k
		}
		flow(b.column, byX, m.g0)
		flow(m.rate, byTime, m.g0)
	}
	e := &m.start
	now := Response{Flux: e.j / r, FluxC: e.dc / r, FluxQ: e.dq / r, Load: e.load, LoadC: e.loadC, LoadQ: e.loadQ}
	timely, beside := b.graded.ExchangeGrades(m.Time, m.y[last], m.Lost, m.Beside, now)
	driftTime, driftX := b.graded.DriftGrades(m.Time, m.Beside)
	e.dt, b.fluxX = r*timely.Flux, r*beside.Flux
	b.rateT, b.rateX = driftTime+timely.Load, driftX+beside.Load
}

// besideColumn solves for the column of the companion once the field's matrix is factorised.
func (m *March) besideColumn(tau float64) {
	b, e, last := &m.beside, m.start, len(m.y)-1
	copy(b.z, b.column)
	b.z[last] -= b.fluxX * tau / (tau - e.dq)
	m.matrix.solve(b.z)
	b.zLost = (e.dc*b.z[last] + b.fluxX) / (tau - e.dq)
	b.inverse = 1 / (tau - b.rateX - e.loadC*b.z[last] - e.loadQ*b.zLost)
}

// besideStage finds the increment of the companion in stage i and corrects those of the field by it. leaving is
// R j with what the amount lost brings along. It gives what the conductances add to the balance of the surface.
func (m *March) besideStage(i int, h, leaving float64) float64 {
	b, e, last, u := &m.beside, m.start, len(m.y)-1, m.u.Field[i]
	tau := 1 / (rosenbrock.Method().Gamma * h)
	lost := (leaving + e.dc*u[last]) / (tau - e.dq)
	x := (b.now + m.u.Beside.History + rosenbrock.Method().Dt[i]*h*b.rateT + e.loadC*u[last] + e.loadQ*lost) * b.inverse
	m.u.Beside.U[i] = x
	simd.AddScaled(u, b.z[:len(u)], x)
	return b.column[last] * x
}
