package main

import (
	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/diffusion/levers"
	"strandry/materials"
	"strandry/plots/table"
	"strandry/scenarios"
)

func runCommand() *cobra.Command {
	var asJSON bool
	var demo string
	c := &cobra.Command{
		Use:   "run [FILE]",
		Short: "How wet is the strand at the nozzle?",
		Long: `run takes one scenario and tells how wet the strand is after each zone and at the
nozzle, with the numerical error and the doubt about the material beside the
answer, and says what holds the design back.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			s, err := scenario(args, demo)
			if err != nil {
				return failure{err}
			}
			a, err := answer(s)
			if err != nil {
				return failure{err}
			}
			if asJSON {
				err = a.WriteJSON(c.OutOrStdout())
			} else {
				err = a.WriteText(c.OutOrStdout())
			}
			if err != nil {
				return failure{err}
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, in SI units")
	demoFlag(c, &demo)
	return c
}

// scenario loads the named file, or a demonstration where none is named.
func scenario(args []string, demo string) (*scenarios.Scenario, error) {
	if len(args) == 1 {
		return scenarios.Load(args[0])
	}
	return scenarios.Demo(demo)
}

func answer(s *scenarios.Scenario) (*table.Answer, error) {
	m := &s.Model
	march := diffusion.NewMarch()
	a, err := march.Assess(m, s.Settings)
	if err != nil {
		return nil, err
	}
	library, err := materials.Library()
	if err != nil {
		return nil, err
	}
	d, err := levers.Find(march, m, a, library)
	if err != nil {
		return nil, err
	}
	return &table.Answer{
		Title: s.Title, File: s.File, Version: version, Model: m, Assessment: a, Diagnosis: d,
		Assumed: s.Assumed, Unused: s.Unused,
	}, nil
}
