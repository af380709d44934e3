package table

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// planned is made up: a plan of which a scale of 0.01 g and 20 g of strand are enough.
func planned() *FitPlan {
	w := weighings()
	w.Plan = scenarios.Planned{Factor: 1.3, Longest: 48 * 3600, Count: 4}
	return &FitPlan{Version: "0.0.0", Plan: &fit.Plan{
		Weighings: w, Runs: []fit.PlannedRun{{Times: []float64{0, 1800, 7200, 16200}, Left: 0.048, Water: 0.027}, {Times: []float64{0, 600, 2100, 5400}, Left: -1e-9, Water: 0.02}},
		Scales: []float64{1e-4, 1e-5}, Strands: []float64{0.01, 0.02}, Factors: [][]float64{{math.Inf(1), 2.41}, {1.52, 1.23}}, Library: 3,
		Chosen: fit.Option{Scale: 1e-5, Strand: 0.02, Factor: 1.23, Tried: []fit.Trial{{Faster: 0.4, Factor: 1.28, Told: true}, {Faster: 1, Factor: 1.21, Told: true}, {Faster: 2.5, Factor: 4, Told: false}}},
		Enough: true,
	}}
}

func TestGoldenFitPlan(t *testing.T) {
	text, data := told(t, planned())
	golden(t, "fit-plan.txt", text)
	golden(t, "fit-plan.json", data)

	p := planned()
	p.Plan.Enough, p.Plan.Weighings.Assumed, p.Plan.Weighings.Scale.Resolution = false, nil, 1e-4
	p.Plan.Chosen = fit.Option{Scale: 1e-4, Strand: 0.01, Factor: math.Inf(1)}
	p.Plan.Scale = fit.Option{Scale: 1e-5, Strand: 0.02, Factor: 1.23}
	p.Plan.Design = &fit.DesignPlan{Design: &scenarios.Scenario{Title: "Attic dryer"}, Probability: 0.42, After: []float64{0.42}}
	text, data = told(t, p)
	golden(t, "fit-plan-no.txt", text)
	require.Contains(t, data, `"factor": null`)
}

// The answer of a plan: yes, no and what would do instead, not with any scale, or no hope at all.
func TestAnswersOfPlan(t *testing.T) {
	p := planned()
	require.Equal(t, "yes: a scale that shows 0.01 g and 20 g of strand (8.3 m) should do: known within 23 % either way", p.Answer())
	p.Plan.Enough, p.Plan.Chosen.Factor = false, 1.8
	require.Equal(t, "no: with 20 g of strand (8.3 m) a scale that shows 0.01 g leaves it known within a factor of 1.8 either way; no scale of those below does. Longer runs, a wetter strand or drier air might", p.Answer())
	p.Plan.Scale = fit.Option{Scale: 1e-6, Strand: 0.01, Factor: 1.1}
	require.Equal(t, "no: with 20 g of strand (8.3 m) a scale that shows 0.01 g leaves it known within a factor of 1.8 either way; it takes a scale that shows 0.001 g, with 10 g of strand (4.2 m)", p.Answer())
	p.Plan.Chosen.Factor = math.Inf(1)
	require.Equal(t, "no, this cannot work: of 20 g of strand (8.3 m) no more than 0.54 g of water moves, and a scale that shows 0.01 g hardly sees it; it takes a scale that shows 0.001 g, with 10 g of strand (4.2 m)", p.Answer())
}

// What was tried, and what a design would gain.
func TestPlanTriedAndDesign(t *testing.T) {
	p := planned()
	require.Equal(t, "weighings made up for 3 strands, from slow to fast by what the library says: 2 told the diffusivity, within a factor of 1.28, 1.21", p.tried())
	for i := range p.Plan.Chosen.Tried {
		p.Plan.Chosen.Tried[i].Told = false
	}
	require.Equal(t, "weighings made up for 3 strands, from slow to fast by what the library says: 0 told the diffusivity", p.tried())
	p.Plan.Design = &fit.DesignPlan{Design: &scenarios.Scenario{Title: "Attic dryer", File: "attic.toml"}, Probability: 0.62, After: []float64{0.01, 0.2, 0.7, 0.95, 1}, Sure: 3}
	require.Equal(t, "Attic dryer: as far as is known now it meets its limit 62 times in 100; with the strand weighed, the verdict would be sure, one way or the other, for 3 of 5 strands as the library has them", p.design())
	_, data := told(t, p)
	require.Contains(t, data, `"file": "attic.toml"`)
	require.Contains(t, data, `"sure": 3`)
	p.Plan.Design.After = p.Plan.Design.After[:1]
	require.Equal(t, "Attic dryer: as far as is known now it meets its limit 62 times in 100; these weighings would not change that", p.design())
}

// Times at which to weigh are refused where they are no numbers; a factor that is infinite is told.
func TestPlanIsFinite(t *testing.T) {
	p := planned()
	p.Plan.Runs[0].Times[1] = math.NaN()
	require.Error(t, p.Check())
	require.Equal(t, "–", p.cell(math.Inf(1)))
	require.Equal(t, "–", p.cell(3))
	require.Equal(t, "2.99", p.cell(2.99))
	require.Equal(t, "–", p.cell(math.NaN()))
}
