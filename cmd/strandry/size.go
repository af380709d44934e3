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
	var asJSON, cheapest bool
	var key, low, high string
	var to target
	c := onScenario(&cobra.Command{
		Use:   "size [FILE] --for KEY | --cheapest",
		Short: "Which value just meets the limit? Which design is cheapest?",
		Long: `size finds the value of one number at which the strand just meets its limit.

    strandry size my-dryer.toml --for zone.drum.length
    strandry size --demo clear-cover --for feed.speed

Any number of the scenario will do, by its path. It tells the numerical error
of the value, from where on the limit is met nine times in ten, and what a run
at it gives. Where no value does, it tells the best that can be had and what
stands in the way; that is an answer too, with exit status 0. It looks between
the limits of the key (a zone's temperature: up to the material's usual highest
drying temperature, and nowhere beyond what the strand bears); --from and --to
set others.

    strandry size my-dryer.toml --cheapest -o figures

--cheapest looks over all [[free]] keys of the file at once for the cheapest
design that is dry nine times in ten, no hotter than the strand bears, fits
[build] and can be pulled, by the prices of [[part]] and [money]. It tells what
keeps it from being cheaper, how far the search went ([search]: seed, budget,
running), and what as many designs drawn at random would have given. -o draws
cost against moisture as PNG, SVG and PDF.` + forceRule,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		if cheapest {
			return showCheapest(c, s, to, asJSON)
		}
		r := size.Request{Key: key}
		if c.Flags().Changed("from") {
			r.From = &low
		}
		if c.Flags().Changed("to") {
			r.To = &high
		}
		return answer(c, asJSON, func(context.Context) (table.Page, error) {
			a, err := size.Find(diffusion.NewMarch(), s, r)
			if misread := (size.RequestError{}); errors.As(err, &misread) {
				err = misuse{err}
			}
			return &table.Size{Title: s.Title, File: s.File, Version: version, Answer: a, Assumed: s.Assumed}, err
		})
	})
	c.PreRunE = func(c *cobra.Command, args []string) error {
		others := c.Flags().Changed("for") || c.Flags().Changed("from") || c.Flags().Changed("to")
		switch {
		case cheapest && others:
			return errors.New("--cheapest looks over the [[free]] keys of the file: no --for, --from or --to beside it")
		case !cheapest && key == "":
			return errors.New("size needs the number to find: --for KEY, such as --for feed.speed; or --cheapest")
		case !cheapest && (c.Flags().Changed("output") || to.force):
			return errors.New("-o and --force belong to --cheapest")
		}
		return to.offered(c, args)
	}
	c.Flags().BoolVar(&cheapest, "cheapest", false, "the cheapest design over the [[free]] keys of the file")
	c.Flags().StringVar(&key, "for", "", "the number to find, by its path: `KEY`")
	c.Flags().StringVar(&low, "from", "", "lower end of the search, a `VALUE` with its unit")
	c.Flags().StringVar(&high, "to", "", "upper end of the search, a `VALUE` with its unit")
	to.flags(c, "a folder `DIR` for the figure of --cheapest", "replace the figure in DIR though it was changed since it was written")
	jsonFlag(c, &asJSON)
	return c
}
