package table

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// A strand far outside of what the library says is told from one that is merely outside.
func TestFarFromTheLibrary(t *testing.T) {
	f := Fit{Outcome: &fit.Outcome{Weighings: &scenarios.Weighings{}, Library: fit.Between{Value: 1, Low: 1. / 3, High: 3}}}
	for value, want := range map[float64]string{2: "", 5: "lies outside of that, which happens one time in ten", 1. / 5: "lies outside", 10: "far outside", 0.1: "far outside"} {
		f.Outcome.Diffusivity.Value = value
		require.Contains(t, f.compared(), want)
	}
	f.Outcome.Diffusivity.Value = 2
	require.NotContains(t, f.compared(), "outside")
}

// A plan that fails says so in digits that differ from what is wanted, and of which water it speaks.
func TestPlanInWords(t *testing.T) {
	w := &scenarios.Weighings{Runs: []scenarios.Run{{Start: 0.027}}}
	w.Plan.Factor = 1.3
	w.Model.Radius, w.Model.Material.Density.Value = 1e-3, 1000
	f := FitPlan{Plan: &fit.Plan{Weighings: w, Runs: []fit.PlannedRun{{Water: 0.02}}, Chosen: fit.Option{Strand: 0.0071234, Factor: 1.32}}}
	require.Contains(t, f.Answer(), "(2.3 m)")
	require.Contains(t, f.Answer(), "within a factor of 1.32 either way; ")
	f.Plan.Chosen.Factor = 1.26
	require.Contains(t, f.Answer(), "within 26 % either way if the strand is what the library says, and less well too often where it is not; ")
	f.Plan.Chosen.Factor = math.Inf(1)
	require.Contains(t, f.Answer(), "this cannot work: of 7.123 g of strand (2.3 m) no more than 0.14 g of water moves")
	f.Plan.Runs[0].Water = 0
	require.Contains(t, f.Answer(), "at rest with this air from the beginning")
	require.Contains(t, f.wet(), "begin with 2.7 % of water")
	w.Runs[0].StartKnown = true
	require.Empty(t, f.wet())
}

// A noise that stands for none is not called a finding.
func TestNoiseThatDoesNotShow(t *testing.T) {
	o := &fit.Outcome{Weighings: &scenarios.Weighings{}}
	o.Weighings.Scale.Resolution = 1e-5
	f := Fit{Outcome: o}
	o.Noise.Value = 2.25e-7
	require.Contains(t, f.noise(), "next to no noise")
	o.Noise.Value = 1.6e-6
	require.Contains(t, f.noise(), "some 0.0016 g")
	require.Contains(t, f.helped(), "usual strand")
	o.Told = true
	require.Contains(t, f.helped(), "a strand like this")
}
