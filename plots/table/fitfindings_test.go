package table

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"strandry/scenarios/studies/fit"
)

// Each finding in its own words, with its place, its number and what to do about it.
func TestFindingsInWords(t *testing.T) {
	const causes = "The air or the temperature may not have been what the file says, the scale may have drifted, the coil be too dense for the air to reach every turn, or the material another one, or one that takes up water in two stages."
	for _, c := range []struct {
		finding fit.Finding
		want    string
	}{
		{fit.Finding{Kind: fit.FewSteps}, "warm.csv: in all the mass does not change by one step of the scale, which shows 0.01 g. So little tells nothing about how fast the water moves."},
		{fit.Finding{Kind: fit.FewSteps, Amount: 1}, "warm.csv: in all the mass changes by 1 step of the scale, which shows 0.01 g. So little tells nothing about how fast the water moves."},
		{fit.Finding{Kind: fit.FewSteps, Amount: 3}, "warm.csv: in all the mass changes by 3 steps of the scale, which shows 0.01 g. So little tells nothing about how fast the water moves."},
		{fit.Finding{Kind: fit.Shape, Run: -1, Amount: 0.04}, "what is left over when the most likely diffusivity is taken off has a shape that chance alone gives one time in 25. " + causes},
		{fit.Finding{Kind: fit.Shape, Run: -1, Amount: 0.005}, "the masses do not follow any diffusivity: what is left over has a shape that chance alone gives one time in 200. " + causes},
		{fit.Finding{Kind: fit.Shape, Run: -1, Amount: 0.000999}, "the masses do not follow any diffusivity: what is left over has a shape that chance alone gives less than one time in 1000. " + causes},
		{fit.Finding{Kind: fit.Outlier, Line: 4, Amount: 2.3e-4, Factor: 1.14}, "warm.csv, line 4: this weighing is +0.23 g off, far more than the others. Without it water moves 1.14 times as fast. If something was on the scale, put a # before the line."},
		{fit.Finding{Kind: fit.Outlier, Run: 1, Line: 2, Amount: -5e-5, Factor: 0.9}, "a run with a long name.csv, line 2: this weighing is -0.050 g off, far more than the others. Without it water moves 0.900 times as fast. If something was on the scale, put a # before the line."},
		{fit.Finding{Kind: fit.Slip, Line: 3, Amount: 0.12046}, "warm.csv, line 3: this weighing is far off, and would fit if one digit were another one, or two had changed places: 120.46 g. If you find that it was misread, correct the line."},
		{fit.Finding{Kind: fit.Reversal, Line: 3, Amount: 8e-5}, "warm.csv, line 3: the mass goes the wrong way by 0.080 g since the weighing before. Was the oven open, the strand in other air, or weighed while warm?"},
		{fit.Finding{Kind: fit.EndsEarly, Amount: 0.46}, "warm.csv: 46 % of the water was still to move at the last weighing, so that the dry mass is a guess of the fit. Go on for longer, or dry it out and state dry_mass."},
		{fit.Finding{Kind: fit.BeginsLate, Amount: 0.37}, "warm.csv: 37 % of the water had moved before the first weighing. Weigh before it goes into the oven, or state moisture."},
		{fit.Finding{Kind: fit.AirRules, Amount: 0.01}, "warm.csv: the masses hardly answer to the diffusivity: the air around the strand sets the pace. Air that moves faster past a looser coil would help."},
		{fit.Finding{Kind: fit.NoDrive, Amount: 1e-5}, "warm.csv: the strand was in equilibrium with this air from the beginning, so that hardly any water moved. Begin with a wetter strand, or take drier air."},
		{fit.Finding{Kind: fit.Scatter, Run: -1, Amount: 4.2e-5}, "the weighings scatter by some 0.042 g, more than the scale's 0.01 g: the range above rests on that."},
		{fit.Finding{Kind: fit.Warming, Amount: 900}, "warm.csv: half of the water moved within 15 min. A coil takes some 10 to 20 min to be warm (common practice, no source), which the model leaves out. A cooler oven or a thicker strand tells more."},
		{fit.Finding{Kind: fit.DriftMatters, Run: -1, Amount: 1e-10, Factor: 1.08}, "a scale that drifts by one step over the run makes the diffusivity 1.08 times as large. Check the zero and a known weight each time, or add drift = \"fitted\" to [scale]."},
		{fit.Finding{Kind: fit.BetaMatters, Run: -1, Amount: 31.2, Factor: 0.8}, "how the diffusivity grows with the content (beta) was taken from the material. At the far end of what is known of it, 31.2 per kg/kg, the answer is 0.800 times as large; that is in no range here."},
		{fit.Finding{Kind: fit.Gains, Run: -1, Amount: 4.5e-4}, "the mass rises by 0.45 g from the first weighing to the last, more than a dry strand could take up from this air. Are the times in order, and the temperature and the air as the file says?"},
		{fit.Finding{Kind: fit.OnlyBound, Run: -1, Amount: 2e-13, Factor: 2}, "all that can be said is that the diffusivity is at least 2.00e-13 m²/s, nineteen times in twenty."},
		{fit.Finding{Kind: fit.OnlyBound, Run: -1, Amount: 2e-13, Factor: 0.5}, "all that can be said is that the diffusivity is at most 2.00e-13 m²/s, nineteen times in twenty."},
	} {
		f := fitted()
		f.Outcome.Findings = []fit.Finding{c.finding}
		assert.Equal(t, []string{c.want}, f.Findings())
	}
}

// No kind is without words, for people or for programs.
func TestEveryFindingIsSaid(t *testing.T) {
	f := fitted()
	seen := map[string]bool{}
	for kind := fit.FewSteps; kind <= fit.Gains; kind++ {
		said := f.say(fit.Finding{Kind: kind, Amount: 1, Factor: 1})
		require.NotEmpty(t, said, kind)
		require.NotEmpty(t, kind.String())
		require.False(t, seen[kind.String()])
		seen[kind.String()] = true
	}
	require.Empty(t, f.say(fit.Finding{Kind: fit.Gains + 1}))
}
