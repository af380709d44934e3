package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// restingPlan is the plan for a coil of nylon that lay in the room, in air of 23 °C.
func restingPlan(t *testing.T, humidity string) *fit.Plan {
	t.Helper()
	text := "[strand]\nmaterial = \"pa6\"\n[scale]\nresolution = \"0.01 g\"\n[[run]]\nfile = \"a.csv\"\ntemperature = \"23 °C\"\nair = { humidity = \"" + humidity +
		"\" }\n[room]\ntemperature = \"23 °C\"\nhumidity = \"50 %\"\n[plan]\nweighings = 8\n"
	w, err := scenarios.ReadPlan("plan.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := fit.MakePlan(w, nil)
	require.NoError(t, err)
	return p
}

// A strand at rest with the air has no water to move: the plan says so, in finite numbers.
func TestPlanAtRest(t *testing.T) {
	p := restingPlan(t, "50 %")
	require.False(t, p.Enough)
	require.Zero(t, p.Runs[0].Left)
	require.InDelta(t, 0, p.Runs[0].Water, 1e-9)
	require.True(t, math.IsInf(p.Chosen.Factor, 1))
}

// A scale that was tried and does not do is not what it takes instead.
func TestPlanTakesAFinerScale(t *testing.T) {
	p := restingPlan(t, "61 %")
	require.False(t, p.Enough)
	require.LessOrEqual(t, p.Chosen.Factor, p.Weighings.Plan.Factor) // to first order it would do
	require.Positive(t, p.Scale.Scale)
	require.Less(t, p.Scale.Scale, p.Weighings.Scale.Resolution)
}

// A finer scale does not take away what comes from elsewhere.
func TestScatterIsNotOfTheScale(t *testing.T) {
	s := nylon()
	s.count, s.dry, s.noise, s.tables = samples.Of(8, 12, 12), 0.005, 1e-4, keepsBeta
	o := found(t, s.weighed(t, 3), fit.Options{})
	require.Contains(t, kinds(o), fit.Scatter)
	require.NotEmpty(t, o.Helps)
	for _, h := range o.Helps {
		require.NotEqual(t, fit.FinerScale, h.Kind)
	}
}
