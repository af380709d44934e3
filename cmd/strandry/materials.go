package main

import (
	"github.com/spf13/cobra"

	"strandry/materials"
	"strandry/plots/table"
)

func materialsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "materials [NAME | FILE]",
		Short: "List the materials, or show one with its sources and doubts",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			out := c.OutOrStdout()
			if len(args) == 1 {
				name, taken, err := materials.Understood(args[0])
				if err != nil {
					return failure{err}
				}
				noted(c, taken)
				p, err := materials.Resolve(name, text)
				if err != nil {
					return failure{err}
				}
				if asJSON {
					return wrapped(table.MaterialJSON(out, p))
				}
				return wrapped(table.Material(out, p))
			}
			library, err := materials.Library()
			if err != nil {
				return failure{err}
			}
			if asJSON {
				return wrapped(table.MaterialsJSON(out, library))
			}
			return wrapped(table.Materials(out, library))
		},
	}
	jsonFlag(c, &asJSON)
	return c
}
