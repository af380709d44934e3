package radial_test

import (
	"math"
	"testing"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// Any radius is the same problem in a time that goes with its square, where the
// Biot number is the same.
func TestScaling(t *testing.T) {
	const biot = 7.0
	run := func(radius float64) []float64 {
		g, err := radial.NewGrid(radius, 25, 4)
		if err != nil {
			t.Fatal(err)
		}
		m := started(g, 1)
		h := biot / radius
		p := radial.Problem{
			Conductance: inTime(func(t float64) float64 { return 1 + math.Sin(t/(radius*radius)) }),
			Potential:   radial.Exponential(1.5),
			Surface:     radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return h * (c*c - 0.2), 2 * h * c, 0 }),
		}
		through(t, m, p, 0.3*radius*radius, usual)
		return append([]float64{2 * m.Lost / (radius * radius)}, m.C...)
	}
	one := run(1)
	for _, radius := range []float64{2, 0.5, 0.875e-3, 300} {
		for i, c := range run(radius) {
			requireDelta(t, one[i], c, 1e-9, "radius %g, value %d", radius, i)
		}
	}
}

// A field cannot leave the range of its start and its surroundings. A scheme of
// fourth order may do so a little where it meets a step. What is granted here:
//
//   - a tenth of the step at any time: the mass matrix has rows of about (1, 10, 1),
//     and a node that is pulled at once moves its neighbour by 5 - 2√6 = 0.101 the
//     other way;
//   - a thousandth once diffusion has crossed the outermost gap;
//   - where a front runs into a cylinder that conducts less, a hundredth ahead of
//     it, after three such times.
func TestRange(t *testing.T) {
	for _, s := range []rosenbrock.Settings{usual, {Tolerance: 1e-2}, {Tolerance: 1e-6}} {
		for _, b := range []float64{0, 3} {
			for _, wet := range []float64{0, 1} {
				var atOnce, after float64
				for _, stretch := range []float64{2.5, 5} {
					for _, biot := range []float64{5, 100, 1e4, math.Inf(1)} {
						p := stepChange(biot)
						p.Potential = radial.Exponential(b)
						p.Surface = film(biot, wet)
						if math.IsInf(biot, 1) {
							p.Surface = held(wet)
						}
						m := started(usualGrid(t, stretch), 1-wet)
						h := m.Grid.Spacing()
						crossing := h * h / math.Exp(b*wet)
						if b > 0 && wet == 1 {
							crossing *= 3
						}
						first, later := excursions(t, m, p, 0.2, crossing, s)
						atOnce, after = math.Max(atOnce, first), math.Max(after, later)
						// Rewetting or drying what has dried or taken up leaves
						// no larger mark.
						p.Surface = film(50, 1-wet)
						first, _ = excursions(t, m, p, 0.2, 0, s)
						atOnce = math.Max(atOnce, first)
					}
				}
				limit := 1e-3
				if b > 0 && wet == 1 {
					limit = 1e-2
				}
				t.Logf("tolerance %g, b = %g, surroundings %g: %.1e at once, %.1e after", s.Tolerance, b, wet, atOnce, after)
				requireDelta(t, 0, atOnce, 0.102)
				requireDelta(t, 0, after, limit)
			}
		}
	}
}

// excursions marches and gives how far the field has left the range from 0 to 1
// after any step, and after the steps that end beyond a time from now.
func excursions(t *testing.T, m *radial.March, p radial.Problem, duration, beyond float64, s rosenbrock.Settings) (ever, later float64) {
	t.Helper()
	beyond += m.Time
	m.Observe = func(now float64, cs []float64) {
		for _, c := range cs {
			out := math.Max(0, math.Max(-c, c-1)) // NaN stays
			ever = math.Max(ever, out)
			if now >= beyond {
				later = math.Max(later, out)
			}
		}
	}
	through(t, m, p, duration, s)
	m.Observe = nil
	return ever, later
}
