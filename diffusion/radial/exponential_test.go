package radial_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// heldExponential marches through the times of one ratio of the table
// testdata/exact/exponential-diffusivity.csv (Galerkin spectral elements and finite
// volumes, independent code, agreeing to 3e-7) and gives the worst deviation of the
// fraction exchanged from the time T = from on.
func heldExponential(t *testing.T, g *radial.Grid, ratio float64, drying bool, from float64, s rosenbrock.Settings) worst {
	t.Helper()
	rows, _ := numbers(t, "exact", "exponential-diffusivity.csv")
	column, start, outside := "absorption", 0.0, 1.0
	if drying {
		column, start, outside = "desorption", 1.0, 0.0
	}
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Exponential(math.Log(ratio)), Surface: held(outside)}
	m := started(g, start)
	var w worst
	met := 0
	for _, row := range rows {
		if row["ratio"] != ratio {
			continue
		}
		through(t, m, p, row["time"]-m.Time, s)
		if row["time"] < from {
			continue
		}
		met++
		w.add(row[column], (g.Mean(m.C)-start)/(outside-start))
	}
	require.Greater(t, met, 3)
	return w
}

// Diffusivity that grows tenfold and a hundredfold with c: absorption runs ahead
// of desorption. Both are met to a two-thousandth of the range; the coarsest grid,
// 13 nodes, is granted a thousandth: where the dry skin has a hundredth of the
// diffusivity, its spacing is too wide for the earliest time.
func TestExponentialAtUsualSettings(t *testing.T) {
	for _, ratio := range []float64{10, 100} {
		for _, drying := range []bool{true, false} {
			for stretch, limit := range map[float64]float64{2.5: 1e-3, 3.5: 5e-4, 5: 5e-4} {
				w := heldExponential(t, usualGrid(t, stretch), ratio, drying, 0.005, usual)
				t.Logf("ratio %3g drying %-5v stretch %.1f: %.1e", ratio, drying, stretch, w)
				requireDelta(t, 0, float64(w), limit, "ratio %g, drying %v, stretch %g", ratio, drying, stretch)
			}
		}
	}
}

// Refining the grid leads to the reference, from the earliest time on, until the
// difference is that of the reference itself.
func TestExponentialConverges(t *testing.T) {
	const reference = 3e-7 // stated in the table
	for _, ratio := range []float64{10, 100} {
		for _, drying := range []bool{true, false} {
			coarse := heldExponential(t, newGrid(t, 30, 3), ratio, drying, 0, tight)
			fine := heldExponential(t, newGrid(t, 90, 3), ratio, drying, 0, tight)
			t.Logf("ratio %3g drying %-5v: 30 nodes %.1e, 90 nodes %.1e", ratio, drying, coarse, fine)
			require.Greater(t, math.Max(float64(coarse), 8*reference), 8*float64(fine), "ratio %g, drying %v", ratio, drying)
			requireDelta(t, 0, float64(fine), 1e-5, "ratio %g, drying %v", ratio, drying)
		}
	}
}

// The exponential written out in the loop is the library's within the error that it
// states, and beyond its reach it is the library's.
func TestExponentialPotential(t *testing.T) {
	const b = 1.5
	one := func(x float64) (g, slope float64) {
		c, gs, ss := [1]float64{x / b}, [1]float64{}, [1]float64{}
		radial.Exponential(b).Potential(c[:], gs[:], ss[:])
		return gs[0], ss[0]
	}
	var ofSlope, ofG worst
	for x := -700.0; x <= 700; x += 0.01237 {
		g, slope := one(x)
		want := math.Exp(b * (x / b))
		ofSlope.add(1, slope/want)
		ofG.add((want-1)/(want+1), g*b/(want+1)) // near c = 0 the error is that of the exponential, not of G
	}
	t.Logf("relative error of the slope %.1e, of G %.1e", ofSlope, ofG)
	requireDelta(t, 0, float64(ofSlope), 4e-12)
	requireDelta(t, 0, float64(ofG), 4e-12)
	for _, x := range []float64{-1e300, -746, -715, -701, 701, 719, 800, math.Inf(1), math.Inf(-1)} {
		_, slope := one(x)
		require.Equal(t, math.Exp(b*(x/b)), slope, "x = %g", x)
	}
	_, slope := one(math.NaN())
	require.True(t, math.IsNaN(slope))
}

// Zero is the limit of a small exponent, and that is the linear potential.
func TestExponentialZero(t *testing.T) {
	c := []float64{-2, 0, 0.5, 3}
	g, slope, g0, slope0 := make([]float64, 4), make([]float64, 4), make([]float64, 4), make([]float64, 4)
	radial.Exponential(0).Potential(c, g0, slope0)
	require.Equal(t, c, g0)
	require.Equal(t, []float64{1, 1, 1, 1}, slope0)
	radial.Exponential(1e-7).Potential(c, g, slope)
	for i := range c {
		requireDelta(t, g0[i], g[i], 1e-6)
		requireDelta(t, slope0[i], slope[i], 1e-6)
	}
}
