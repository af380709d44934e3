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
	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// fitting is what the flags of a fit say.
type fitting struct {
	output  string // the material file to write; of a plan the folder for its sheet and tables
	figures target
	prior   bool
	plan    bool
	design  string // a scenario that the answer serves
	asJSON  bool
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
material = "my-nylon.toml" in a scenario. --figures DIR draws the weighings and
what the fit leaves of them, as PNG, SVG and PDF.

    strandry fit --plan my-weighings.toml

tells before anything is weighed whether your scale can do it, with how much
strand, and when to weigh. Its runs need no tables yet; [plan] says what is
wanted: factor = 1.3 (known within that either way), strand = "20 g" (what
there is to weigh), longest = "48 h" and weighings = 12 for each run. --for
names the scenario that the answer serves, and tells how sure its verdict
would be then. -o DIR writes a sheet to print and to write on, a table for
each run with the due times and empty masses, and the file that fit reads when
they are filled in.

An oven burns, and hot strand may give off fumes: gloves, air in the room, never
unattended; the oven's own instructions and the material's come first.` + forceRule,
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
	c.Flags().StringVarP(&f.output, "output", "o", "", "the material `FILE` to write, a new one that ends in .toml; with --plan a folder for sheet and tables")
	c.Flags().StringVar(&f.figures.path, "figures", "", "a folder `DIR` for figures; made if there is none")
	c.Flags().BoolVar(&f.figures.force, "force", false, "replace figures in DIR though they were changed since they were written")
	c.Flags().BoolVar(&f.plan, "plan", false, "plan weighings that are still to be made")
	c.Flags().StringVar(&f.design, "for", "", "with --plan: the `SCENARIO` whose verdict the weighings are to make sure")
	c.Flags().BoolVar(&f.prior, "prior", false, "count what the library says of the strand too")
	jsonFlag(c, &f.asJSON)
	return c
}

// misused refuses flags that do not go together.
func (f *fitting) misused(c *cobra.Command, _ []string) error {
	given := c.Flags().Changed
	switch {
	case f.plan && (f.prior || given("figures")):
		return errors.New("--plan finds nothing to draw or to weigh against the library: it goes without --figures and --prior")
	case !f.plan && f.design != "":
		return errors.New("--for is what weighings are planned for: it goes with --plan")
	case given("output") && f.output == "" || given("figures") && f.figures.path == "":
		return errors.New("-o and --figures need a name")
	case f.figures.force && f.figures.path == "":
		return errors.New("--force replaces figures: it goes with --figures; tables that were filled in are never replaced")
	case !f.plan && f.output != "" && !strings.HasSuffix(f.output, ".toml"):
		return fmt.Errorf("-o %s: a material file ends in .toml", f.output)
	}
	return nil
}

func (f *fitting) run(c *cobra.Command, file string) error {
	w, err := scenarios.OpenWeighings(file)
	if err != nil {
		return err
	}
	if f.figures.path == "" {
		return f.found(c, w, func(*fit.Outcome) (string, error) { return "", nil })
	}
	set := folder.Set{Kind: "fit", Inputs: w.Inputs(), Force: f.figures.force}
	for _, name := range []string{"masses", "residuals"} {
		for _, format := range canvas.Formats() {
			set.Files = append(set.Files, folder.File{Name: name + "." + string(format)})
		}
	}
	return f.figures.within(func(d *folder.Folder) error {
		if err := d.Free(set); err != nil {
			return err
		}
		return f.found(c, w, func(o *fit.Outcome) (string, error) {
			m, err := unlessDone(c.Context(), func(ctx context.Context) (made, error) { return fitFigures(ctx, o) })
			if err != nil {
				return "", err
			}
			set.Files = m.files
			return m.said, written(c.Context(), d, set)
		})
	})
}

// found fits, draws by a function that says what it wrote, writes the material and prints all.
func (f *fitting) found(c *cobra.Command, w *scenarios.Weighings, draw func(*fit.Outcome) (string, error)) error {
	o, err := unlessDone(c.Context(), func(context.Context) (*fit.Outcome, error) { return fit.Fit(w, fit.Options{Prior: f.prior}) })
	if err != nil {
		return err
	}
	drawn, err := draw(o)
	if err != nil {
		return err
	}
	said, err := f.write(o)
	if err != nil {
		return err
	}
	if err := show(c.OutOrStdout(), &table.Fit{Version: version, Outcome: o, Written: f.output}, f.asJSON); err != nil {
		return err
	}
	if !f.asJSON {
		_, err = io.WriteString(c.OutOrStdout(), said+drawn)
	}
	if f.output != "" && !o.Told {
		err = errors.Join(err, fmt.Errorf("%s is not written: these weighings do not tell the diffusivity", f.output))
	}
	return err
}

// fitFigures draws what was fitted, and says what each figure shows.
func fitFigures(ctx context.Context, o *fit.Outcome) (m made, err error) {
	frame, weighed := figure.FrameOfWeighings(o.Weighings, version), figure.WeighedOf(o)
	drawings, err := drawn(ctx, []figure.Sheet{
		{Name: "masses", Figure: figure.Masses{Frame: frame, Weighed: weighed}}, {Name: "residuals", Figure: figure.Residuals{Frame: frame, Weighed: weighed}},
	}, canvas.Formats()...)
	if err != nil {
		return m, err
	}
	m.said = "\n"
	for _, d := range drawings {
		if d.err != nil {
			return m, fmt.Errorf("%s: %w", d.Name, d.err)
		}
		m.files = append(m.files, d.files...)
		m.said += table.Wrapped(fmt.Sprintf("%s: %s.", d.names(), strings.ReplaceAll(d.Figure.Headline(), "\u00a0", " ")))
	}
	return m, nil
}

// write writes the material, if a file is named for it, and says so.
func (f *fitting) write(o *fit.Outcome) (said string, err error) {
	if f.output == "" || !o.Told {
		return "", nil
	}
	name := strings.TrimSuffix(filepath.Base(f.output), ".toml")
	folder := filepath.Dir(f.output)
	text, err := materials.FittedFile(o.Material(name, folder), o.Base)
	if err != nil {
		return "", fmt.Errorf("%s: %w", f.output, err)
	}
	if err := create(f.output, []byte(text)); err != nil {
		return "", err
	}
	return fmt.Sprintf("\nWrote %s. In a scenario: material = %q\n", f.output, f.output), nil
}
