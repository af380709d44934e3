package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/doubt"
)

func doubtCommand() *cobra.Command {
	var asJSON bool
	var demo string
	var to drawing
	c := &cobra.Command{
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
		Args: fileOrDemo,
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("output") && to.path == "" {
				return errors.New("-o needs the name of a folder")
			}
			s, err := scenario(args, demo)
			if err != nil {
				return failure{err}
			}
			study, err := unlessDone(c.Context(), func() (*doubt.Study, error) { return doubt.Find(c.Context(), s) })
			if err != nil {
				return failure{err}
			}
			said, err := to.doubt(c.Context(), s, study)
			if err != nil {
				return failure{err}
			}
			page := table.Doubt{Title: s.Title, File: s.File, Version: version, Study: study, Assumed: s.Assumed}
			if err := shown(c, &page, asJSON); err != nil || asJSON {
				return err
			}
			_, err = io.WriteString(c.OutOrStdout(), said)
			return wrapped(err)
		},
	}
	c.Flags().StringVarP(&to.path, "output", "o", "", "a folder `DIR` for the figure; made if there is none")
	c.Flags().BoolVar(&to.force, "force", false, "replace the figure in DIR though it was changed since it was written")
	jsonFlag(c, &asJSON)
	demoFlag(c, &demo)
	return c
}

// drawing is where a figure goes; nowhere where no folder is named.
type drawing struct {
	path  string
	force bool
}

// doubt draws the figure of a study and says what was written.
func (to drawing) doubt(ctx context.Context, s *scenarios.Scenario, study *doubt.Study) (said string, err error) {
	switch {
	case to.path == "":
		return "", nil
	case study.Variance == 0:
		return "doubt: not drawn: nothing is in doubt\n", nil
	}
	sheet := figure.Sheet{Name: "doubt", Figure: figure.DoubtOf(study, figure.FrameOf(s, version))}
	files, err := drawn(ctx, sheet, canvas.Formats()...)
	if err != nil {
		return "", fmt.Errorf("%s: %w", sheet.Name, err)
	}
	var names []string
	for _, file := range files {
		names = append(names, file.Name)
	}
	err = within(to.path, func(f *folder.Folder) error {
		return written(ctx, f, folder.Set{Kind: "doubt", Files: files, Inputs: s.Inputs(), Force: to.force})
	})
	return wroteTo(to.path, strings.Join(names, ", ")), err
}
