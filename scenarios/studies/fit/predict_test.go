package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials"
	"strandry/scenarios"
)

// The masses that are predicted are those of the equation in doc.go, by marches: dry mass, water, drift, each in its place.
func TestPredict(t *testing.T) {
	w := lain(t, "pa6", 80, 36, "dry_mass = \"20.1 g\"\n")
	w.Scale.Drift = math.Inf(1)
	p, err := newParameters(w, Known{Beta: scenarios.Fixed, Activation: true})
	require.NoError(t, err)
	x := append([]float64(nil), p.begin...)
	law := &w.Model.Material.Diffusivity
	const dry, drift, energy = 0.0202, 3e-10, 6e4
	x[0] += 0.13
	x[p.activation], x[p.drift], x[p.dry[0]], x[p.start[0]] = energy, drift, dry, 0.031
	run := &w.Runs[0]
	require.InDelta(t, 353.15, p.middle, 1e-9)
	direct := marched(t, w, run, properties{math.Log(law.Dry(353.15)) + 0.13, 0.031, law.Beta.Value})
	out := make([]float64, len(p.readings))
	require.NoError(t, p.predict(x, out))
	require.Len(t, out, len(run.Points)+1)
	for k, point := range run.Points {
		require.InDelta(t, dry*(1+direct[k])+drift*point.Time, out[k], 1e-4*0.03*dry)
	}
	require.Equal(t, dry, out[len(run.Points)], "dried out it is weighed at once")
	// The energy turns the logarithm of the diffusivity about the middle temperature.
	require.InDelta(t, x[0], p.logDiffusivity(x, p.middle), 1e-12)
	require.InDelta(t, x[0]+energy/materials.GasConstant*(1/353.15-1/373.15), p.logDiffusivity(x, 373.15), 1e-9)
	fixed, err := newParameters(w, Known{Beta: scenarios.Fixed})
	require.NoError(t, err)
	require.InDelta(t, x[0]+math.Log(law.Dry(333.15)/law.Dry(353.15)), fixed.logDiffusivity(x, 333.15), 1e-9)
}

// What is stated of the drift is a prior about none; what the library says counts by its own range.
func TestPriors(t *testing.T) {
	w := lain(t, "pa6", 80, 36, "")
	w.Scale.Drift = 2e-10
	p, err := newParameters(w, Known{Beta: scenarios.Fitted, Activation: true, Prior: true})
	require.NoError(t, err)
	law := &w.Model.Material.Diffusivity
	prior := p.problem.Prior
	require.InDelta(t, 2e-10/1.645, prior[p.drift].Deviation, 1e-13)
	require.Zero(t, prior[p.drift].Mean)
	require.InDelta(t, math.Log(law.Scatter.Value)/1.645, prior[0].Deviation, 1e-3)
	require.InDelta(t, math.Log(law.Dry(353.15)), prior[0].Mean, 1e-9)
	require.InDelta(t, law.Beta.Value, prior[p.beta].Mean, 1e-12)
	require.InDelta(t, (law.Beta.High-law.Beta.Low)/2/1.645, prior[p.beta].Deviation, 1e-3*law.Beta.High)
	last := law.Pieces[len(law.Pieces)-1]
	require.Less(t, last.From, 353.15)
	energy := last.Activation
	require.InDelta(t, energy.Value, prior[p.activation].Mean, 1)
	require.InDelta(t, (energy.High-energy.Low)/2/1.645, prior[p.activation].Deviation, 10)
	for i := range p.begin {
		require.Less(t, p.problem.Lower[i], p.begin[i])
		require.Greater(t, p.problem.Upper[i], p.begin[i])
	}
}

// Weighings that are made up are rounded as the scale rounds, and shifted by its noise.
func TestImagined(t *testing.T) {
	w, err := scenarios.ReadPlan("p.toml", []byte("[strand]\nmaterial = \"pa6\"\n[[run]]\nfile = \"a.csv\"\ntemperature = \"80 °C\"\nair = { dew_point = \"-10 °C\" }\n[plan]\nstrand = \"20 g\"\n"), nil)
	require.NoError(t, err)
	p := &Plan{Weighings: w, Runs: []PlannedRun{{Times: []float64{0, 3600, 7200, 36000}}}}
	const scale, noise = 1e-4, 3e-4
	exact, err := p.imagined(scale, 0.02, 1, nil)
	require.NoError(t, err)
	shown, err := p.imagined(scale, 0.02, 1, func() float64 { return noise })
	require.NoError(t, err)
	for k, point := range shown.Runs[0].Points {
		require.InDelta(t, math.Round(point.Mass/scale), point.Mass/scale, 1e-9)
		require.InDelta(t, exact.Runs[0].Points[k].Mass+noise, point.Mass, scale/2*(1+1e-9))
	}
	require.InDelta(t, 0.02*(1+w.Runs[0].Start), exact.Runs[0].Points[0].Mass, 1e-6)
}
