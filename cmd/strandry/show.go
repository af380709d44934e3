package main

import (
	"io"

	"github.com/spf13/cobra"
)

// answers can be read by people and by programs.
type answers interface {
	WriteText(out io.Writer) error
	WriteJSON(out io.Writer) error
}

// jsonFlag adds the flag that asks for the form for programs.
func jsonFlag(c *cobra.Command, asJSON *bool) {
	c.Flags().BoolVar(asJSON, "json", false, "print JSON, in SI units")
}

// shown prints what a command has found.
func shown(c *cobra.Command, a answers, asJSON bool) error {
	if asJSON {
		return wrapped(a.WriteJSON(c.OutOrStdout()))
	}
	return wrapped(a.WriteText(c.OutOrStdout()))
}

// wrapped marks an error of the work as such.
func wrapped(err error) error {
	if err == nil {
		return nil
	}
	return failure{err}
}
