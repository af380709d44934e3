package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// The references of this file are testdata/exact/robin-cylinder.csv: the
// eigenfunction series of Crank, The Mathematics of Diffusion (1975), ch. 5, to 12
// digits (independent code, 40 digits).

// stepErrors marches a step change through all times of the table for one Biot
// number and gives the worst deviation from Fo = from on.
func stepErrors(t *testing.T, g *radial.Grid, biot, from float64, s rosenbrock.Settings) (mean, centre, skin worst) {
	t.Helper()
	rows, _ := numbers(t, "exact", "robin-cylinder.csv")
	m := started(g, 1)
	p := stepChange(biot)
	met := 0
	for _, row := range rows {
		if row["biot"] != biot {
			continue
		}
		through(t, m, p, row["fourier"]-m.Time, s)
		requireDelta(t, row["fourier"], m.Time, 1e-15)
		if row["fourier"] < from {
			continue
		}
		met++
		mean.add(1-row["uptake"], g.Mean(m.C))
		centre.add(row["centre"], g.Centre(m.C))
		skin.add(row["surface"], surface(m))
	}
	require.Greater(t, met, 3, "Bi = %g is not in the table", biot)
	return mean, centre, skin
}

var biots = []float64{0.1, 1, 10, 100, math.Inf(1)}

// A design study wants the content to a thousandth of the whole range.
func TestStepChangeAtUsualSettings(t *testing.T) {
	for _, biot := range biots {
		for _, stretch := range []float64{2.5, 3.5, 5} {
			mean, centre, skin := stepErrors(t, usualGrid(t, stretch), biot, 0, usual)
			t.Logf("Bi = %5g stretch %.1f: mean %.1e centre %.1e surface %.1e", biot, stretch, mean, centre, skin)
			requireDelta(t, 0, float64(mean), 1e-3, "mean, Bi = %g, stretch %g", biot, stretch)
			requireDelta(t, 0, float64(centre), 1e-3, "centre, Bi = %g, stretch %g", biot, stretch)
			requireDelta(t, 0, float64(skin), 1e-3, "surface, Bi = %g, stretch %g", biot, stretch)
		}
	}
}

// On 100 even nodes the limits are those that a second-order finite-volume scheme
// with 100 cells was measured to keep; a scheme of fourth order has to keep them
// with ease.
func TestStepChangeOnEvenNodes(t *testing.T) {
	g := newGrid(t, 100, 0)
	for _, biot := range biots {
		limit, skinLimit, from := 1e-4, 2e-4, 0.0
		switch {
		case biot == 100:
			limit, from = 2e-4, 0.01
		case math.IsInf(biot, 1):
			limit, from = 2e-4, 0.02
			mean, centre, _ := stepErrors(t, g, biot, 0, tight)
			requireDelta(t, 0, float64(mean), 1e-3)
			requireDelta(t, 0, float64(centre), 1e-3)
		}
		mean, centre, skin := stepErrors(t, g, biot, from, tight)
		t.Logf("Bi = %5g from Fo = %g: mean %.1e centre %.1e surface %.1e", biot, from, mean, centre, skin)
		requireDelta(t, 0, float64(mean), limit, "mean, Bi = %g", biot)
		requireDelta(t, 0, float64(centre), limit, "centre, Bi = %g", biot)
		requireDelta(t, 0, float64(skin), skinLimit, "surface, Bi = %g", biot)
	}
}
