package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"strandry/scenarios"
)

// onScenario makes a command one that is asked of a scenario: that of the file that is named, or a demonstration.
func onScenario(c *cobra.Command, does func(c *cobra.Command, s *scenarios.Scenario) error) *cobra.Command {
	var demo string
	names := scenarios.Demos()
	c.Flags().StringVar(&demo, "demo", names[0], "the demonstration `NAME`, without a file: "+strings.Join(names, ", "))
	c.Args = func(c *cobra.Command, args []string) error {
		if len(args) == 1 && c.Flags().Changed("demo") {
			return errors.New("a file and --demo exclude each other")
		}
		if len(args) == 0 {
			if _, err := scenarios.DemoText(demo); err != nil {
				return err
			}
		}
		return cobra.MaximumNArgs(1)(c, args)
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		load, name := scenarios.Demo, demo
		if len(args) == 1 {
			load, name = scenarios.Load, args[0]
		}
		s, err := load(name)
		if err != nil {
			return err
		}
		return does(c, s)
	}
	return c
}
