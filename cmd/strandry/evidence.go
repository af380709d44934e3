package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"strandry/materials"
	"strandry/plots/table"
	"strandry/scenarios/validation/measured"
)

func evidenceCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "evidence [NAME...]",
		Short: "How does the library stand beside what was measured?",
		Long: `evidence sets the library beside what others have measured.

    strandry evidence
    strandry evidence abs pa6

Every figure of sorption and diffusion that could be read, of all materials or
of those named: what was measured, under which conditions, by whom and where it
was read; what the library predicts, with its interval; and whether the one lies
in the other, good or bad. Figures that the library was made from are counted
apart. It names the materials that have no measured figure, and the papers whose
figures could not be read.

Exit status: 0 whatever the comparison shows.`,
		RunE: func(c *cobra.Command, args []string) error {
			var names []string
			for _, given := range args {
				name, taken, err := definite(given)
				if err != nil {
					return err
				}
				noted(c, taken)
				names = append(names, name)
			}
			e, err := measured.Compare(names...)
			if err != nil {
				return err
			}
			return show(c.OutOrStdout(), &table.Evidence{Version: version, Evidence: e}, asJSON)
		},
	}
	jsonFlag(c, &asJSON)
	return c
}

// definite is the name of a material of the library, and what a word for a family was taken for.
func definite(given string) (name, taken string, err error) {
	if strings.HasSuffix(given, ".toml") {
		return "", "", fmt.Errorf("%s: only materials of the library are set beside measured figures; strandry evidence NAME, such as pa6", given)
	}
	return materials.Understood(given)
}

// noted says on the terminal, beside the answer, what a word was taken for.
func noted(c *cobra.Command, taken string) {
	if taken != "" {
		fmt.Fprintln(c.ErrOrStderr(), taken)
	}
}
