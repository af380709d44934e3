package buildlog

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

func assessed(t *testing.T, name string) (*scenarios.Scenario, *diffusion.Assessment) {
	t.Helper()
	text, err := scenarios.DemoText(name)
	require.NoError(t, err)
	s, err := scenarios.Read(name+".toml", append(text, "\n[numerics]\nresolution = 2.5\ntolerance = 0.05\n"...))
	require.NoError(t, err)
	a, err := diffusion.NewMarch().Assess(&s.Design, s.Settings)
	require.NoError(t, err)
	return s, a
}

func TestEveryStudyOfADemonstration(t *testing.T) {
	s, a := assessed(t, "lamp-shade")
	steps := 0
	v, err := Of(context.Background(), s, a, func() { steps++ })
	require.NoError(t, err)
	require.Equal(t, Steps, steps)
	require.Empty(t, v.MapReason+v.NeededReason+v.SuitsReason+v.Length.Reason+v.Heat.Reason+v.Feed.Reason+v.VariedReason+v.KeepsReason)
	require.Equal(t, "feed.bead.speed", v.Feed.Answer.Key.Name)

	// The map holds the scenario's own design and what can be built.
	lengths, feeds := v.Map.Axes[0].Values, v.Map.Axes[1].Values
	for _, x := range []float64{s.Model.Path[v.Zone].Length, s.Build.Longest} {
		require.True(t, lengths[0] < x && x < lengths[len(lengths)-1], "%g m", x)
	}
	own := s.FeedKey().Value
	// Its feeds are those of the lengths needed, rounded outwards to 1, 2 or 5.
	asked := v.Needed.Speeds
	for end, least := range map[float64]float64{own / feeds[0]: s.Model.Speed / asked[0], feeds[len(feeds)-1] / own: asked[len(asked)-1] / s.Model.Speed} {
		require.True(t, least <= end*(1+1e-9) && end < 2.5*least, "%g of %g", end, least)
	}
	rows, columns := chartValues(s)
	require.Equal(t, rows*columns, v.Map.Answered())
	require.Equal(t, [...]int{rows, columns}, [...]int{len(lengths), len(feeds)})

	require.Equal(t, s.Vary[0].Len(), v.Varied.Answered())
	require.Len(t, v.Keeps.Rows, 1)
	require.Equal(t, s.Model.Material.ID, v.Keeps.Rows[0].Material.ID)

	// A larger resistance of the film dries less: the band holds the answer inside.
	require.Less(t, v.Film.Low, a.Nozzle.Mean)
	require.Greater(t, v.Film.High, a.Nozzle.Mean)
	require.Equal(t, a.Zones[0].Film.Uncertainty, v.Film.Heat)
}

// Heat and mass each go to their own ends: k_m is as uncertain as h and two thirds of the 5 % of the diffusivity of vapour
// (what is taken below 46 °C). The ends are those of runs with the coefficients written into the scenario.
func TestFilmGoesToBothEnds(t *testing.T) {
	s, a := assessed(t, "lamp-shade")
	w := diffusion.NewMarch()
	f, err := films(w, s, a)
	require.NoError(t, err)
	require.InEpsilon(t, math.Hypot(f.Heat, 0.05*2/3), f.Mass, 1e-9)
	require.Positive(t, f.Heat)
	with := func(heat, mass float64) float64 {
		z := a.Zones[0].Film
		given, err := s.With(scenarios.Setting{Key: "zone.warm box.h", Value: fmt.Sprintf("%.17g W/m2/K", z.Heat*heat)},
			scenarios.Setting{Key: "zone.warm box.k_m", Value: fmt.Sprintf("%.17g m/s", z.Mass*mass)})
		require.NoError(t, err)
		var r diffusion.Result
		require.NoError(t, w.Run(&given.Model, given.Settings, &r))
		return r.Nozzle.Mean
	}
	// What is given in the scenario does not follow the strand, but answers to a factor alike.
	mean := a.Nozzle.Mean
	require.InEpsilon(t, with(1+f.Heat, 1+f.Mass)-with(1, 1), f.Low-mean, 0.25)
	require.InEpsilon(t, with(1/(1+f.Heat), 1/(1+f.Mass))-with(1, 1), f.High-mean, 0.25)
}

func TestInterrupted(t *testing.T) {
	s, a := assessed(t, "lamp-shade")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Of(ctx, s, a, func() {})
	require.ErrorIs(t, err, context.Canceled)
}

// Coefficients that the scenario gives are taken as exact.
func TestGivenFilmHasNoUncertainty(t *testing.T) {
	s, _ := assessed(t, "lamp-shade")
	s, err := s.With(scenarios.Setting{Key: "zone.warm box.h", Value: "20 W/m2/K"}, scenarios.Setting{Key: "zone.warm box.k_m", Value: "20 mm/s"})
	require.NoError(t, err)
	w := diffusion.NewMarch()
	a, err := w.Assess(&s.Design, s.Settings)
	require.NoError(t, err)
	f, err := films(w, s, a)
	require.NoError(t, err)
	require.Equal(t, Film{Low: a.Nozzle.Mean, High: a.Nozzle.Mean}, f)
}

func TestRound(t *testing.T) {
	for _, c := range []struct{ x, down, up float64 }{{3, 2, 5}, {7, 5, 10}, {0.02, 0.02, 0.02}, {1, 1, 1}, {999, 500, 1000}, {0.0011, 0.001, 0.002}} {
		require.InEpsilon(t, c.down, round(c.x, false), 1e-12, "%g", c.x)
		require.InEpsilon(t, c.up, round(c.x, true), 1e-12, "%g", c.x)
	}
}

// A study that cannot be made says why, and the others are there: air whose dew point lies above the usual
// temperatures of a material that bears little heat.
func TestStudyThatCannotBeMade(t *testing.T) {
	s, err := scenarios.Read("wet.toml", []byte(`title = "moist heat"
[strand]
material = "pcl"
properties = { melting = "300 °C" } # so that it does not melt
[feed]
flow = "0.3 mL/min"
[[zone]]
name = "bath"
length = "2 m"
temperature = "90 °C"
air = { dew_point = "75 °C" }
[numerics]
resolution = 2.5
tolerance = 0.05
`))
	require.NoError(t, err)
	a, err := diffusion.NewMarch().Assess(&s.Design, s.Settings)
	require.NoError(t, err)
	v, err := Of(context.Background(), s, a, func() {})
	require.NoError(t, err)
	require.Contains(t, v.NeededReason, "saturation")
	require.Nil(t, v.Needed)
	require.NotNil(t, v.Suits)
	require.NotNil(t, v.Map)
	require.Equal(t, "feed.flow", v.Feed.Answer.Key.Name)
}
