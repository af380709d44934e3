package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"strandry/plots/folder"
	"strandry/plots/page"
	"strandry/plots/table"
	"strandry/scenarios/validation/prove"
)

func proveCommand() *cobra.Command {
	var asJSON bool
	var to target
	c := &cobra.Command{
		Use:   "prove",
		Short: "Does it compute right on this machine?",
		Long: `prove tells whether the program computes right on this machine.

    strandry prove
    strandry prove -o proof

It computes a table of values that are known from outside, from published
tables, handbooks and independent codes, and sets each result against them: what
was expected, what came out, how far apart they are, and the source's own
accuracy, which is the tolerance. Failures stand first. It also refines the
solver and measures the order of its error.

-o writes the same as a page with the plots of convergence.` + forceRule + `

Exit status: 0 if every check was passed, 1 if not.`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			p, err := unlessDone(c.Context(), proved)
			if err != nil {
				return err
			}
			return showProof(p, to, asJSON, c.OutOrStdout())
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	c.PreRunE = to.offered
	to.flags(c, "a folder `DIR` for the page", "replace the page in DIR though it was changed since it was written")
	return c
}

// proved carries the table out.
func proved(ctx context.Context) (*table.Proof, error) {
	results, err := prove.Run(ctx, runtime.GOMAXPROCS(0))
	if err != nil {
		return nil, err
	}
	p := &table.Proof{Version: version, Results: results}
	if p.Orders, err = prove.Convergence(); err != nil {
		p.Unmeasured = err.Error()
	}
	return p, nil
}

// showProof prints the table and writes the page. A check that failed is an error, after all is
// said, and whatever becomes of the saying.
func showProof(p *table.Proof, to target, asJSON bool, out io.Writer) error {
	err := sayProof(p, to, asJSON, out)
	switch failed := len(p.Results) - p.Passed(); {
	case failed > 0 || len(p.Results) == 0:
		return fmt.Errorf("strandry: %d of %d checks failed", failed, len(p.Results))
	case !p.Whole():
		return errors.New("strandry: the orders of the solver could not be measured: " + p.Unmeasured)
	}
	return err
}

// sayProof prints whatever becomes of the page, whose failure weighs more.
func sayProof(p *table.Proof, to target, asJSON bool, out io.Writer) error {
	written := writeProof(p, to)
	err := show(out, p, asJSON)
	switch {
	case written != nil:
		return written
	case err != nil || to.path == "" || asJSON:
		return err
	}
	_, err = fmt.Fprintf(out, "Written to %s\n", filepath.Join(to.path, page.Proof))
	return err
}

// writeProof writes the page, if a folder is named.
func writeProof(p *table.Proof, to target) error {
	if to.path == "" {
		return nil
	}
	content, err := page.OfProof(p)
	if err != nil {
		return err
	}
	return to.write(context.Background(), folder.Set{Kind: "proof", Files: []folder.File{folder.Bytes(page.Proof, content)}, Force: to.force})
}
