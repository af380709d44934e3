package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/suits"
	"strandry/scenarios/validation/measured"
)

func suitsCommand() *cobra.Command {
	var asJSON bool
	var material, opened string
	c := onScenario(&cobra.Command{
		Use:   "suits [FILE]",
		Short: "Which materials is this dryer for?",
		Long: `suits tells which materials of the library a dryer is for.

    strandry suits my-dryer.toml
    strandry suits --demo clear-cover --material petg

Each runs through the dryer as it is drawn, heated zones at the material's own
usual highest drying temperature: how likely it is dry, and whether it survives;
then how long the zone that dries would have to be, whether that can be built
([build] longest), and how long the same strand would take at rest in the same
air. Two views: a strand in equilibrium with the room, and one that was dry and
has lain in the room for a few hours (--opened).`,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		roomTime, err := quantity.Duration().Parse(opened)
		if err != nil || roomTime < 1 || roomTime > 10*365.25*86400 {
			return misuse{fmt.Errorf("--opened %q: give a time such as \"6 h\", from 1 s to ten years", opened)}
		}
		all, err := chosen(c, s, material)
		if err != nil {
			return err
		}
		return answer(c, asJSON, func(ctx context.Context) (table.Page, error) {
			answer, err := suits.Find(ctx, s, all, roomTime)
			if err != nil {
				return nil, err
			}
			contradicting, err := measured.Contradicting(all)
			return &table.Suits{Title: s.Title, File: s.File, Version: version, Answer: answer, Assumed: slices.Concat(s.Taken, s.Build.Assumed), Contradicting: contradicting}, err
		})
	})
	c.Flags().StringVar(&material, "material", "", "one material, by its `NAME` or its file, in place of all")
	c.Flags().StringVar(&opened, "opened", "6 h", "the `TIME` that the dry strand of the second view has lain in the room")
	jsonFlag(c, &asJSON)
	return c
}

// chosen are the materials to set against a scenario: the one that is named, or
// the library and the scenario's own. Where the name is that of the scenario's own, that which the scenario makes of it is among them.
func chosen(c *cobra.Command, s *scenarios.Scenario, name string) ([]materials.Polymer, error) {
	if name == "" {
		return s.Materials()
	}
	own := s.Model.Material
	given, base := s.Named()
	if name == own.ID && !slices.Contains(materials.Names(), name) {
		name = given // it can be no other
	}
	name, taken, err := materials.Understood(name)
	if err != nil {
		return nil, err
	}
	if taken != "" {
		s.Taken = append(s.Taken, "--material: "+taken)
	}
	if file := c.Flags().Arg(0); name == given || strings.HasSuffix(name, ".toml") && file != "" && same(name, beside(file, given)) {
		if own.Same(&base) {
			return []materials.Polymer{own}, nil
		}
		return []materials.Polymer{base, own}, nil
	}
	p, err := materials.Resolve(name, text)
	return []materials.Polymer{p}, err
}

// beside is the path of a file that another one names.
func beside(file, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(file), name)
}
