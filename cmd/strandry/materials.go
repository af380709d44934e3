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
		Long: `materials lists the library, or shows one material with its sources and doubts.

    strandry materials
    strandry materials petg

A name is understood as people write it: "PETG", "PA 12", "Nylon 6". For a
material of your own, write a file that says what differs from one of the
library, and name the file in the scenario, material = "my-petg.toml":

    base = "petg"
    printing_limit = "0.08 %"
    diffusivity = { value = "1.5e-13 m2/s" }

strandry materials my-petg.toml shows it whole.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			out := c.OutOrStdout()
			if len(args) == 1 {
				name, taken, err := materials.Understood(args[0])
				if err != nil {
					return err
				}
				noted(c, taken)
				p, err := materials.Resolve(name, text)
				if err != nil {
					return err
				}
				return show(out, table.Polymer{Polymer: p}, asJSON)
			}
			library, err := materials.Library()
			if err != nil {
				return err
			}
			return show(out, table.Polymers(library), asJSON)
		},
	}
	jsonFlag(c, &asJSON)
	return c
}
