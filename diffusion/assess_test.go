package diffusion_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"

	"strandry/diffusion"
)

// Two values of a method of second order, 1 + h² at h = 0.2 and 0.1, and of one of first order, 1 + h: the coarse one is off by 0.04 and by 0.2, to
// which Roache (Verification and Validation in Computational Science and Engineering, 1998) adds a quarter. Steep fronts are of first order.
func TestGridConvergenceIndex(t *testing.T) {
	for _, beta := range []float64{0, 20, -300} {
		smooth := transit(t, beta)
		within(t, 1.25*0.04, smooth.GridConvergenceIndex(1.04, 1.01), 1e-12)
		within(t, 1.25*0.04, smooth.GridConvergenceIndex(0.96, 0.99), 1e-12)
	}
	steep := transit(t, 200)
	within(t, 1.25*0.2, steep.GridConvergenceIndex(1.2, 1.1), 1e-12)
}

// What refining does not show is less on a finer grid.
func TestUnseenErrorFallsWithTheGrid(t *testing.T) {
	m := transit(t, 100)
	at := func(resolution float64) float64 { return m.LeastError(diffusion.Settings{Resolution: resolution}) }
	require.Less(t, at(10), 0.6*at(5))
	require.GreaterOrEqual(t, at(4), at(5))
	require.Less(t, transit(t, 0).LeastError(diffusion.Settings{Resolution: 5}), 0.15*at(5), "no front without a diffusivity that grows")
}

// Data that end at 290 K serve at 291 K and not at 285 K; a limit at the very content is in doubt, one at twice it is not.
func TestWarningsAtTheirEdges(t *testing.T) {
	find := func(m *diffusion.Design, c diffusion.Concern) (diffusion.Warning, bool) {
		a := assess(t, m)
		i := slices.IndexFunc(a.Warnings, func(w diffusion.Warning) bool { return w.Concern == c })
		if i < 0 {
			return diffusion.Warning{}, false
		}
		return a.Warnings[i], true
	}
	m := transit(t, 0)
	m.Path = m.Path[2:]
	for temperature, told := range map[float64]bool{291: false, 285: true} {
		m.Path[0].Air.Temperature, m.StartTemperature = temperature, temperature
		w, found := find(m, diffusion.DiffusivityRange)
		require.Equal(t, told, found, "%g K", temperature)
		if told {
			within(t, 290, w.Limit, 1e-9)
			within(t, 285, w.Value, 0.2) // the room is drier than the strand, which evaporation cools
		}
	}
	m = transit(t, 0)
	mean := run(t, m).Nozzle.Mean
	for times, told := range map[float64]bool{1: true, 2: false} {
		m.Limit = times * mean
		_, found := find(m, diffusion.NumericalDoubt)
		require.Equal(t, told, found, "limit at %g of the content", times)
	}
}

// What is told of the errors, from two marches and their definition: the index of Roache, five thirds of the difference to the
// refined one, and the share that refining does not show, of the largest content of the state.
func TestErrorsByTheirDefinition(t *testing.T) {
	s, w := diffusion.DefaultSettings(), diffusion.NewMarch()
	var coarse, fine diffusion.Result
	for _, beta := range []float64{20, 0} { // with an unseen error above that of the skin, and below
		m := transit(t, beta)
		a, err := w.Assess(m, s)
		require.NoError(t, err)
		require.NoError(t, w.Run(&m.Model, s, &coarse))
		require.NoError(t, w.Run(&m.Model, s.Refined(), &fine))
		check := func(got diffusion.StateError, c, f diffusion.State) {
			unseen := m.LeastError(s)
			largest := max(c.Mean, f.Mean, c.Centre, c.Skin)
			within(t, 5./3*math.Abs(c.Mean-f.Mean)+unseen*max(c.Mean, f.Mean), got.Mean, 1e-12)
			within(t, 5./3*math.Abs(c.Centre-f.Centre)+unseen*largest, got.Centre, 1e-12)
			within(t, 5./3*math.Abs(c.Skin-f.Skin)+max(unseen, 2.5e-4)*largest, got.Skin, 1e-12)
		}
		check(a.Errors, coarse.Nozzle, fine.Nozzle)
		require.Equal(t, a.Errors.Mean, a.NumericalError)
		require.Len(t, a.ZoneErrors, 3)
		for i := range a.Zones {
			check(a.ZoneErrors[i], coarse.Zones[i].Exit, fine.Zones[i].Exit)
		}
	}
	// Along the radius, the refined profile between its nodes by another spline than the one in use, where no front adds to it.
	m := transit(t, 0)
	s = diffusion.Settings{Resolution: 3, Tolerance: 1e-2}
	a, err := w.Assess(m, s)
	require.NoError(t, err)
	require.NoError(t, w.Run(&m.Model, s, &coarse))
	require.NoError(t, w.Run(&m.Model, s.Refined(), &fine))
	var curve interp.NotAKnotCubic
	require.NoError(t, curve.Fit(fine.Radius, fine.Profile))
	worst := 0.0
	for i, r := range coarse.Radius {
		worst = max(worst, 5./3*math.Abs(coarse.Profile[i]-curve.Predict(r)))
	}
	require.Greater(t, worst, 1.2*max(a.Errors.Centre, a.Errors.Skin), "a case that tests nothing")
	within(t, 1, a.Errors.Profile/worst, 0.4)
}

// What refining does not show: a front of a diffusivity that changes with the content, upwards or downwards, and a cover that
// keeps its place, 3e-4 and 2e-4; one that wanders brings none.
func TestUnseenErrors(t *testing.T) {
	at := func(beta float64, c diffusion.Contact) float64 {
		m := transit(t, beta)
		m.Path[1].Contact = c
		return m.LeastError(diffusion.DefaultSettings())
	}
	open, fixed, moving := diffusion.Contact{}, diffusion.Contact{Covered: 0.5, Arcs: 1}, diffusion.Contact{Covered: 0.5, Arcs: 1, Moves: true}
	within(t, 5e-5, at(0, open), 1e-15)
	within(t, 5e-5, at(0, moving), 1e-15)
	within(t, 2.5e-4, at(0, fixed), 1e-15)
	within(t, 3.5e-4, at(100, open), 1e-15)
	within(t, 3.5e-4, at(-100, open), 1e-15)
	within(t, 5.5e-4, at(100, fixed), 1e-15)
}
