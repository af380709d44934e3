package table

import (
	"fmt"

	"strandry/scenarios/studies/fit"
)

// Findings are what a user should know of the weighings, each a sentence or two.
func (f *Fit) Findings() []string {
	var out []string
	for _, found := range f.Outcome.Findings {
		where := ""
		if found.Run >= 0 {
			run := &f.Outcome.Weighings.Runs[found.Run]
			where = run.File
			if found.Line > 0 {
				where += fmt.Sprintf(", line %d", found.Line)
			}
			where += ": "
		}
		out = append(out, where+f.say(found))
	}
	return out
}

// say puts a finding in words.
func (f *Fit) say(found fit.Finding) string {
	step := f.Outcome.Weighings.Scale.Resolution
	switch found.Kind {
	case fit.FewSteps:
		changes := "does not change by one step"
		if n := int(found.Amount); n > 0 {
			changes = fmt.Sprintf("changes by %d %s", n, plural(n, "step", "steps"))
		}
		return fmt.Sprintf("in all the mass %s of the scale, which shows %s. So little tells nothing about how fast the water moves.", changes, Grams(step))
	case fit.Shape:
		said := "what is left over when the most likely diffusivity is taken off has a shape"
		if found.Grave() {
			said = "the masses do not follow any diffusivity: what is left over has a shape"
		}
		return fmt.Sprintf("%s that chance alone gives %s. The air or the temperature may not have been what the file says, the scale may have drifted, the coil be too dense for the air to reach every turn, or the material another one, or one that takes up water in two stages.",
			said, seldom(found.Amount))
	case fit.Outlier:
		return fmt.Sprintf("this weighing is %s g off, far more than the others. Without it water moves %s as fast. If something was on the scale, put a # before the line.",
			signed(1e3*found.Amount), Times(found.Factor))
	case fit.Slip:
		return fmt.Sprintf("this weighing is far off, and would fit if one digit were another one, or two had changed places: %s. If you find that it was misread, correct the line.", untailed(Significant(1e3*found.Amount, 7))+" g")
	case fit.Reversal:
		return fmt.Sprintf("the mass goes the wrong way by %s g since the weighing before. Was the oven open, the strand in other air, or weighed while warm?", Significant(1e3*found.Amount, 2))
	case fit.EndsEarly:
		return fmt.Sprintf("%s %% of the water was still to move at the last weighing, so that the dry mass is a guess of the fit. Go on for longer, or dry it out and state dry_mass.", share(found.Amount))
	case fit.BeginsLate:
		return fmt.Sprintf("%s %% of the water had moved before the first weighing. Weigh before it goes into the oven, or state moisture.", share(found.Amount))
	case fit.AirRules:
		return "the masses hardly answer to the diffusivity: the air around the strand sets the pace. Air that moves faster past a looser coil would help."
	case fit.NoDrive:
		return "the strand was in equilibrium with this air from the beginning, so that hardly any water moved. Begin with a wetter strand, or take drier air."
	case fit.Scatter:
		return fmt.Sprintf("the weighings scatter by some %s g, more than the scale's %s: the range above rests on that.", Significant(1e3*found.Amount, 2), Grams(step))
	case fit.Warming:
		return fmt.Sprintf("half of the water moved within %s. A coil takes some 10 to 20 min to be warm (common practice, no source), which the model leaves out. A cooler oven or a thicker strand tells more.", Duration(found.Amount))
	case fit.DriftMatters:
		return fmt.Sprintf("a scale that drifts by one step over the run makes the diffusivity %s as large. Check the zero and a known weight each time, or add drift = \"fitted\" to [scale].", Times(found.Factor))
	case fit.BetaMatters:
		return fmt.Sprintf("how the diffusivity grows with the content (beta) was taken from the material. At the far end of what is known of it, %s per kg/kg, the answer is %s as large; that is in no range here.", Significant(found.Amount, 3), Times(found.Factor))
	case fit.Gains:
		return fmt.Sprintf("the mass rises by %s g from the first weighing to the last, more than a dry strand could take up from this air. Are the times in order, and the temperature and the air as the file says?", Significant(1e3*found.Amount, 2))
	case fit.OnlyBound:
		if found.Factor > 1 {
			return "all that can be said is that the diffusivity is at least " + diffusivity(found.Amount) + ", nineteen times in twenty."
		}
		return "all that can be said is that the diffusivity is at most " + diffusivity(found.Amount) + ", nineteen times in twenty."
	}
	return ""
}

// signed prints a number with its sign.
func signed(x float64) string {
	if x > 0 {
		return "+" + Significant(x, 2)
	}
	return Significant(x, 2)
}

// seldom prints a small probability.
func seldom(probability float64) string {
	const least = 0.001 // that is told from the draws that there are
	if probability <= least {
		return "less than one time in 1000"
	}
	return fmt.Sprintf("one time in %s", Significant(1/probability, 1))
}
