package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// rising is a conductance that grows in time as that of a strand being heated.
var rising = inTime(func(t float64) float64 { return 0.05 * (1 + 30*t*t/(1+t*t)) })

// balances are problems without a source. Some change abruptly on the way, so that
// the control has to reject a step.
func balances() map[string]radial.Problem {
	varied := radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
		return 3 * (c*c - 0.5 - 0.3*math.Sin(9*t)), 6 * c, 0
	})
	sudden := radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
		if t < 0.3 {
			return 0.2 * (c - 0.1), 0.2, 0
		}
		return 500 * (c - 0.8), 500, 0
	})
	answering := radial.Exchange(func(_, c, q float64) (j, dc, dq float64) {
		return 4 * (c*c - 0.1 - 2*q), 8 * c, -8
	})
	hop := radial.Prescribed(func(t float64) float64 {
		if t < 0.4 {
			return 0.2
		}
		return 1.5
	})
	wave := radial.Prescribed(func(t float64) float64 { return 0.5 + 0.4*math.Cos(7*t) })
	return map[string]radial.Problem{
		"film":                    {Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(10, 0.1)},
		"huge film":               {Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: film(1e9, 0)},
		"held after a jump":       {Conductance: radial.Uniform(0.3), Potential: radial.Linear{}, Surface: held(0.2)},
		"exponential, jump":       {Conductance: radial.Uniform(0.1), Potential: radial.Exponential(4), Surface: held(0)},
		"exponential, film":       {Conductance: rising, Potential: radial.Exponential(3), Surface: varied},
		"falling with c":          {Conductance: rising, Potential: radial.Exponential(-2), Surface: film(2, 0)},
		"answering":               {Conductance: rising, Potential: radial.Exponential(2), Surface: answering},
		"sudden":                  {Conductance: rising, Potential: radial.Exponential(2), Surface: sudden},
		"given, sudden":           {Conductance: rising, Potential: radial.Exponential(1), Surface: hop},
		"given, wave":             {Conductance: rising, Potential: radial.Linear{}, Surface: wave},
		"conductance in layers":   {Conductance: layers{}, Potential: radial.Exponential(1), Surface: film(1, 0)},
		"a potential of its own":  {Conductance: radial.Uniform(1), Potential: quadratic{}, Surface: film(1, 0)},
		"nothing passes, nothing": {Conductance: rising, Potential: radial.Linear{}, Surface: radial.Exchange(sealed)},
	}
}

// layers is a conductance that varies along the radius and in time.
type layers struct{}

func (layers) Conductance(t float64, k []float64) bool {
	for i := range k {
		k[i] = 0.2 + float64(i%3)*(1+t)
	}
	return false
}

// quadratic is G = c |c|, whose diffusivity 2 |c| vanishes at zero.
type quadratic struct{}

func (quadratic) Potential(c, g, slope []float64) {
	for i, v := range c {
		g[i], slope[i] = v*math.Abs(v), 2*math.Abs(v)
	}
}

// What leaves equals what is lost, to rounding: the rows of the scheme add up to
// the exact balance, whatever the tolerance.
func TestBalance(t *testing.T) {
	sudden := map[string]bool{"sudden": true, "given, sudden": true}
	for name, p := range balances() {
		t.Run(name, func(t *testing.T) { requireBalance(t, p, sudden[name] || name == "exponential, jump", sudden[name]) })
	}
}

// requireBalance marches with and without control. A rough problem is too much for even steps, and a sudden one has to make the
// control reject steps.
func requireBalance(t *testing.T, p radial.Problem, rough, sudden bool) {
	settings := []rosenbrock.Settings{{Tolerance: 1e-2}, {Tolerance: 1e-5}}
	if !rough {
		settings = append(settings, rosenbrock.Settings{Steps: 300})
	}
	for _, s := range settings {
		g := newGrid(t, 30, 4)
		m := started(g, 0.7)
		whole := g.Content(m.C)
		moved, sum := 0.0, worst(0)
		m.Observe = func(_ float64, c []float64) {
			moved = math.Max(moved, math.Abs(m.Lost))
			sum.add(whole, g.Content(c)+m.Lost)
		}
		require.NoError(t, m.Advance(p, 0.35, s), "%+v", s)
		require.NoError(t, m.Advance(p, 0.45, s), "%+v", s)
		requireDelta(t, 0, float64(sum), 1e-13*math.Max(whole, moved), "%+v", s)
		require.NotZero(t, m.Stats.Steps)
		if sudden && s.Tolerance == 1e-5 {
			require.NotZero(t, m.Stats.Rejected, "%+v: meant to reject steps", s)
		}
	}
}

// The content of a field is its exact integral when the field is a quadratic of
// r: 1, r² (the mean of r² is R²/2).
func TestContent(t *testing.T) {
	for _, stretch := range []float64{0, 3, 8} {
		g, err := radial.NewGrid(0.5, 40, stretch)
		require.NoError(t, err)
		one, square := make([]float64, g.Len()), make([]float64, g.Len())
		for i := range one {
			one[i], square[i] = 1, g.Node(i)*g.Node(i)
		}
		requireDelta(t, 0.125, g.Content(one), 1e-15)
		requireDelta(t, 1, g.Mean(one), 1e-14)
		requireDelta(t, 0.125, g.Mean(square), 1e-14, "stretch %g", stretch)
		requireDelta(t, 0, g.Centre(square), 1e-15)
		requireDelta(t, 1, g.Centre(one), 1e-15)
	}
}

// On the axis the even polynomial of fourth degree is met exactly; ahead of a front, which no
// polynomial follows, the value is between those of the innermost nodes, and not below zero where they are not.
func TestCentre(t *testing.T) {
	g := newGrid(t, 12, 0)
	smooth, front := make([]float64, g.Len()), make([]float64, g.Len())
	for i := range smooth {
		r := g.Node(i)
		smooth[i], front[i] = 2+r*r+0.5*r*r*r*r, math.Exp(40*(r-1))
	}
	requireDelta(t, 2, g.Centre(smooth), 1e-14)
	for range 3 {
		require.GreaterOrEqual(t, g.Centre(front), 0.0)
		require.LessOrEqual(t, g.Centre(front), front[1])
		copy(front, front[1:]) // the front comes nearer
		front[0] = 0
	}
}

// Behind a sealed surface an uneven field evens out, and the mean stays.
func TestSealed(t *testing.T) {
	for _, potential := range []radial.Potential{radial.Linear{}, radial.Exponential(2)} {
		p := radial.Problem{Conductance: rising, Potential: potential, Surface: radial.Exchange(sealed)}
		g := newGrid(t, 25, 3)
		m := started(g, 0)
		for i := range m.C {
			m.C[i] = 1 + math.Cos(3*g.Node(i))
		}
		mean := g.Mean(m.C)
		m.Observe = func(_ float64, c []float64) { requireDelta(t, mean, g.Mean(c), 1e-12) }
		through(t, m, p, 20, usual)
		requireDelta(t, 0, m.Lost, 1e-13)
		for _, c := range m.C {
			requireDelta(t, mean, c, 1e-6)
		}
	}
}

// At equilibrium with its surroundings a field does not change.
func TestEquilibrium(t *testing.T) {
	for name, s := range map[string]radial.Surface{"film": film(30, 0.025), "held": held(0.025), "sealed": radial.Exchange(sealed)} {
		p := radial.Problem{Conductance: rising, Potential: radial.Exponential(40), Surface: s}
		m := started(usualGrid(t, 5), 0.025)
		through(t, m, p, 3, usual)
		for _, c := range m.C {
			requireDelta(t, 0.025, c, 0.025*1e-12, name)
		}
		requireDelta(t, 0, m.Lost, 0.0125*1e-12, name)
	}
}
