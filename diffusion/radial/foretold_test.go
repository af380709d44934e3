package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// tides are a conductance and an exchange that rise and fall, and what they tell of that.
type tides struct {
	inTime
	factor float64 // on the derivatives: 1 for the true ones
	mute   bool
}

func highAndLow(t float64) float64 { return 1 + 0.5*math.Sin(3*t) }

func coming(t, c, _ float64) (j, dc, dq float64) { return 2 * (c - math.Cos(2*t)), 2, 0 }

func (f tides) Grades(t, _, _, _ float64) (conductance, flux float64, known bool) {
	return f.factor * 1.5 * math.Cos(3*t) / highAndLow(t), f.factor * 4 * math.Sin(2*t), !f.mute
}

// Derivatives that are told do what differences do, and where they cannot be told, differences are taken. Wrong ones show.
func TestForetold(t *testing.T) {
	run := func(k radial.Conductance) (mean, lost float64) {
		m := started(usualGrid(t, 3), 1)
		p := radial.Problem{Conductance: k, Potential: radial.Exponential(0.5), Surface: radial.Exchange(coming)}
		through(t, m, p, 1, rosenbrock.Settings{Steps: 25})
		return m.Grid.Mean(m.C), m.Lost
	}
	mean, lost := run(inTime(highAndLow))
	for _, c := range []struct {
		name string
		k    tides
		off  func(far float64) bool
	}{
		{"told", tides{highAndLow, 1, false}, func(far float64) bool { return far < 1e-7 }},
		{"mute", tides{highAndLow, 5, true}, func(far float64) bool { return far == 0 }},
		{"wrong", tides{highAndLow, 1.1, false}, func(far float64) bool { return far > 1e-6 }},
	} {
		a, b := run(c.k)
		far := max(math.Abs(a-mean), math.Abs(b-lost))
		t.Logf("%s: off by %.1e", c.name, far)
		require.True(t, c.off(far), c.name)
	}
}
