package main

import (
	"context"

	"github.com/spf13/cobra"

	"strandry/plots/figure"
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
		front := figure.Sheet{Name: "cheapest", Figure: figure.FrontOf(s, found, figure.FrameOf(s, version))}
		if said, err = drawOne(c.Context(), to, s, front); err != nil {
			return err
		}
	}
	return showAndSay(c, &table.Cheapest{Title: s.Title, File: s.File, Version: version, Scenario: s, Answer: found}, asJSON, said)
}
