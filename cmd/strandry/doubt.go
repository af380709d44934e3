package main

import (
	"context"

	"github.com/spf13/cobra"

	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/doubt"
)

func doubtCommand() *cobra.Command {
	var asJSON bool
	var to target
	c := onScenario(&cobra.Command{
		Use:   "doubt [FILE]",
		Short: "What makes the answer doubtful, and what to measure first?",
		Long: `doubt tells what makes an answer doubtful, and what to measure first.

    strandry doubt my-dryer.toml
    strandry doubt --demo winch-drum -o figures

For each unknown, what is not known of the material, the limit, the film, and
each [[uncertain]] of the file: its share of the doubt by itself and with what
it does beside others (first-order and total Sobol indices), each with an
interval; what the doubt would come down to if it were known; in which order to
measure, and how.

-o draws the shares as PNG, SVG and PDF.` + forceRule,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		answer, err := unlessDone(c.Context(), func(ctx context.Context) (*doubt.Answer, error) { return doubt.Find(ctx, s) })
		if err != nil {
			return err
		}
		said, err := drawDoubt(c.Context(), to, s, answer)
		if err != nil {
			return err
		}
		return showAndSay(c, &table.Doubt{Title: s.Title, File: s.File, Version: version, Answer: answer, Assumed: s.Assumed}, asJSON, said)
	})
	c.PreRunE = to.offered
	to.flags(c, "a folder `DIR` for the figure", "replace the figure in DIR though it was changed since it was written")
	jsonFlag(c, &asJSON)
	return c
}

// drawDoubt draws the figure of a study, if a folder is named, and says what was written.
func drawDoubt(ctx context.Context, to target, s *scenarios.Scenario, answer *doubt.Answer) (said string, err error) {
	switch {
	case to.path == "":
		return "", nil
	case answer.Variance == 0:
		return "doubt: not drawn: nothing is in doubt\n", nil
	}
	return drawOne(ctx, to, s, figure.Sheet{Name: "doubt", Figure: figure.DoubtOf(answer, figure.FrameOf(s, version))})
}
