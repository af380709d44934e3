package main

import (
	"github.com/spf13/cobra"

	"strandry/plots/table"
	"strandry/scenarios/measured"
)

func evidenceCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "evidence",
		Short: "How does the library stand beside what was measured?",
		Long: `evidence sets the library of polymers against every measured figure of sorption and
diffusion that could be read: what was measured, under which conditions, by whom and where
it was read; what the library predicts, with its interval; and whether the one lies in the
other, good or bad. Figures that the library was made from are counted apart. It names the
materials that have no measured figure, and the papers whose figures could not be read.

Exit status: 0 whatever the comparison shows.`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			e, err := measured.Compare()
			if err != nil {
				return failure{err}
			}
			page := table.Evidence{Version: version, Evidence: e}
			return shown(c, &page, asJSON)
		},
	}
	jsonFlag(c, &asJSON)
	return c
}
