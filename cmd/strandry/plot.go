package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/machine"
	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/buildlog"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/sweep"
)

func plotCommand() *cobra.Command {
	var to target
	c := onScenario(&cobra.Command{
		Use:   "plot [FILE] -o DIR",
		Short: "Draw what happens to the strand, as PNG, SVG and PDF",
		Long: `plot draws what happens to the strand.

    strandry plot my-dryer.toml -o figures

The moisture along its path, the radial profiles, the same as a heatmap, the
section as a disc where a cover keeps its place, the chambers to scale where
their shape is stated, how the desiccant fills, the length needed over
temperature and feed speed, what the [[vary]] of the file give, and, unless they
give a map, one over length and feed speed. Figures that DIR holds from an
earlier plot are replaced.` + forceRule,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		set := folder.Set{Kind: "plot", Inputs: s.Inputs(), Force: to.force}
		for _, name := range []string{"path", "profiles", "heatmap"} { // that there will be in any case
			for _, format := range canvas.Formats() {
				set.Files = append(set.Files, folder.File{Name: name + "." + string(format)})
			}
		}
		return to.fill(c, set, nil, func(ctx context.Context) (made, error) { return plotsOf(ctx, s) })
	})
	c.PreRunE = to.needed
	to.flags(c, "the folder `DIR` for the files", "replace figures in DIR though they were changed since they were written")
	return c
}

// plotsOf draws the figures and names each with what it shows.
func plotsOf(ctx context.Context, s *scenarios.Scenario) (p made, err error) {
	sheets, undrawn, err := figures(ctx, s)
	if err != nil {
		return p, fmt.Errorf("%s: %w", s.File, err)
	}
	drawings, err := drawn(ctx, sheets, canvas.Formats()...)
	if err != nil {
		return p, err
	}
	var said strings.Builder
	for _, d := range drawings {
		if d.err != nil {
			return p, fmt.Errorf("%s: %w", d.Name, d.err)
		}
		p.files = append(p.files, d.files...)
		said.WriteString(table.Wrapped(fmt.Sprintf("%s: %s.", d.names(), strings.ReplaceAll(d.Figure.Headline(), "\u00a0", " "))))
	}
	for _, why := range slices.Concat(s.Taken, undrawn) {
		said.WriteString(table.Wrapped(why))
	}
	p.said = said.String()
	return p, nil
}

// figures draws up the figures of one scenario. undrawn tells which of them there cannot be, and why.
func figures(ctx context.Context, s *scenarios.Scenario) (sheets []figure.Sheet, undrawn []string, err error) {
	frame := figure.FrameOf(s, version)
	trace, strand, err := strandFigures(s, frame)
	if err != nil {
		return nil, nil, err
	}
	built, undrawn, err := machineFigures(s, trace, frame)
	if err != nil {
		return nil, nil, err
	}
	sheets = append(strand, built...)
	zone := advice.Dryer(&s.Design, &trace.Result)
	lengths, err := needed.Find(ctx, s, needed.Usual(s, zone))
	switch {
	case ctx.Err() != nil:
		return nil, nil, ctx.Err()
	case err != nil:
		undrawn = append(undrawn, "needed: not drawn: "+err.Error())
	default:
		sheets = append(sheets, figure.Sheet{Name: "needed", Figure: figure.NeededOf(s, lengths, frame)})
		if lengths.Unanswered > 0 {
			undrawn = append(undrawn, fmt.Sprintf("needed: places without an answer: %d; the first of them: %s", lengths.Unanswered, lengths.Reason))
		}
	}
	if len(s.Vary) > 0 {
		grid, err := sweep.ForFigures(ctx, s)
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
	charted, missing := chartOf(ctx, s, zone, frame)
	return append(sheets, charted...), append(undrawn, missing...), ctx.Err()
}

// strandFigures are those of the strand on its path.
func strandFigures(s *scenarios.Scenario, frame figure.Frame) (*diffusion.Trace, []figure.Sheet, error) {
	w := diffusion.NewMarch()
	trace, err := w.Trace(&s.Model, s.Settings)
	if err != nil {
		return nil, nil, err
	}
	odds, err := w.Odds(&s.Design, s.Settings)
	if err != nil {
		return nil, nil, err
	}
	path, err := figure.PathOf(w, &s.Design, trace, &odds, s.Settings, frame)
	if err != nil {
		return nil, nil, err
	}
	sheets := []figure.Sheet{
		{Name: "path", Figure: path},
		{Name: "profiles", Figure: figure.Profiles{Frame: frame, Design: &s.Design, Trace: trace, Odds: &odds}},
		{Name: "heatmap", Figure: figure.Heatmap{Frame: frame, Design: &s.Design, Trace: trace}},
	}
	if f, covered := figure.SectionOf(&s.Design, trace, frame); covered {
		sheets = append(sheets, figure.Sheet{Name: "section", Figure: f})
	}
	return trace, sheets, nil
}

// machineFigures are those of the dryer as it is built.
func machineFigures(s *scenarios.Scenario, trace *diffusion.Trace, frame figure.Frame) (sheets []figure.Sheet, undrawn []string, err error) {
	if !s.Machine.Stated {
		return nil, []string{"drawing: not drawn: " + figure.NoShape}, nil
	}
	told, err := machine.Tell(nil, &s.Design, &trace.Result, &s.Machine) // no drawing shows which flows of air are of use
	if err != nil {
		return nil, []string{"drawing: not drawn: " + err.Error()}, nil
	}
	drawn, some, err := figure.MachineOf(s, told, frame)
	switch {
	case err != nil:
		return nil, nil, err
	case some:
		sheets = append(sheets, figure.Sheet{Name: "drawing", Figure: drawn})
	default:
		undrawn = append(undrawn, "drawing: not drawn: "+figure.NoShape)
	}
	if !told.Bed.Used {
		return sheets, undrawn, nil
	}
	filling, why := figure.FillingOf(&told.Bed, frame)
	if why != "" {
		return sheets, append(undrawn, "desiccant: not drawn: "+why), nil
	}
	return append(sheets, figure.Sheet{Name: "desiccant", Figure: filling}), undrawn, nil
}

// chartOf is the map of length and feed, or why there is none.
func chartOf(ctx context.Context, s *scenarios.Scenario, zone int, frame figure.Frame) (sheets []figure.Sheet, undrawn []string) {
	met := 0.0
	if found, err := size.LengthOf(diffusion.NewMarch(), &s.Design, zone, s.Settings); err == nil && found.Outcome == size.Met && found.Value == found.From {
		met = found.Value
	}
	grid, err := buildlog.Chart(ctx, s, zone, met)
	if err != nil {
		return nil, []string{"map: not drawn: " + err.Error()}
	}
	sheets, undrawn = figure.OfSweep(grid, s, frame)
	for i := range sheets {
		if m, ok := sheets[i].Figure.(figure.Map); ok {
			m.Met = met
			sheets[i].Figure = m
		}
	}
	return sheets, undrawn
}
