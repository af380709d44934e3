package main

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/materials"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/advised"
	"strandry/scenarios/studies/checked"
	"strandry/scenarios/validation/measured"
)

func runCommand() *cobra.Command {
	var asJSON, full bool
	var set []string
	c := onScenario(&cobra.Command{
		Use:   "run [FILE]",
		Short: "How wet is the strand at the nozzle?",
		Long: `run tells how wet the strand is at the nozzle, and whether that is dry enough.

    strandry run my-dryer.toml
    strandry run --demo clear-cover

It follows the strand through each zone of its path, sets the numerical error
and the doubt about the material beside the answer, says what holds the design
back, and which changes within [build] would do: on one screen, or with all its
notes, sources and cautions by --full. --set tries a change without editing the
file. Where the file has masses of strand that was weighed at the machine as it
was built, as [[check]], it says whether they agree.

A material that is not in the library is a file of your own that says what
differs from one that is, and the scenario names the file:

    # my-petg.toml
    base = "petg"
    printing_limit = "0.08 %"`,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		s, err := s.Set(set...)
		if err != nil {
			return misuse{err}
		}
		return answer(c, asJSON, func(ctx context.Context) (table.Page, error) {
			a, err := assess(ctx, s)
			if full {
				return table.Full{Answer: a}, err
			}
			return a, err
		})
	})
	jsonFlag(c, &asJSON)
	c.Flags().BoolVar(&full, "full", false, "all notes, sources and cautions, with the numbers of the solver")
	c.Flags().StringArrayVar(&set, "set", nil, "lay a value over a `KEY=VALUE` of the scenario, such as \"zone.drum.length=18 m\"; may be repeated")
	return c
}

// assess answers for a scenario; an answer that its numerical error swamps is refused.
func assess(ctx context.Context, s *scenarios.Scenario) (*table.Answer, error) {
	m := &s.Design
	march := diffusion.NewMarch()
	a, err := march.Assess(m, s.Settings)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	if a.Swamped(m) {
		return nil, fmt.Errorf("%s: the numerical error, %s, is far larger than what it leaves, %s, and the limit, %s: refine [numerics]",
			s.File, table.Percent(a.NumericalError), table.Percent(a.Nozzle.Mean), table.Limit(m.Limit))
	}
	var built *table.Machine
	var untold string
	var beside sync.WaitGroup
	beside.Go(func() { built, untold = asBuilt(diffusion.NewMarch(), s, a) })
	d, v := advised.Find(march, s, a)
	beside.Wait()
	assumed := s.Assumed
	if a.Verdict != diffusion.Dry { // advice was sought
		assumed = slices.Concat(assumed, s.Build.Assumed, s.Build.Usual)
	}
	contradicting, err := measured.Contradicting([]materials.Polymer{m.Material})
	if err != nil {
		return nil, err
	}
	checks, err := checked.Find(ctx, s)
	if err != nil {
		return nil, err
	}
	return &table.Answer{
		Title: s.Title, File: s.File, Version: version, Design: m, Assessment: a, Diagnosis: d, Advice: v,
		Assumed: assumed, Unused: s.Unused, Machine: built, Untold: untold, Checks: checks, Contradicting: contradicting,
	}, nil
}

// asBuilt tells what the dryer takes, nil where nothing is stated of it, or why that cannot be told.
func asBuilt(march *diffusion.March, s *scenarios.Scenario, a *diffusion.Assessment) (built *table.Machine, untold string) {
	if !s.Machine.Stated {
		return nil, ""
	}
	told, err := machine.Tell(march, &s.Design, &a.Result, &s.Machine)
	if err != nil {
		return nil, err.Error()
	}
	return &table.Machine{Answer: told, Stated: &s.Machine, Strand: s.Design.Material.Name}, ""
}
