package main

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/cobra"

	"strandry/diffusion/parallel"
	"strandry/plots/table"
)

// jsonFlag adds the flag that asks for the form for programs.
func jsonFlag(c *cobra.Command, asJSON *bool) {
	c.Flags().BoolVar(asJSON, "json", false, "print JSON, in SI units")
}

// show prints what a command has found.
func show(out io.Writer, p table.Page, asJSON bool) error {
	if asJSON {
		return table.WriteJSON(out, p)
	}
	return table.WriteText(out, p)
}

// answer finds what a command is asked for, unless the context ends first, and prints it.
func answer(c *cobra.Command, asJSON bool, find func(ctx context.Context) (table.Page, error)) error {
	a, err := unlessDone(c.Context(), find)
	if err != nil {
		return err
	}
	return show(c.OutOrStdout(), a, asJSON)
}

// unlessDone returns what work returns, or gives it up when the context ends first.
func unlessDone[T any](ctx context.Context, work func(ctx context.Context) (T, error)) (T, error) {
	out, err := parallel.UnlessDone(ctx, work)
	if errors.Is(err, context.Canceled) {
		var none T
		return none, errors.New("strandry: interrupted")
	}
	return out, err
}
