package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/diffusion/levers"
	"strandry/plots/figure"
	"strandry/scenarios"
	"strandry/scenarios/needed"
	"strandry/scenarios/sweep"
)

func plotCommand() *cobra.Command {
	var demo, folder string
	c := &cobra.Command{
		Use:   "plot [FILE] -o DIR",
		Short: "Draw what happens to the strand, as PNG, SVG and PDF",
		Long: `plot draws one scenario: the moisture along its path, the radial profiles, the same
as a heat map, the section as a disc where a cover keeps its place, the length needed over temperature and feed speed, what the [[vary]]
of the file give, and, unless they give a map, one over length and feed speed. Figures that
DIR holds from an earlier plot are replaced.`,
		Args: fileOrDemo,
		RunE: func(c *cobra.Command, args []string) error {
			if folder == "" {
				return errors.New("plot needs -o DIR, the folder for its files")
			}
			s, err := scenario(args, demo)
			if err != nil {
				return failure{err}
			}
			return wrapped(plot(c.Context(), s, folder, c.OutOrStdout()))
		},
	}
	demoFlag(c, &demo)
	c.Flags().StringVarP(&folder, "output", "o", "", "the folder `DIR` for the files; made if there is none")
	return c
}

// plot writes the figures and names each with what it shows.
func plot(ctx context.Context, s *scenarios.Scenario, folder string, out io.Writer) error {
	sheets, undrawn, err := figures(ctx, s)
	if errors.Is(err, context.Canceled) {
		return errors.New("strandry: interrupted")
	}
	if err != nil {
		return fmt.Errorf("%s: %w", s.File, err)
	}
	if err := makeFolder(folder); err != nil {
		return err
	}
	var said strings.Builder // after all is written, for the reader may have gone
	for _, sheet := range sheets {
		if err := ctx.Err(); err != nil {
			return errors.New("strandry: interrupted")
		}
		var names []string
		for _, format := range figure.Formats() {
			drawing, err := figure.Encode(sheet.Figure, format)
			if err != nil {
				return fmt.Errorf("%s: %w", sheet.Name, err)
			}
			name := sheet.Name + "." + string(format)
			err = writeFile(filepath.Join(folder, name), func(out io.Writer) error { _, err := out.Write(drawing); return err })
			if err != nil {
				return err
			}
			names = append(names, name)
		}
		fmt.Fprintf(&said, "%s: %s.\n", strings.Join(names, ", "), strings.ReplaceAll(sheet.Figure.Headline(), "\u00a0", " "))
	}
	for _, why := range undrawn {
		fmt.Fprintln(&said, why)
	}
	_, err = io.WriteString(out, said.String())
	return err
}

// figures draws up the figures of one scenario. undrawn tells which of them there cannot be, and why.
func figures(ctx context.Context, s *scenarios.Scenario) (sheets []figure.Sheet, undrawn []string, err error) {
	frame := figure.FrameOf(s, version)
	trace, err := diffusion.NewMarch().Trace(&s.Model, s.Settings)
	if err != nil {
		return nil, nil, err
	}
	sheets = []figure.Sheet{
		{Name: "path", Figure: figure.Path{Frame: frame, Model: &s.Model, Trace: trace}},
		{Name: "profiles", Figure: figure.Profiles{Frame: frame, Model: &s.Model, Trace: trace}},
		{Name: "heatmap", Figure: figure.HeatMap{Frame: frame, Model: &s.Model, Trace: trace}},
	}
	if f, covered := figure.SectionOf(&s.Model, trace, frame); covered {
		sheets = append(sheets, figure.Sheet{Name: "section", Figure: f})
	}
	zone := levers.Dryer(&s.Model, &trace.Result)
	coarse := frame
	coarse.Settings = figure.SettingsText(diffusion.CoarseSettings())
	lengths, err := needed.Find(ctx, s, needed.Usual(s, zone))
	switch {
	case ctx.Err() != nil:
		return nil, nil, ctx.Err()
	case err != nil:
		undrawn = append(undrawn, "needed: not drawn: "+err.Error())
	default:
		sheets = append(sheets, figure.Sheet{Name: "needed", Figure: figure.NeededOf(s, lengths, coarse)})
		if lengths.Unanswered > 0 {
			undrawn = append(undrawn, fmt.Sprintf("needed: places without an answer: %d; the first of them: %s", lengths.Unanswered, lengths.Reason))
		}
	}
	if len(s.Vary) > 0 {
		work := sweep.Sweep{Scenario: s, Quick: true, Workers: runtime.GOMAXPROCS(0)}
		grid, err := work.Run(ctx)
		if err != nil {
			return nil, nil, err
		}
		swept, missing := figure.OfSweep(grid, s, frame)
		sheets, undrawn = append(sheets, swept...), append(undrawn, missing...)
	}
	for _, sheet := range sheets {
		if _, mapped := sheet.Figure.(figure.Map); mapped {
			return sheets, undrawn, nil
		}
	}
	const steps = 40
	x, y := needed.Around(s, zone, steps)
	contents, err := needed.Contents(ctx, s, zone, x, y, diffusion.CoarseSettings())
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	if err != nil {
		return sheets, append(undrawn, "map: not drawn: "+err.Error()), nil
	}
	return append(sheets, figure.Sheet{Name: "map", Figure: figure.MapOf(s, zone, x, y, contents, coarse)}), undrawn, nil
}
