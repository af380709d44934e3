package section_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/samples"
	"strandry/diffusion/section"
)

// choice is a resolution: a radial grid, angles and a tolerance.
type choice struct {
	nodes     int
	stretch   float64
	angles    int
	tolerance float64
}

// off is how far a choice is from a table: largest and root mean square.
func (c choice) off(t *testing.T, rows []map[string]float64) (largest, rms float64) {
	t.Helper()
	r := along(t, c.nodes, c.stretch)
	s := rosenbrock.Settings{Tolerance: c.tolerance}
	m := &section.March{}
	var before map[string]float64
	where := ""
	for _, row := range rows {
		begins := before["fo"] >= row["fo"]
		for _, key := range []string{"share", "arcs", "b", "bi", "rewet"} {
			begins = begins || row[key] != before[key]
		}
		if begins {
			m.Start(crossed(t, r, row["share"], int(row["arcs"]), c.angles), 1)
		}
		before = row
		p := drying(endless, row["b"], 1)
		if biot, given := row["bi"]; given {
			p.Surface = film(biot, 0)
			const turns = 0.2 // where it is wetted again, by surroundings of one half
			if row["rewet"] > 0 && m.Time < turns {
				through(t, m, p, turns-m.Time, s)
			}
			if row["rewet"] > 0 && row["fo"] > turns {
				p.Surface = film(biot, 0.5)
			}
		}
		through(t, m, p, row["fo"]-m.Time, s)
		d := math.Abs(m.Grid.Mean(m.C) - row["mean"])
		rms += d * d / float64(len(rows))
		if !(d <= largest) { // NaN stays
			largest, where = d, fmt.Sprint(row)
		}
	}
	t.Logf("%2d radii, %2d angles, tolerance %g: largest %.5f, rms %.6f, at %s", c.nodes, c.angles, c.tolerance, largest, math.Sqrt(rms), where)
	return largest, math.Sqrt(rms)
}

// The mean under held arcs, one, two and four, with a diffusivity that grows with content up to exp(3) times, and under
// films, of strands that dry and are wetted again, against independent solutions of another kind (see the
// headers of the tables). The limits are what package doc says.
func TestReference(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	held, films := samples.Each(9, numbers(t, "covered.csv")), samples.Each(9, numbers(t, "covered-film.csv"))
	before, beforeFilms := math.Inf(1), math.Inf(1)
	for _, c := range []struct {
		choice
		limit, limitFilms float64
	}{
		{choice{15, 3, section.CoarseAngles, 1e-3}, 1.6e-3, 3e-3},
		{choice{15, 3, section.UsualAngles, 1e-3}, 6e-4, 8e-4},
		{choice{15, 3, section.RefinedAngles, 1e-4}, 1.5e-4, 2e-4},
		{choice{30, 4, section.MaxAngles, 1e-5}, 6e-5, 1e-4},
	} {
		largest, rms := c.off(t, held)
		require.Less(t, largest, c.limit)
		require.Less(t, rms, before)
		before = rms
		largest, rms = c.off(t, films)
		require.Less(t, largest, c.limitFilms)
		require.Less(t, rms, beforeFilms)
		beforeFilms = rms
	}
}

// However thin the gaps at the surface are, the error is that of the angles.
func TestThinGaps(t *testing.T) {
	var rows []map[string]float64
	for _, row := range numbers(t, "covered.csv") {
		if row["arcs"] == 1 && row["b"] == 0 {
			rows = append(rows, row)
		}
	}
	require.Greater(t, len(rows), 20)
	rows = samples.Each(3, rows)
	for _, c := range []choice{{30, 6, section.UsualAngles, 1e-3}, {60, 12, section.UsualAngles, 1e-3}} {
		largest, _ := c.off(t, rows)
		require.Less(t, largest, 6e-4)
	}
	largest, _ := choice{60, 12, section.RefinedAngles, 1e-4}.off(t, rows)
	require.Less(t, largest, 1.5e-4)
}

// Films and shares that the table leaves out, against a finer grid.
func TestFilms(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	fine, coarse := along(t, 20, 3), along(t, 15, 3)
	for _, biot := range []float64{0.3, 3, 30} {
		for _, exposed := range []float64{0.25, 0.75, 0.95} {
			best := started(crossed(t, fine, exposed, 1, section.MaxAngles), 1)
			usually := started(crossed(t, coarse, exposed, 1, section.UsualAngles), 1)
			for _, fo := range []float64{0.01, 0.1, 0.33, 1} {
				through(t, best, drying(biot, 0, 1), fo-best.Time, rosenbrock.Settings{Tolerance: 1e-4})
				through(t, usually, drying(biot, 0, 1), fo-usually.Time, usual)
				requireDelta(t, best.Grid.Mean(best.C), usually.Grid.Mean(usually.C), 1e-3, "Biot %g, %g exposed, Fo %g", biot, exposed, fo)
			}
		}
	}
}

// Even with small shares of the perimeter, which the table leaves out, more angles converge.
func TestSmallShares(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, exposed := range []float64{section.MinExposed, 0.03, 0.1} {
		best := started(crossed(t, along(t, 30, 4), exposed, 1, section.MaxAngles), 1)
		through(t, best, drying(endless, 0, 1), 0.1, tight)
		before := math.Inf(1)
		for _, angles := range []int{section.CoarseAngles, section.UsualAngles, section.RefinedAngles} {
			m := started(newGrid(t, exposed, 1, angles), 1)
			through(t, m, drying(endless, 0, 1), 0.1, tight)
			now := math.Abs(m.Grid.Mean(m.C) - best.Grid.Mean(best.C))
			t.Logf("%g exposed, %d angles: off by %.5f", exposed, angles, now)
			require.Less(t, now, max(before/1.5, 1e-4))
			before = now
		}
		require.Less(t, before, 2e-3)
	}
}

// slope is the order between two errors, the coarse spacing or step ratio times the fine.
func slope(coarse, fine, ratio float64) float64 { return math.Log(coarse/fine) / math.Log(ratio) }

// The order in the radial spacing, at fixed angles, against many radii. The flux is exact for steady fields, and
// the storage is of fourth order along the radius; that each mode is stored with the same weights leaves an
// error of the second order, which is small.
func TestOrderInRadii(t *testing.T) {
	mean := func(nodes int) float64 {
		m := started(crossed(t, along(t, nodes, 2), 0.5, 1, section.UsualAngles), 1)
		through(t, m, drying(3, 1, 1), 0.2, rosenbrock.Settings{Tolerance: 1e-9})
		return m.Grid.Mean(m.C)
	}
	best := mean(160)
	before := mean(10) - best
	for _, nodes := range []int{20, 40} {
		now := mean(nodes) - best
		t.Logf("%d radii: off by %.2e, order %.2f", nodes, now, slope(math.Abs(before), math.Abs(now), 2))
		require.Less(t, math.Abs(now), math.Abs(before)/2.5)
		before = now
	}
	require.Less(t, math.Abs(before), 1e-4)
}

// lively has everything that can vary, slow beside its own frequencies, so that a coarse grid is not stiff.
func lively() radial.Problem {
	return radial.Problem{
		Conductance: inTime(func(t float64) float64 { return 0.004 * (1 + 0.5*math.Sin(6*t)) }),
		Potential:   radial.Exponential(1.2),
		Surface: radial.Exchange(func(t, c, q float64) (j, dc, dq float64) {
			return 0.2 * (c*c - 0.5 - 0.4*math.Sin(5*t) - 2*q), 0.4 * c, -0.4
		}),
	}
}

// coupled is a companion that turns all derivatives on.
type coupled struct{ airs }

func (coupled) Conductance(t, x float64, k []float64) bool {
	for i := range k {
		k[i] = 0.004 * (1 + x*x + 0.5*math.Sin(6*t))
	}
	return false
}

func (coupled) Exchange(t, c, q, x float64) radial.Response {
	j := 0.2 * (c*c - 0.3*x*(1+0.2*math.Sin(5*t)) - 0.5*q)
	return radial.Response{Flux: j, FluxC: 0.4 * c, FluxQ: -0.1, Load: -3 * j, LoadC: -1.2 * c, LoadQ: 0.3}
}

// The orders in the step are those of the method where nothing is stiff, with all that can vary.
func TestOrderInTime(t *testing.T) {
	g := crossed(t, along(t, radial.MinNodes, 0), 0.5, 1, section.MinAngles)
	for name, p := range map[string]radial.Problem{"lively": lively(), "coupled": {Potential: radial.Exponential(1.2), Companion: coupled{}}} {
		run := func(steps int) []float64 {
			m := started(g, 1)
			through(t, m, p, 2, rosenbrock.Settings{Steps: steps})
			return append([]float64{m.Lost, m.Beside}, m.C...)
		}
		best := run(1280)
		off := func(steps int) (field, lost float64) {
			now := run(steps)
			for i, v := range best {
				field = math.Max(field, math.Abs(now[i]-v))
			}
			return field, math.Abs(now[0] - best[0])
		}
		field1, lost1 := off(80)
		field2, lost2 := off(160)
		t.Logf("%s: %.2f in the field, %.2f in what is lost", name, slope(field1, field2, 2), slope(lost1, lost2, 2))
		require.Greater(t, slope(field1, field2, 2), rosenbrock.Order-0.35, name)
		require.Greater(t, slope(lost1, lost2, 2), rosenbrock.Order-0.35, name)
	}
}
