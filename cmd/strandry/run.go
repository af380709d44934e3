package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/diffusion/levers"
	"strandry/materials"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/measured"
)

func runCommand() *cobra.Command {
	var asJSON bool
	var demo string
	c := &cobra.Command{
		Use:   "run [FILE]",
		Short: "How wet is the strand at the nozzle?",
		Long: `run tells how wet the strand is at the nozzle, and whether that is dry enough.

    strandry run my-dryer.toml
    strandry run --demo clear-cover

It follows the strand through each zone of its path, sets the numerical error
and the doubt about the material beside the answer, and says what holds the
design back.

A material that is not in the library is a file of your own that says what
differs from one that is, and the scenario names the file:

    # my-petg.toml
    base = "petg"
    printing_limit = "0.08 %"`,
		Args: fileOrDemo,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := scenario(args, demo)
			if err != nil {
				return failure{err}
			}
			a, err := unlessDone(c.Context(), func() (*table.Answer, error) { return answer(s) })
			if err != nil {
				return failure{err}
			}
			return shown(c, a, asJSON)
		},
	}
	jsonFlag(c, &asJSON)
	demoFlag(c, &demo)
	return c
}

// unlessDone returns what work returns, or gives it up when the context ends first.
func unlessDone[T any](ctx context.Context, work func() (T, error)) (T, error) {
	type outcome struct {
		value T
		err   error
	}
	done := make(chan outcome, 1)
	go func() {
		value, err := work()
		done <- outcome{value, err}
	}()
	select {
	case o := <-done:
		return o.value, o.err
	case <-ctx.Done():
		var none T
		return none, errors.New("strandry: interrupted")
	}
}

func answer(s *scenarios.Scenario) (*table.Answer, error) {
	m := &s.Model
	march := diffusion.NewMarch()
	a, err := march.Assess(m, s.Settings)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	library, err := materials.Library()
	if err != nil {
		return nil, err
	}
	d := levers.Find(march, m, a, library)
	contradicting, err := measured.Contradicting([]materials.Polymer{m.Material})
	if err != nil {
		return nil, err
	}
	return &table.Answer{
		Title: s.Title, File: s.File, Version: version, Model: m, Assessment: a, Diagnosis: d,
		Assumed: s.Assumed, Unused: s.Unused, Contradicting: contradicting,
	}, nil
}
