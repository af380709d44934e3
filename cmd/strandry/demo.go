package main

import (
	"strings"

	"github.com/spf13/cobra"

	"strandry/scenarios"
)

// demoFlag adds the flag that chooses a demonstration.
func demoFlag(c *cobra.Command, name *string) {
	names := scenarios.Demos()
	c.Flags().StringVar(name, "demo", names[0], "the demonstration `NAME`, without a file: "+strings.Join(names, ", "))
}
