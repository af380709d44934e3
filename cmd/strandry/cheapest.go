package main

import (
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/cheapest"
)

// showCheapest looks for the cheapest design of a scenario, draws it if a folder is named, and shows it.
func showCheapest(c *cobra.Command, s *scenarios.Scenario, to target, asJSON bool) error {
	found, err := unlessDone(c.Context(), func(ctx context.Context) (*cheapest.Answer, error) { return cheapest.Find(ctx, s) })
	if err != nil {
		return err
	}
	said := ""
	if to.path != "" {
		if said, err = drawFront(c.Context(), to, s, found); err != nil {
			return err
		}
	}
	if err := show(c.OutOrStdout(), &table.Cheapest{Title: s.Title, File: s.File, Version: version, Scenario: s, Answer: found}, asJSON); err != nil || asJSON {
		return err
	}
	_, err = io.WriteString(c.OutOrStdout(), said)
	return err
}

// drawFront draws cost against moisture, and says what was written.
func drawFront(ctx context.Context, to target, s *scenarios.Scenario, found *cheapest.Answer) (said string, err error) {
	drawings, err := drawn(ctx, []figure.Sheet{{Name: "cheapest", Figure: figure.FrontOf(s, found, figure.FrameOf(s, version))}}, canvas.Formats()...)
	if err != nil {
		return "", err
	}
	d := drawings[0]
	if d.err != nil {
		return "", fmt.Errorf("%s: %w", d.Name, d.err)
	}
	err = to.write(ctx, folder.Set{Kind: "cheapest", Files: d.files, Inputs: s.Inputs(), Force: to.force})
	return wroteTo(to.path, d.names()), err
}
