package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// A uniform source in a cylinder whose diffusivity grows as exp(2c), its surface at
// 0.1: the march comes to rest on exact.Rod. The spot values are computed by the
// Kirchhoff transform (independent code).
func TestSteadyWithSource(t *testing.T) {
	rod := exact.Rod{Radius: 1, Surface: 0.1, Source: 1.6, Diffusivity: 1, Exponent: 2}
	p := radial.Problem{
		Conductance: radial.Uniform(1), Potential: radial.Exponential(2), Surface: held(0.1),
		Source: func(_ float64, r, s []float64) {
			for i := range r {
				s[i] = 1.6
			}
		},
	}
	var before float64
	for _, nodes := range []int{20, 40, 80} {
		g := newGrid(t, nodes, 2)
		m := started(g, 0.1)
		through(t, m, p, 8, tight)
		var off worst
		for i, c := range m.C {
			off.add(rod.At(g.Node(i)), c)
		}
		off.add(0.2364787139, g.Mean(m.C))
		off.add(0.3518958526, g.Centre(m.C))
		t.Logf("%d nodes: %.1e", nodes, off)
		requireDelta(t, 0, float64(off), 1e-4, "%d nodes", nodes)
		if before != 0 {
			ratio := (float64(nodes) - 0.5) / (float64(nodes)/2 - 0.5)
			requireDelta(t, 4, slope(before, float64(off), ratio), 0.3, "%d nodes", nodes)
		}
		before = float64(off)

		// What goes in as a source comes out at the surface.
		lost := m.Lost
		through(t, m, p, 1, tight)
		requireDelta(t, 1.6/2, m.Lost-lost, 1e-6)
	}
}

// A spreading amount whose diffusivity 2 c vanishes ahead of a sharp front
// (Barenblatt 1952, exact.Front) in a sealed cylinder. A front has a kink, so the
// order is lost there; a finite-volume run with 800 cells meets the profile to
// 1.2e-4 of the peak.
func TestMovingFront(t *testing.T) {
	front := exact.Front{Amplitude: 0.01}
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: quadratic{}, Surface: radial.Exchange(sealed)}
	g := newGrid(t, 100, 0)
	m := started(g, 0)
	for i := range m.C {
		m.C[i] = front.At(g.Node(i), 1)
	}
	content := g.Content(m.C)
	requireDelta(t, front.Mean(), g.Mean(m.C), 1e-2*front.Mean())
	through(t, m, p, 15, rosenbrock.Settings{Tolerance: 1e-4})
	var off worst
	for i, c := range m.C {
		if g.Node(i) < 0.7 {
			off.add(front.At(g.Node(i), 16), c)
		} else {
			require.False(t, math.IsNaN(c))
		}
	}
	t.Logf("worst %.1e of the peak, %+v", float64(off)/0.0025, m.Stats)
	requireDelta(t, 0, float64(off), 5e-3*0.0025)
	requireDelta(t, content, g.Content(m.C), 1e-12*content)
}

// The manufactured solution at usual settings and its printed values.
func TestMadeUp(t *testing.T) {
	for _, p := range smoothProblems(t)[2:] {
		g := usualGrid(t, 3.5)
		m := started(g, 0)
		for i := range m.C {
			m.C[i] = p.at(g.Node(i), 0)
		}
		for _, want := range []struct{ t, mean, centre, surface float64 }{
			{0.5, 0.6122857309, 0.7032653299, 0.5213061319},
			{1, 0.5287578044, 0.5839397206, 0.4735758882},
			{2, 0.4473673491, 0.4676676416, 0.4270670566},
		} {
			through(t, m, p.problem, want.t-m.Time, usual)
			requireDelta(t, want.mean, g.Mean(m.C), 1e-4, p.name)
			requireDelta(t, want.centre, g.Centre(m.C), 1e-4, p.name)
			requireDelta(t, want.surface, surface(m), 1e-4, p.name)
		}
	}
}
