package radial_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// A surface that rises linearly: exact.RampMean, Crank (1975) ch. 5.
func TestRamp(t *testing.T) {
	g := newGrid(t, 60, 2.5)
	m := started(g, 0)
	p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{},
		Surface: radial.Prescribed(func(t float64) float64 { return 3 * t })}
	for _, fo := range []float64{0.01, 0.05, 0.2, 1} {
		through(t, m, p, fo-m.Time, tight)
		requireDelta(t, 3*exact.RampMean(fo), g.Mean(m.C), 1e-7, "Fo = %g", fo)
		requireDelta(t, 3*exact.RampProfile(0, fo), g.Centre(m.C), 1e-6, "Fo = %g", fo)
	}
}

// A surface that approaches its last value with a lag: exact.ApproachMean.
func TestApproach(t *testing.T) {
	g := newGrid(t, 60, 2.5)
	for _, b := range []float64{1, 3, 40} {
		m := started(g, 0)
		p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{},
			Surface: radial.Prescribed(func(t float64) float64 { return -math.Expm1(-b * t) })}
		for _, fo := range []float64{0.01, 0.05, 0.2, 1} {
			through(t, m, p, fo-m.Time, tight)
			requireDelta(t, exact.ApproachMean(b, fo), g.Mean(m.C), 1e-6, "b = %g, Fo = %g", b, fo)
		}
	}
}

// Where only the conductance varies in time and the surface is held, time counts by
// ∫ k dt/R² alone: Crank (1975), ch. 7.
func TestReducedTime(t *testing.T) {
	const radius = 2.0
	g, err := radial.NewGrid(radius, 60, 3.5)
	require.NoError(t, err)
	k := inTime(func(t float64) float64 { return 0.3 + 0.25*math.Sin(2*t) })
	reduced := func(t float64) float64 { return (0.3*t + 0.125*(1-math.Cos(2*t))) / (radius * radius) }
	m := started(g, 1)
	p := radial.Problem{Conductance: k, Potential: radial.Linear{}, Surface: held(0)}
	for _, at := range []float64{0.5, 1, 3, 8} {
		through(t, m, p, at-m.Time, tight)
		requireDelta(t, 1-exact.ConstantUptake(reduced(at)), g.Mean(m.C), 2e-6, "t = %g", at)
		requireDelta(t, exact.ConstantProfile(0, reduced(at)), g.Centre(m.C), 2e-5, "t = %g", at)
	}
}

// Temperatures in steps with the surface dry; mean and centre left after each:
// exact.ReducedTime with D = 2e-12 m²/s exp[-(50000/R)(1/T - 1/298.15)] at 50, 80 and
// 65 °C (computed, independent code).
func TestStepsOfTemperature(t *testing.T) {
	const radius = 0.875e-3
	g, err := radial.NewGrid(radius, 60, 3.5)
	require.NoError(t, err)
	m := started(g, 1)
	for _, zone := range []struct{ d, duration, mean, centre float64 }{
		{9.521481521e-12, 600, 0.812648774, 1},
		{4.626619306e-11, 1200, 0.447144686, 0.917788372},
		{2.173760497e-11, 900, 0.380990032, 0.827758879},
	} {
		p := radial.Problem{Conductance: radial.Uniform(zone.d), Potential: radial.Linear{}, Surface: held(0)}
		through(t, m, p, zone.duration, tight)
		requireDelta(t, zone.mean, g.Mean(m.C), 2e-6)
		requireDelta(t, zone.centre, g.Centre(m.C), 2e-5)
	}
}

// Four zones that differ in diffusivity, film and surroundings; content in kg/kg
// after each, by projection on eigenfunctions (computed, independent code, 140
// modes). D at 45, 80, 100 and 55 °C.
func TestFourZones(t *testing.T) {
	const radius, film = 0.875e-3, 1.2e-7
	zones := []struct{ d, duration, around, mean, centre, surface float64 }{
		{4.69553512e-12, 120, 0.012, 0.0295998400, 0.0300000000, 0.0220994467},
		{2.5345546e-11, 300, 0.004, 0.0281125369, 0.0300000000, 0.0202582967},
		{5.76288761e-11, 300, 0.002, 0.0265584274, 0.0299926104, 0.0201108528},
		{7.88547788e-12, 180, 0.008, 0.0261121639, 0.0299888436, 0.0159039500},
	}
	for _, c := range []struct {
		nodes            int
		stretch          float64
		s                rosenbrock.Settings
		mean, skin, core float64
	}{
		{100, 3, tight, 1e-8, 1e-7, 1e-8},
		{25, 5, usual, 1e-5, 5e-5, 5e-5}, // a thousandth of the step, and less
	} {
		g, err := radial.NewGrid(radius, c.nodes, c.stretch)
		require.NoError(t, err)
		m := started(g, 0.03)
		for i, z := range zones {
			flux := radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return film * (c - z.around), film, 0 })
			through(t, m, radial.Problem{Conductance: radial.Uniform(z.d), Potential: radial.Linear{}, Surface: flux}, z.duration, c.s)
			t.Logf("zone %d, %d nodes: mean %.1e surface %.1e", i+1, c.nodes, g.Mean(m.C)-z.mean, surface(m)-z.surface)
			requireDelta(t, z.mean, g.Mean(m.C), c.mean, "zone %d", i+1)
			requireDelta(t, z.surface, surface(m), c.skin, "zone %d", i+1)
			requireDelta(t, z.centre, g.Centre(m.C), c.core, "zone %d", i+1)
		}
	}
}

// Stages at random against exact.Profile, node by node.
func TestStagesAtRandom(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	g := newGrid(t, 40, 3)
	for range 6 {
		m := started(g, 1)
		truth, err := exact.Uniform(1, 80)
		require.NoError(t, err)
		for range 4 {
			s := exact.Stage{
				Biot:         math.Pow(10, 3*random.Float64()-1),
				Fourier:      math.Pow(10, 2*random.Float64()-2.5),
				Surroundings: random.Float64(),
			}
			through(t, m, radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{},
				Surface: film(s.Biot, s.Surroundings)}, s.Fourier, tight)
			truth, err = truth.After(s)
			require.NoError(t, err)
			requireDelta(t, truth.Mean(), g.Mean(m.C), 2e-6, "%+v", s)
			for i, c := range m.C {
				requireDelta(t, truth.At(g.Node(i)), c, 1e-5, "%+v, r = %g", s, g.Node(i))
			}
		}
	}
}
