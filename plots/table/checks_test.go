package table

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios/studies/checked"
)

// estimate is made up.
func estimate(value, low, high float64) checked.Estimate {
	return checked.Estimate{Value: value, Between: diffusion.Between{Low: low, High: high}}
}

// withChecks is an answer with made-up checks: one of each kind of outcome, and one without a prediction.
func withChecks() *Answer {
	a := answer()
	start := checked.Comparison{Of: checked.AtStart, Measured: estimate(0.025, 0.0249, 0.0251), Predicted: estimate(0.025, 0.02, 0.03), Chance: 0.994}
	exit := checked.Comparison{Of: checked.AtExit, Measured: estimate(0.02, 0.0199, 0.0201), Predicted: estimate(0.012, 0.00587, 0.0169), Off: 1.2e-5, Chance: 0.031, Outcome: checked.Wetter}
	lost := checked.Comparison{Of: checked.Lost, Measured: estimate(0.0178, 0.0177, 0.0179), Predicted: estimate(0.0126, 0.008, 0.017), Off: 1.2e-5, Chance: 0.066, Outcome: checked.Drier}
	rough := checked.Comparison{Of: checked.Lost, Measured: estimate(0.01, -0.01, 0.03), Predicted: estimate(0.0126, 0.008, 0.017), Chance: 0.5, Outcome: checked.Untold}
	a.Checks = []checked.Check{
		{Title: "first evening", Speed: 2e-3, Step: 1e-6, Stepped: true, Comparisons: []checked.Comparison{start, exit}, Residue: checked.Residue{Most: 0.003, Oven: 353.15},
			Diffusivity: checked.Factor{Value: 0.25, Low: 0.2456, High: 0.2463}},
		{Title: "after the drum", Zone: "hot drum of the long kind", Speed: 1.5e-3, Step: 1e-6, Comparisons: []checked.Comparison{lost}, Gained: true, Diffusivity: checked.Factor{Low: 3}},
		{Title: "kitchen scale", Speed: 2e-3, Step: 1e-4, Stepped: true, Comparisons: []checked.Comparison{rough}},
		{Title: "in a storm", Step: 1e-6, Stepped: true, Reason: "the air blew it away"},
	}
	return a
}

func TestChecksAreTold(t *testing.T) {
	a := withChecks()
	var b strings.Builder
	a.checks(&b)
	golden(t, "checks.txt", b.String())
	for _, line := range strings.Split(b.String(), "\n") {
		require.LessOrEqual(t, len([]rune(line)), width, line)
	}
	var all bytes.Buffer
	require.NoError(t, encode(&all, each(a.Checks, checkOf)))
	golden(t, "checks.json", all.String())

	// One line in short, and everything with --full and in JSON.
	var short, full, data bytes.Buffer
	require.NoError(t, WriteText(&short, a))
	require.Contains(t, short.String(), "\nChecked: 1 of 4 measurements agrees, 1 cannot tell, 2 do not, not all could be\npredicted; see run --full.\n")
	require.LessOrEqual(t, strings.Count(short.String(), "\n"), screen)
	require.NoError(t, WriteText(&full, Full{a}))
	require.Contains(t, full.String(), b.String())
	require.NoError(t, WriteJSON(&data, a))
	require.Contains(t, data.String(), `"outcome": "cannot tell"`)
	a.Checks[0].Comparisons[0].Predicted.High = math.Inf(1)
	require.ErrorContains(t, WriteText(&full, a), "the checks[1]")
}

// Each outcome of each quantity has its own words: what is wetter is never called drier.
func TestWordsOfComparisons(t *testing.T) {
	for of, words := range map[checked.Quantity][4]string{
		checked.AtStart: {"What it held before agrees", "set off too dry", "set off too wet", "cannot tell"},
		checked.AtExit:  {"What it held after agrees", "is wetter than predicted (so large a difference is met 3 times in 100 if the model is right): the strand, or the air, is slower", "is faster than the model's", "cannot tell"},
		checked.Lost:    {"What it lost agrees", "is less than predicted, so that it stays wetter (so large a difference is met 3 times in 100 if the model is right): the strand, or the air, is slower", "is more than predicted, so that it gets drier", "cannot tell"},
	} {
		for outcome, want := range words {
			require.Contains(t, compared(&checked.Comparison{Of: of, Chance: 0.03, Outcome: checked.Outcome(outcome)}), want)
		}
	}
	of := func(f checked.Factor, o checked.Outcome) string {
		return byDiffusivity(&checked.Check{Diffusivity: f, Comparisons: []checked.Comparison{{Of: checked.Lost, Outcome: o}}})
	}
	require.Contains(t, of(checked.Factor{Value: 2, Low: 1.5, High: 2.5}, checked.Wetter), "2.0 times its own (1.5 to 2.5, eight times in ten")
	require.Contains(t, of(checked.Factor{Value: 2, High: 2.5}, checked.Wetter), "2.0 times its own (2.5 or less,")
	require.Contains(t, of(checked.Factor{High: 2.5}, checked.Wetter), "the factor on the diffusivity would be 2.5 or less,")
	require.Contains(t, of(checked.Factor{}, checked.Wetter), "no diffusivity from a thousandth to a thousand times")
	require.Contains(t, of(checked.Factor{}, checked.Untold), "These masses say nothing of the diffusivity")
	require.Contains(t, of(checked.Factor{Value: 2}, checked.Untold), "These masses say nothing of the diffusivity")
	start := checked.Check{Title: "spool", Stepped: true, Comparisons: []checked.Comparison{{Of: checked.AtStart, Outcome: checked.Wetter}}}
	require.Empty(t, byDiffusivity(&start))
	require.Equal(t, "spool, before the path", CheckTitle(&start))
	const first = "Mend that first"
	require.NotContains(t, strings.Join(CheckSays(&start), " "), first)
	start.Comparisons = append(start.Comparisons, checked.Comparison{Of: checked.Lost})
	require.Contains(t, strings.Join(CheckSays(&start), " "), "the scenario has it set off too dry, or dried was too light. "+first)
}
