package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"strandry/plots/page"
	"strandry/plots/table"
	"strandry/scenarios/prove"
)

func proveCommand() *cobra.Command {
	var asJSON bool
	var folder string
	c := &cobra.Command{
		Use:   "prove",
		Short: "Does it compute right on this machine?",
		Long: `prove computes a table of values that are known from outside, from published tables,
handbooks and independent codes, and sets each result against them: what was expected,
what came out, how far apart they are, and the source's own accuracy, which is the
tolerance. Failures stand first. It also refines the solver and measures the order of its error.

-o writes the same as a page with the plots of convergence.

Exit status: 0 if every check was passed, 1 if not.`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if c.Flags().Changed("output") && folder == "" {
				return errors.New("-o needs the name of a folder")
			}
			p, err := proved(c.Context())
			if err != nil {
				return failure{err}
			}
			return wrapped(showProof(p, folder, asJSON, c.OutOrStdout()))
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	c.Flags().StringVarP(&folder, "output", "o", "", "a folder `DIR` for the page; made if there is none")
	return c
}

// proved carries the table out.
func proved(ctx context.Context) (*table.Proof, error) {
	p := &table.Proof{Version: version}
	err := prove.Run(ctx, runtime.GOMAXPROCS(0), func(r prove.Result) { p.Results = append(p.Results, r) })
	if errors.Is(err, context.Canceled) {
		return nil, errors.New("strandry: interrupted")
	}
	if err != nil {
		return nil, err
	}
	if p.Orders, err = prove.Convergence(); err != nil {
		p.Unmeasured = err.Error()
	}
	return p, nil
}

// showProof prints the table and writes the page. A check that failed is an error, after all is
// said, and whatever becomes of the saying.
func showProof(p *table.Proof, folder string, asJSON bool, out io.Writer) error {
	err := sayProof(p, folder, asJSON, out)
	switch failed := len(p.Results) - p.Passed(); {
	case failed > 0 || len(p.Results) == 0:
		return fmt.Errorf("strandry: %d of %d checks failed", failed, len(p.Results))
	case !p.Whole():
		return errors.New("strandry: the orders of the solver could not be measured: " + p.Unmeasured)
	}
	return err
}

// sayProof prints whatever becomes of the page, whose failure weighs more.
func sayProof(p *table.Proof, folder string, asJSON bool, out io.Writer) error {
	var written error
	if folder != "" {
		written = pageOfProof(p, folder)
	}
	write := p.WriteText
	if asJSON {
		write = p.WriteJSON
	}
	err := write(out)
	switch {
	case written != nil:
		return written
	case err != nil || folder == "" || asJSON:
		return err
	}
	_, err = fmt.Fprintf(out, "Written to %s\n", filepath.Join(folder, page.Proof))
	return err
}

func pageOfProof(p *table.Proof, folder string) error {
	if err := makeFolder(folder); err != nil {
		return err
	}
	content, err := page.OfProof(p)
	if err != nil {
		return err
	}
	return writeFile(filepath.Join(folder, page.Proof), func(out io.Writer) error { _, err := out.Write(content); return err })
}
