package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// pair is a field that mixes at once (a large conductance) beside a companion: two linear equations,
//
//	dc/dt = -(2/R) (a c - b x),  dx/dt = drive - cool x - load (a c - b x),
//
// whose solution is known from the eigenvalues of the two.
type pair struct{ mix, a, b, cool, drive, load float64 }

func (p pair) Conductance(_, x float64, k []float64) bool {
	for i := range k {
		k[i] = p.mix * (1 + x*x)
	}
	return false
}

func (p pair) Exchange(_, c, _, x float64) radial.Response {
	j := p.a*c - p.b*x
	return radial.Response{Flux: j, FluxC: p.a, Load: -p.load * j, LoadC: -p.load * p.a}
}

func (p pair) Drift(_, x float64) float64 { return p.drive - p.cool*x }

func (pair) Steady(float64) bool { return true }

func (pair) Scale() float64 { return 1 }

// after is the exact state at time t from c = 1, x = 0 on a cylinder of radius one: y' = A y + f about its point
// of rest, by the two eigenvalues.
func (p pair) after(t float64) (c, x float64) {
	a11, a12 := -2*p.a, 2*p.b
	a21, a22 := -p.load*p.a, p.load*p.b-p.cool
	xRest := p.drive / p.cool // at rest nothing crosses: a c = b x
	cRest := p.b / p.a * xRest
	half, det := (a11+a22)/2, a11*a22-a12*a21
	root := math.Sqrt(half*half - det)
	l1, l2 := half+root, half-root
	c0, x0 := 1-cRest, -xRest
	// y = v1 exp(l1 t) + v2 exp(l2 t); v1 = (A - l2)y0/(l1 - l2).
	d1, d2 := a11*c0+a12*x0, a21*c0+a22*x0
	v1c, v1x := (d1-l2*c0)/(l1-l2), (d2-l2*x0)/(l1-l2)
	e1, e2 := math.Exp(l1*t), math.Exp(l2*t)
	return cRest + v1c*e1 + (c0-v1c)*e2, xRest + v1x*e1 + (x0-v1x)*e2
}

func TestCompanionAgainstEigenvalues(t *testing.T) {
	for name, p := range map[string]pair{
		"weak":          {1e4, 1, 0.2, 5, 1, 0.1},
		"strong":        {1e4, 1, 0.5, 60, 20, 30},
		"stiff":         {1e4, 2, 1, 3000, 1500, 40},
		"it only cools": {1e4, 1, 0, 1, 0, 5},
	} {
		m := started(usualGrid(t, 3), 1)
		through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: p}, 0.7, rosenbrock.Settings{Tolerance: 1e-6})
		c, x := p.after(0.7)
		t.Logf("%s: %g %g  want %g %g", name, m.Grid.Mean(m.C), m.Beside, c, x)
		requireDelta(t, c, m.Grid.Mean(m.C), 1e-4, name)
		requireDelta(t, x, m.Beside, 1e-4, name)
		requireDelta(t, 0.5, m.Grid.Content(m.C)+m.Lost, 1e-12, name)
	}
}

// The order in the step, on a companion that is tied to the field both ways and varies the conductance; slow beside
// its own frequencies, so that the grid is not stiff.
func TestCompanionOrder(t *testing.T) {
	p := radial.Problem{Potential: radial.Exponential(1), Companion: pair{0.003, 1, 0.5, 2, 1, 3}}
	run := func(steps int) (c, x float64) {
		m := started(newGrid(t, 12, 0), 1)
		through(t, m, p, 1, rosenbrock.Settings{Steps: steps})
		return m.Grid.Mean(m.C), m.Beside
	}
	c, x := run(2000)
	c1, x1 := run(100)
	c2, x2 := run(200)
	field, beside := math.Log2((c1-c)/(c2-c)), math.Log2((x1-x)/(x2-x))
	t.Logf("%.2f in the field, %.2f in the companion", field, beside)
	require.Greater(t, field, rosenbrock.Order-0.5)
	require.Greater(t, beside, rosenbrock.Order-0.5)
}

// answering is an exchange whose air takes up what is lost, which loads the companion too.
type answering struct{ pair }

func (p answering) Exchange(_, c, q, x float64) radial.Response {
	j := c - 0.3*x - 2*q
	return radial.Response{Flux: j, FluxC: 1, FluxQ: -2, Load: -3 * j, LoadC: -3, LoadQ: 6}
}

// What the companion has gained is what the flux has brought, less what it has lost on its own: here its drift is
// nothing, so that it holds exactly minus three times the amount lost over the radius, and an exact
// rest is reached where c = 0.3 x + 2 q.
func TestCompanionCloses(t *testing.T) {
	p := answering{pair{mix: 0.5}}
	m := started(usualGrid(t, 3), 1)
	through(t, m, radial.Problem{Potential: radial.Exponential(2), Companion: p}, 200, rosenbrock.Settings{Tolerance: 1e-4})
	requireDelta(t, 0.5, m.Grid.Content(m.C)+m.Lost, 1e-12)
	requireDelta(t, -3*m.Lost, m.Beside, 1e-10)
	// c = 0.3 (-3 q) + 2 q = 1.1 q with c/2 + q = 1/2.
	q := 0.5 / 1.55
	requireDelta(t, q, m.Lost, 1e-6)
	requireDelta(t, 1.1*q, m.Grid.Mean(m.C), 1e-6)
}

// known is a pair that knows its derivatives; its gaps are all alike, or told one by one.
type known struct {
	pair
	alike bool
}

func (k known) ConductanceGrades(_, x float64, byTime, byX []float64) bool {
	for i := range byX {
		byTime[i], byX[i] = 0, 2*x/(1+x*x)
	}
	return k.alike
}

func (k known) ExchangeGrades(_, _, _, _ float64, _ radial.Response) (byTime, byX radial.Response) {
	return radial.Response{}, radial.Response{Flux: -k.b, Load: k.load * k.b}
}

func (k known) DriftGrades(_, _ float64) (byTime, byX float64) { return 0, -k.cool }

// Derivatives that are known lead where differences do.
func TestKnownDerivatives(t *testing.T) {
	p := pair{0.3, 1, 0.5, 6, 2, 3}
	run := func(c radial.Companion) *radial.March {
		m := started(newGrid(t, 20, 2), 1)
		through(t, m, radial.Problem{Potential: radial.Exponential(1), Companion: c}, 0.7, rosenbrock.Settings{Steps: 20})
		return m
	}
	want := run(p)
	for _, alike := range []bool{true, false} {
		got := run(known{p, alike})
		requireDelta(t, want.Beside, got.Beside, 1e-6)
		requireDelta(t, want.Grid.Mean(want.C), got.Grid.Mean(got.C), 1e-6)
	}
}
