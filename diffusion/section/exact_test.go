package section_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/samples"
	"strandry/diffusion/section"
)

// Sealed everywhere, a uniform field stays as it is whatever the conductance does, and one that is not uniform keeps
// its content while it levels out.
func TestSealed(t *testing.T) {
	p := problems()["exponential, film"]
	p.Surface = radial.Exchange(func(_, _, _ float64) (j, dc, dq float64) { return 0, 0, 0 })
	for _, angles := range []int{section.CoarseAngles, section.UsualAngles, section.RefinedAngles, section.MaxAngles} {
		g := newGrid(t, 0.3, 2, angles)
		m := started(g, 0.7)
		through(t, m, p, 5, usual)
		for i, c := range m.C {
			requireDelta(t, 0.7, c, 1e-14, "node %d", i)
		}
		requireDelta(t, 0, m.Lost, 1e-14)
		m.Start(g, 0)
		for i := range m.C {
			m.C[i] = 1 + math.Sin(float64(i))
		}
		before := g.Content(m.C)
		through(t, m, p, 50, usual)
		requireDelta(t, before, g.Content(m.C), 1e-13)
		for i, c := range m.C {
			requireDelta(t, 2*before, c, 1e-4, "node %d", i)
		}
	}
}

// Fully exposed, the mean is that of the series (Crank; Carslaw & Jaeger; see package exact).
func TestFullyExposed(t *testing.T) {
	g := crossed(t, along(t, 30, 4), 1, 1, section.UsualAngles)
	for _, fo := range []float64{0.01, 0.0917, 0.334} {
		m := started(g, 1)
		through(t, m, drying(endless, 0, 1), fo, tight)
		requireDelta(t, 1-exact.ConstantUptake(fo), g.Mean(m.C), 3e-6)
	}
}

// Fully exposed, the march is that of package radial to round-off, in every kind of problem; and so it is with an exposed
// share that differs from one by less than can be seen.
func TestLikeRadial(t *testing.T) {
	r := along(t, 15, 3)
	all := problems()
	delete(all, "sudden")             // even steps cannot follow it
	delete(all, "exacting companion") // its differences are as small as the rounding
	for name, p := range all {
		s := rosenbrock.Settings{Steps: 40}
		one := &radial.March{}
		one.Start(r, 0.8)
		require.NoError(t, one.Advance(p, 0.6, s), "%s", name)
		for _, angles := range []int{section.MinAngles, section.UsualAngles, section.RefinedAngles} {
			where := fmt.Sprintf("%s, %d angles", name, angles)
			g := crossed(t, r, 1, 1+angles%3, angles)
			m := started(g, 0.8)
			through(t, m, p, 0.6, s)
			node := 1e-12
			if angles > section.UsualAngles {
				node = 1e-10 // the rounding of nodes that stand for next to nothing
			}
			for i, c := range m.C {
				requireDelta(t, one.C[i/angles], c, node, where)
			}
			requireDelta(t, r.Mean(one.C), g.Mean(m.C), 2e-12, where)
			requireDelta(t, one.Lost, m.Lost, 2e-12, where)
			requireDelta(t, one.Beside, m.Beside, 2e-12, where)
			profile := make([]float64, r.Len())
			require.NoError(t, m.Profile(profile))
			requireDelta(t, r.Centre(one.C), r.Centre(profile), 2e-12, where)
			requireDelta(t, one.C[r.Len()-1], g.Skin(m.C), 2e-12, where)
		}
		m := started(crossed(t, r, 1-1e-9, 1, section.UsualAngles), 0.8)
		through(t, m, p, 0.6, s)
		requireDelta(t, r.Mean(one.C), m.Grid.Mean(m.C), 1e-6, name)
	}
}

// The control of the step is that of package radial too.
func TestStepsLikeRadial(t *testing.T) {
	r := along(t, 15, 3)
	for name, p := range problems() {
		for _, s := range []rosenbrock.Settings{usual, {Tolerance: 1e-2, Floor: 5}} {
			one := &radial.March{}
			one.Start(r, 0.8)
			require.NoError(t, one.Advance(p, 0.6, s), name)
			m := started(crossed(t, r, 1, 1, section.UsualAngles), 0.8)
			through(t, m, p, 0.6, s)
			require.Equal(t, one.Stats, m.Stats, name)
			requireDelta(t, r.Mean(one.C), m.Grid.Mean(m.C), 1e-9, name)
		}
	}
}

// What has been lost is what the section holds less, to round-off.
func TestBalance(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for name, p := range problems() {
		for _, exposed := range samples.Each(2, []float64{section.MinExposed, 0.1, 0.5, 0.95, 0.9999, 1}) {
			for _, angles := range samples.Each(2, []int{section.MinAngles, section.CoarseAngles, section.UsualAngles, section.RefinedAngles, section.MaxAngles}) {
				g := newGrid(t, exposed, 1, angles)
				m := started(g, 0.8)
				before := g.Content(m.C)
				through(t, m, p, 0.4, usual)
				through(t, m, p, 0.4, usual)
				where := fmt.Sprintf("%s, %g exposed, %d angles", name, exposed, angles)
				requireDelta(t, before, g.Content(m.C)+m.Lost, 1e-12, where)
				require.Greater(t, math.Abs(m.Lost), 1e-6, where)
			}
		}
	}
}

// gathering is a held surface whose companion gathers the mean over time, 1 - 2 q for a start of one.
type gathering struct{ exposed float64 }

func (gathering) Conductance(_, _ float64, k []float64) bool {
	for i := range k {
		k[i] = 1
	}
	return false
}

func (g gathering) Exchange(_, c, q, _ float64) radial.Response {
	return radial.Response{Flux: endless * c, FluxC: endless, Load: (1 - 2*q) / g.exposed, LoadQ: -2 / g.exposed}
}

func (gathering) Drift(_, _ float64) float64 { return 0 }

func (gathering) Steady(float64) bool { return true }

func (gathering) Scale() float64 { return 1 }

// resistance is what n covered arcs add to that of the cylinder, in units of ln r: (2/n) ln sec(π covered/2), by conformal
// mapping. It is the slip length of a pipe whose wall is in parts free of friction: Philip, Journal of Applied Mathematics and
// Physics (ZAMP) 23 (1972) 353 (formula from memory; it agrees with the numbers of testdata/section).
func resistance(exposed float64, arcs int) float64 {
	return 2 / float64(arcs) * math.Log(1/math.Cos(math.Pi*(1-exposed)/2))
}

// The mean over all time of what is left is the mean of the steady field with a uniform source, which for a held surface is
// (1 + 4 × the added resistance)/8, exactly: a check of the whole march, and of the load on a companion.
func TestMeanTime(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, arcs := range samples.Each(2, []int{1, 2, section.MaxArcs}) {
		for _, exposed := range samples.Each(2, []float64{0.1, 0.25, 0.5, 0.95}) {
			want := (1 + 4*resistance(exposed, arcs)) / 8
			for angles, delta := range map[int]float64{section.UsualAngles: 6e-4, section.RefinedAngles: 3e-4} {
				m := started(newGrid(t, exposed, arcs, angles), 1)
				through(t, m, radial.Problem{Potential: radial.Linear{}, Companion: gathering{exposed}}, 60, rosenbrock.Settings{Tolerance: 1e-4})
				t.Logf("%d arcs, %g exposed, %d angles: %.6f of %.6f", arcs, exposed, angles, m.Beside, want)
				requireDelta(t, 1, m.Beside/want, delta, "%d arcs, %g exposed, %d angles", arcs, exposed, angles)
			}
		}
	}
}

// The more arcs, the more the section is like one that is fully exposed: the added resistance goes with 1/n.
func TestManyArcs(t *testing.T) {
	bare := 1 - exact.ConstantUptake(0.334)
	before := 0.0
	for arcs := 1; arcs <= section.MaxArcs; arcs *= 2 {
		m := started(newGrid(t, 0.5, arcs, section.RefinedAngles), 1)
		through(t, m, drying(endless, 0, 1), 0.334, tight)
		now := m.Grid.Mean(m.C) - bare
		require.Positive(t, now)
		if arcs > 1 {
			require.Less(t, now, before)
		}
		if arcs > 2 {
			requireDelta(t, 2, before/now, 0.15, "%d arcs", arcs)
		}
		before = now
	}
}
