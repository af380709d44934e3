package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// smooth is a problem whose exact solution is smooth from the start on, which the
// order of a scheme can be measured with.
type smooth struct {
	name    string
	problem radial.Problem
	at      func(x, t float64) float64
	mean    func(t float64) float64
	until   float64 // time to march to
}

// smoothProblems are the slowest mode under a film and under a held surface, and
// the manufactured solution with D = exp(1.2 c), a source and surroundings that
// vary, under a film and with its surface given.
func smoothProblems(t *testing.T) []smooth {
	t.Helper()
	var all []smooth
	for _, biot := range []float64{2, math.Inf(1)} {
		mode, err := exact.FirstMode(biot)
		require.NoError(t, err)
		name := "mode, film"
		if math.IsInf(biot, 1) {
			name = "mode, held"
		}
		all = append(all, smooth{name, stepChange(biot), mode.At, mode.Mean, 0.2})
	}
	var made exact.Manufactured
	p := radial.Problem{
		Conductance: radial.Uniform(1), Potential: radial.Exponential(1.2),
		Surface: radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
			return made.Film() * (c - made.Surroundings(t)), made.Film(), 0
		}),
		Source: func(t float64, r, s []float64) {
			for i := range r {
				s[i] = made.Source(r[i], t)
			}
		},
	}
	all = append(all, smooth{"made up, film", p, made.At, made.Mean, 0.5})
	p.Surface = radial.Prescribed(func(t float64) float64 { return made.At(1, t) })
	return append(all, smooth{"made up, given", p, made.At, made.Mean, 0.5})
}

// deviation is how far a march is from the exact solution.
type deviation struct{ mean, surface, field float64 }

// follow marches a smooth problem and compares.
func (p smooth) follow(t *testing.T, g *radial.Grid, s rosenbrock.Settings) deviation {
	t.Helper()
	m := started(g, 0)
	for i := range m.C {
		m.C[i] = p.at(g.Node(i), 0)
	}
	through(t, m, p.problem, p.until, s)
	d := deviation{mean: math.Abs(g.Mean(m.C) - p.mean(p.until)), surface: math.Abs(surface(m) - p.at(1, p.until))}
	for i, c := range m.C {
		d.field = math.Max(d.field, math.Abs(c-p.at(g.Node(i), p.until)))
	}
	require.False(t, math.IsNaN(d.mean+d.surface+d.field))
	return d
}
