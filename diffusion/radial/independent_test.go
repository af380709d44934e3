package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// heating is the conductance of testdata/radial/independent.csv.
var heating = inTime(func(t float64) float64 { return 0.02 * (1 + 4*t*t) })

// enclosed gives to surroundings that keep what they have taken up.
var enclosed = radial.Exchange(func(_, c, q float64) (j, dc, dq float64) {
	return 0.5 * (c*c - 0.1 - 1.2*q), c, -0.6
})

// againstIndependent marches a case of the table through its times and gives the
// worst deviations.
func againstIndependent(t *testing.T, name string, g *radial.Grid, s rosenbrock.Settings) (mean, centre, skin, lost worst) {
	t.Helper()
	p := radial.Problem{Conductance: heating, Potential: radial.Exponential(2), Surface: film(2, 0.05)}
	if name == "enclosed" {
		p.Surface = enclosed
	}
	rows, names := numbers(t, "radial", "independent.csv")
	m := started(g, 1)
	met := 0
	for i, row := range rows {
		if names[i] != name {
			continue
		}
		if name == "rewetted" && row["time"] > 1 {
			p.Surface = film(2, 0.9) // in a thin skin at first
		}
		through(t, m, p, row["time"]-m.Time, s)
		met++
		mean.add(row["mean"], g.Mean(m.C))
		centre.add(row["centre"], g.Centre(m.C))
		skin.add(row["surface"], surface(m))
		lost.add(row["lost"], m.Lost)
	}
	require.Greater(t, met, 4, name)
	return mean, centre, skin, lost
}

// The references are testdata/radial/independent.csv: finite volumes and BDF
// (independent code), good to 1e-9. Usual settings are held to a thousandth of the
// range, tight ones on a fine grid to what such a grid leaves.
func TestIndependentSolver(t *testing.T) {
	for _, name := range []string{"rewetted", "enclosed"} {
		for _, stretch := range []float64{3.5, 5} {
			mean, centre, skin, lost := againstIndependent(t, name, usualGrid(t, stretch), usual)
			t.Logf("%s, stretch %g: mean %.1e centre %.1e surface %.1e lost %.1e", name, stretch, mean, centre, skin, lost)
			for _, w := range []worst{mean, centre, skin, lost} {
				requireDelta(t, 0, float64(w), 1e-3, "%s, stretch %g", name, stretch)
			}
		}
		mean, centre, skin, lost := againstIndependent(t, name, newGrid(t, 160, 4), tight)
		t.Logf("%s, fine: mean %.1e centre %.1e surface %.1e lost %.1e", name, mean, centre, skin, lost)
		for _, w := range []worst{mean, centre, skin, lost} {
			requireDelta(t, 0, float64(w), 1e-7, name)
		}
	}
}

// A cylinder that diffuses fast beside its film is lumped, and with surroundings
// that keep what they take up its content obeys
//
//	dq/dt = R h (c - a - s q),  c = c0 - 2 q/R²,
//
// so that q approaches q∞ = (c0 - a)/(2/R² + s) with the rate R h (2/R² + s).
// What lumping leaves out falls with the Biot number.
func TestLumpedAgainstAnsweringSurroundings(t *testing.T) {
	const radius, h, a, s, c0 = 0.5, 0.3, 0.1, 5.0, 0.9
	end := (c0 - a) / (2/(radius*radius) + s)
	rate := radius * h * (2/(radius*radius) + s)
	g, err := radial.NewGrid(radius, 20, 2)
	require.NoError(t, err)
	flux := radial.Exchange(func(_, c, q float64) (j, dc, dq float64) { return h * (c - a - s*q), h, -h * s })
	before := math.Inf(1)
	for _, biot := range []float64{1e-2, 1e-4, 1e-6} {
		p := radial.Problem{Conductance: radial.Uniform(h * radius / biot), Potential: radial.Linear{}, Surface: flux}
		m := started(g, c0)
		var off worst
		for range 6 {
			through(t, m, p, 0.3, rosenbrock.Settings{Tolerance: 1e-9})
			off.add(end*(1-math.Exp(-rate*m.Time)), m.Lost)
			off.add(c0-2*m.Lost/(radius*radius), g.Mean(m.C))
		}
		t.Logf("Bi = %g: %.1e", biot, off)
		requireDelta(t, 0, float64(off), 0.1*biot+1e-9)
		require.Less(t, float64(off), before)
		before = float64(off)
	}
}
