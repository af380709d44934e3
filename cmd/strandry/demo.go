package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"strandry/scenarios"
)

// demoFlag adds the flag that chooses a demonstration.
func demoFlag(c *cobra.Command, name *string) {
	names := scenarios.Demos()
	c.Flags().StringVar(name, "demo", names[0], "the demonstration `NAME`, without a file: "+strings.Join(names, ", "))
}

// fileOrDemo allows the name of one file, unless a demonstration is asked for.
func fileOrDemo(c *cobra.Command, args []string) error {
	if len(args) == 1 && c.Flags().Changed("demo") {
		return errors.New("a file and --demo exclude each other")
	}
	if name, err := c.Flags().GetString("demo"); err == nil && len(args) == 0 {
		if _, err := scenarios.DemoText(name); err != nil {
			return err
		}
	}
	return cobra.MaximumNArgs(1)(c, args)
}

// scenario loads the named file, or a demonstration where none is named.
func scenario(args []string, demo string) (*scenarios.Scenario, error) {
	if len(args) == 1 {
		return scenarios.Load(args[0])
	}
	return scenarios.Demo(demo)
}
