package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"strandry/materials"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// fitting is what the flags of a fit say.
type fitting struct {
	material string
	prior    bool
	plan     bool
	design   string // a scenario that the answer serves
	asJSON   bool
}

func fitCommand() *cobra.Command {
	var f fitting
	c := &cobra.Command{
		Use:   "fit FILE",
		Short: "How fast does water move in your own strand, by its weighings?",
		Long: `fit tells how fast water moves in a strand of your own that was weighed as it
dried, or took up water, in air that you know.

    strandry fit my-weighings.toml
    strandry fit my-weighings.toml -o my-nylon.toml

The file names a table of times and masses for each run, with the air that the
strand lay in; "strandry new --weighings FILE" writes one to start from. Fitted
are the diffusivity, its activation energy where there are two temperatures,
beta where the weighings tell it, and for each run the water at the start and
the dry mass where they are not stated. Each comes with the range that holds it
nine times in ten. What the weighings cannot tell is called so.

-o writes what was found as a material file, which every command takes:
material = "my-nylon.toml" in a scenario.

    strandry fit --plan my-weighings.toml

tells before anything is weighed whether your scale can do it, with how much
strand, and when to weigh. Its runs need no tables yet; [plan] says what is
wanted: factor = 1.3 (known within that either way), strand = "20 g" (what
there is to weigh), longest = "48 h" and weighings = 12 for each run. --for
names the scenario that the answer serves, and tells how sure its verdict
would be then.

An oven burns, and hot strand may give off fumes: gloves, air in the room, never
unattended; the oven's own instructions and the material's come first.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("fit needs the name of the one file that tells of the weighings")
			}
			return nil
		},
		PreRunE: f.misused,
		RunE: func(c *cobra.Command, args []string) error {
			if f.plan {
				return f.planned(c, args[0])
			}
			return f.run(c, args[0])
		},
	}
	c.Flags().StringVarP(&f.material, "output", "o", "", "the material `FILE` to write, a new one that ends in .toml")
	c.Flags().BoolVar(&f.plan, "plan", false, "plan weighings that are still to be made")
	c.Flags().StringVar(&f.design, "for", "", "with --plan: the `SCENARIO` whose verdict the weighings are to make sure")
	c.Flags().BoolVar(&f.prior, "prior", false, "count what the library says of the strand too")
	jsonFlag(c, &f.asJSON)
	return c
}

// misused refuses flags that do not go together.
func (f *fitting) misused(*cobra.Command, []string) error {
	switch {
	case f.plan && (f.prior || f.material != ""):
		return errors.New("--plan finds nothing to write or to weigh against the library: it goes without -o and --prior")
	case !f.plan && f.design != "":
		return errors.New("--for is what weighings are planned for: it goes with --plan")
	case f.material != "" && !strings.HasSuffix(f.material, ".toml"):
		return fmt.Errorf("-o %s: a material file ends in .toml", f.material)
	}
	return nil
}

// planned tells what weighings would tell.
func (f *fitting) planned(c *cobra.Command, file string) error {
	w, err := scenarios.OpenPlan(file)
	if err != nil {
		return err
	}
	var design *scenarios.Scenario
	if f.design != "" {
		if design, err = scenarios.Load(f.design); err != nil {
			return err
		}
	}
	return answer(c, f.asJSON, func(context.Context) (table.Page, error) {
		p, err := fit.MakePlan(w, design)
		return &table.FitPlan{Version: version, Plan: p}, err
	})
}

func (f *fitting) run(c *cobra.Command, file string) error {
	w, err := scenarios.OpenWeighings(file)
	if err != nil {
		return err
	}
	o, err := unlessDone(c.Context(), func(context.Context) (*fit.Outcome, error) { return fit.Fit(w, fit.Options{Prior: f.prior}) })
	if err != nil {
		return err
	}
	said, err := f.write(o)
	if err != nil {
		return err
	}
	if err := show(c.OutOrStdout(), &table.Fit{Version: version, Outcome: o, Written: f.material}, f.asJSON); err != nil || f.asJSON {
		return err
	}
	_, err = io.WriteString(c.OutOrStdout(), said)
	return err
}

// write writes the material, if a file is named for it, and says so.
func (f *fitting) write(o *fit.Outcome) (said string, err error) {
	if f.material == "" {
		return "", nil
	}
	if !o.Told {
		return fmt.Sprintf("\n%s is not written: these weighings do not tell the diffusivity.\n", f.material), nil
	}
	name := strings.TrimSuffix(filepath.Base(f.material), ".toml")
	folder := filepath.Dir(f.material)
	text, err := materials.FittedFile(o.Material(name, folder), o.Base)
	if err != nil {
		return "", fmt.Errorf("%s: %w", f.material, err)
	}
	if err := create(f.material, []byte(text)); err != nil {
		return "", err
	}
	return fmt.Sprintf("\nWrote %s. In a scenario: material = %q\n", f.material, f.material), nil
}
