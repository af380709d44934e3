package table

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/estimation"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// weighings are made up: two runs of a strand that does not exist.
func weighings() *scenarios.Weighings {
	run := func(name string, celsius float64, masses ...float64) scenarios.Run {
		r := scenarios.Run{File: name + ".csv", Sum: "5e", Zone: diffusion.Zone{Name: name, Duration: 36000, Air: diffusion.Air{Temperature: celsius + 273.15, VapourPressure: 260}}}
		for i, mass := range masses {
			r.Points = append(r.Points, scenarios.Weighing{Time: 12000 * float64(i), Mass: mass, Line: i + 2})
		}
		return r
	}
	w := &scenarios.Weighings{File: "reedon-weighings.toml", Title: "Reedon of the attic", Scale: scenarios.Scale{Resolution: 1e-5},
		Runs:    []scenarios.Run{run("warm", 60, 0.0206, 0.0204, 0.0203, 0.0202), run("a run with a long name", 80.5, 0.0206, 0.0203, 0.0202)},
		Noted:   []string{"run[1].file: columns that are not read: humour"},
		Assumed: []string{"scale.resolution: 0.01 g, the smallest step seen in the masses"},
	}
	w.Machine = &scenarios.Scenario{File: "attic.toml"}
	w.Runs[1].DryMass, w.Runs[1].DryMassKnown = 0.0201, true
	w.Model.Material, w.Model.Radius = polymer(), 0.875e-3
	return w
}

// fitted is made up: what weighings of two temperatures tell.
func fitted() *Fit {
	band := []fit.Between{{Value: 0.0206, Low: 0.0205, High: 0.0207}}
	return &Fit{Version: "0.0.0", Outcome: &fit.Outcome{
		Weighings: weighings(), Known: fit.Known{Beta: scenarios.Fitted, Activation: true, Prior: true},
		Temperature: 343.15, Diffusivity: fit.Between{Value: 4e-12, Low: 3.8e-12, High: 4.3e-12}, Library: fit.Between{Value: 2.5e-12, Low: 0.8e-12, High: 7.5e-12},
		Activation: fit.Between{Value: 52e3, Low: 48e3, High: 56e3}, Beta: fit.Between{Value: 21.4, Low: 15, High: 28}, Correlation: [3]float64{0.05, -0.6, 0.1},
		PriorShare: 0.042, Drift: fit.Between{Value: -5e-7 / 3600, Low: -9e-7 / 3600, High: 1e-7 / 3600}, Noise: fit.Between{Value: 3.1e-6, Low: 1e-6, High: 5e-6},
		Runs: []fit.RunOutcome{
			{Diffusivity: fit.Between{Value: 2e-12, Low: 1.9e-12, High: 2.1e-12}, Start: fit.Between{Value: 0.03, Low: 0.028, High: 0.032}, Dry: fit.Between{Value: 0.02, Low: 0.0199, High: 0.0201},
				Equilibrium: 0.001, End: 0.0042, Residuals: []float64{1e-6, -2e-6}, Band: band},
			{Diffusivity: fit.Between{Value: 5e-12, Low: 4.8e-12, High: 5.2e-12}, Start: fit.Between{Value: 0.025, Low: 0.025, High: 0.025}, Dry: fit.Between{Value: 0.0201, Low: 0.0201, High: 0.0201},
				Equilibrium: 0.0005, End: 0.0009, Residuals: []float64{3e-6}, Band: band},
		},
		Lack: estimation.Lack{Share: 0.31, Probability: 0.4}, Told: true, Checks: 1, Marches: 88,
		Findings: []fit.Finding{{Kind: fit.EndsEarly, Run: 0, Amount: 0.31}, {Kind: fit.Outlier, Run: 1, Line: 3, Amount: 2.3e-4, Factor: 1.14}, {Kind: fit.BetaMatters, Run: -1, Amount: 31.2, Factor: 0.8}},
	}}
}

// kitchen is what a kitchen scale tells of a strand that holds little.
func kitchen() *Fit {
	f := fitted()
	o := f.Outcome
	w := o.Weighings
	w.Scale.Resolution, w.Runs, w.Noted, w.Assumed = 1e-4, w.Runs[:1], nil, nil
	o.Known, o.Activation, o.Beta, o.Drift, o.PriorShare, o.Checks, o.Runs = fit.Known{}, fit.Between{}, fit.Between{}, fit.Between{}, 0, 0, o.Runs[:1]
	o.Told, o.Diffusivity, o.Temperature = false, fit.Between{Value: 1e-12, Low: 2e-15, High: 3e-9}, 333.15
	o.Findings = []fit.Finding{{Kind: fit.FewSteps, Run: 0, Amount: 1}, {Kind: fit.OnlyBound, Run: -1, Amount: 2e-15, Factor: 2}}
	o.Helps = []fit.Help{{Kind: fit.FinerScale, Amount: 1e-5, Factor: 1.22}, {Kind: fit.MoreStrand, Amount: 0.1017, Factor: 1.61}, {Kind: fit.Longer, Amount: 108000, Factor: 2.345},
		{Kind: fit.DriedOut, Factor: 2.4}, {Kind: fit.Hotter, Amount: 348.15, Factor: 2.5}}
	return f
}

// told is a page as text that keeps to its width, and as JSON.
func told(t *testing.T, p Page) (text, data string) {
	t.Helper()
	var b strings.Builder
	require.NoError(t, WriteText(&b, p))
	narrow(t, b.String())
	text = b.String()
	b.Reset()
	require.NoError(t, WriteJSON(&b, p))
	require.True(t, json.Valid([]byte(b.String())))
	return text, b.String()
}

func TestGoldenFit(t *testing.T) {
	text, data := told(t, fitted())
	golden(t, "fit.txt", text)
	golden(t, "fit.json", data)
	text, data = told(t, kitchen())
	golden(t, "fit-kitchen.txt", text)
	require.Contains(t, data, `"told": false`)
	for _, absent := range []string{`"activation": {`, `"beta": {`, `"drift"`, `"prior_share"`} {
		require.NotContains(t, data, absent)
	}
	require.NotContains(t, text, "Diffusivity")
	require.NotContains(t, text, "Compared")
}

// What is not finite is refused, wherever it stands.
func TestFitIsFinite(t *testing.T) {
	for name, change := range map[string]func(o *fit.Outcome){
		"diffusivity": func(o *fit.Outcome) { o.Diffusivity.High = math.Inf(1) },
		"beta":        func(o *fit.Outcome) { o.Beta.Low = math.NaN() },
		"drift":       func(o *fit.Outcome) { o.Drift.Value = math.NaN() },
		"noise":       func(o *fit.Outcome) { o.Noise.Value = math.NaN() },
		"run":         func(o *fit.Outcome) { o.Runs[1].Residuals[0] = math.NaN() },
		"finding":     func(o *fit.Outcome) { o.Findings[0].Amount = math.Inf(-1) },
		"help":        func(o *fit.Outcome) { o.Helps = []fit.Help{{Factor: math.Inf(1)}} },
		"activation":  func(o *fit.Outcome) { o.Activation.Low = math.NaN() },
		"library":     func(o *fit.Outcome) { o.Library.High = math.Inf(1) },
		"correlation": func(o *fit.Outcome) { o.Correlation[1] = math.NaN() },
		"prior share": func(o *fit.Outcome) { o.PriorShare = math.NaN() },
		"lack of fit": func(o *fit.Outcome) { o.Lack.Share = math.NaN() },
	} {
		f := fitted()
		change(f.Outcome)
		var b strings.Builder
		require.ErrorContains(t, WriteText(&b, f), "the fit", name)
		require.ErrorContains(t, WriteJSON(&b, f), "the fit", name)
		require.Empty(t, b.String(), name)
	}
}

// The answer says whether it can be relied on, and how near it is.
func TestAnswersOfFit(t *testing.T) {
	for want, change := range map[string]func(o *fit.Outcome){
		"known within 6.4 % either way (but 0.800 times as large if beta lies at the far end of what is known of it), nine times in ten, if the strand takes up and gives off water as the model says": func(*fit.Outcome) {},
		"known within a factor of 2.0 either way (but 0.800 times as large if beta lies at the far end of what is known of it), nine times in ten, if the strand takes up and gives off water as the model says": func(o *fit.Outcome) {
			o.Diffusivity = fit.Between{Value: 4e-12, Low: 2e-12, High: 8e-12}
		},
		"doubtful: known within 6.4 % either way if the weighings are sound, but see what stands out before you rely on it": func(o *fit.Outcome) {
			o.Findings = []fit.Finding{{Kind: fit.Slip, Line: 2, Amount: 0.0203}}
		},
		"these weighings do not tell it: it may be anything from 1.00e-14 m²/s to 2.00e-11 m²/s": func(o *fit.Outcome) {
			o.Told, o.Diffusivity = false, fit.Between{Value: 1e-12, Low: 1e-14, High: 2e-11}
		},
		"these weighings cannot tell it: see what stands out": func(o *fit.Outcome) {
			o.Told, o.Findings = false, []fit.Finding{{Kind: fit.NoDrive}}
		},
	} {
		f := fitted()
		change(f.Outcome)
		require.Equal(t, want, f.Answer())
	}
}

// A strand is set against the library in words that fit: faster, slower, outside.
func TestFitCompared(t *testing.T) {
	const outside = "; the strand lies outside of that, which happens one time in ten: look once more at diameter, temperature and material"
	for value, want := range map[float64]string{
		4e-12:   "water moves 1.60 times as fast as by the middle value of reedon, which itself is known within a factor of 3.1",
		1e-12:   "water moves at 40 % of the pace of the middle value of reedon, which itself is known within a factor of 3.1",
		1e-11:   "water moves 4.0 times as fast as by the middle value of reedon, which itself is known within a factor of 3.1" + outside,
		0.5e-12: "water moves at 20 % of the pace of the middle value of reedon, which itself is known within a factor of 3.1" + outside,
	} {
		f := fitted()
		f.Outcome.Diffusivity.Value = value
		require.Equal(t, want, f.compared())
	}
}

// What to do next hangs on whether there is an answer, and on whether it was written.
func TestNextOfFit(t *testing.T) {
	f := fitted()
	require.Equal(t, "To go on with this strand: strandry fit reedon-weighings.toml -o my-reedon.toml writes it as a material, which every command takes.", f.Next())
	f.Written = "my-reedon.toml"
	require.Equal(t, "Ask again with it: strandry run and doubt say what is left in doubt.", f.Next())
	f.Outcome.Told = false
	require.Contains(t, f.Next(), "Nothing is written from weighings that do not tell.")
	require.Contains(t, f.Next(), "nobody leaves a hot oven alone")
}

// Masses that are advised have one digit.
func TestRoundMass(t *testing.T) {
	for kg, want := range map[float64]float64{0.1017: 0.1, 0.0161: 0.02, 0.97: 1, 3.4: 3} {
		require.InEpsilon(t, want, roundMass(kg), 1e-12)
	}
}
