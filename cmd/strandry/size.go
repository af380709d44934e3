package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"strandry/diffusion"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/size"
)

func sizeCommand() *cobra.Command {
	var asJSON bool
	var key, from, to string
	c := onScenario(&cobra.Command{
		Use:   "size [FILE] --for KEY",
		Short: "Which value just meets the limit?",
		Long: `size finds the value of one number at which the strand just meets its limit.

    strandry size my-dryer.toml --for zone.drum.length
    strandry size --demo clear-cover --for feed.speed

Any number of the scenario will do, by its path. It tells the numerical error
of the value, from where on the limit is met nine times in ten, and what a run
at it gives. Where no value does, it tells the best that can be had and what
stands in the way; that is an answer too, with exit status 0. It looks between
the limits of the key (a zone's temperature: up to the material's usual highest
drying temperature, and nowhere beyond what the strand bears); --from and --to
set others.`,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		r := size.Request{Key: key}
		if c.Flags().Changed("from") {
			r.From = &from
		}
		if c.Flags().Changed("to") {
			r.To = &to
		}
		return answer(c, asJSON, func(context.Context) (table.Page, error) {
			a, err := size.Find(diffusion.NewMarch(), s, r)
			if misread := (size.RequestError{}); errors.As(err, &misread) {
				err = misuse{err}
			}
			return &table.Size{Title: s.Title, File: s.File, Version: version, Answer: a, Assumed: s.Assumed}, err
		})
	})
	c.PreRunE = func(*cobra.Command, []string) error {
		if key == "" {
			return errors.New("size needs the number to find: --for KEY, such as --for feed.speed")
		}
		return nil
	}
	c.Flags().StringVar(&key, "for", "", "the number to find, by its path: `KEY`")
	c.Flags().StringVar(&from, "from", "", "lower end of the search, a `VALUE` with its unit")
	c.Flags().StringVar(&to, "to", "", "upper end of the search, a `VALUE` with its unit")
	jsonFlag(c, &asJSON)
	return c
}
