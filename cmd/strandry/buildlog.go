package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"strandry/materials/text/inert"
	"strandry/plots/folder"
	"strandry/plots/page"
	"strandry/scenarios"
	"strandry/scenarios/studies/buildlog"
)

func buildlogCommand() *cobra.Command {
	var to target
	c := onScenario(&cobra.Command{
		Use:   "buildlog [FILE] -o DIR",
		Short: "All studies of a scenario on one page to keep or to show",
		Long: `buildlog writes all studies of a scenario as one page to keep or to show.

    strandry buildlog my-dryer.toml -o log

The page stands alone in DIR, buildlog.html, and the same as Markdown,
buildlog.md, with the figures as PNG and SVG in DIR/figures: the question, the
answer and its doubts, what the figures show, which materials suit, what to
build, the sources of the values used, assumptions, cautions, and the scenario
with the command that makes the page again.

It needs no network and no script, follows the reader's light or dark scheme,
and prints. A build log that is already in DIR is left alone unless --force is
given; the new one is complete before it takes its place.` + forceRule,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		command := "strandry buildlog --demo " + c.Flag("demo").Value.String() + " -o DIR"
		if file := c.Flags().Arg(0); file != "" {
			command = "strandry buildlog " + quoted(filepath.Base(file)) + " -o DIR"
		}
		return writeLog(c, s, command, to)
	})
	c.PreRunE = to.needed
	to.flags(c, "the folder `DIR` for the files", "replace the build log that DIR holds")
	return c
}

func writeLog(c *cobra.Command, s *scenarios.Scenario, command string, to target) error {
	set := folder.Set{Kind: "buildlog", Inputs: s.Inputs(), Force: to.force}
	for _, name := range page.Names(s.Vary) {
		set.Files = append(set.Files, folder.File{Name: name})
	}
	another := func(f *folder.Folder) error {
		if !to.force && f.Has(set.Kind) {
			return fmt.Errorf("%s holds a build log already: --force replaces it", to.path)
		}
		return nil
	}
	return to.fill(c, set, another, func(ctx context.Context) (m made, err error) {
		files, err := logOf(ctx, s, command, c.ErrOrStderr())
		for _, file := range files {
			m.files = append(m.files, folder.Bytes(file.Name, file.Content))
		}
		m.said = wroteTo(to.path, fmt.Sprintf("%s, %s, %d files in %s", page.HTML, page.Markdown, len(files)-2, page.Figures))
		return m, err
	})
}

// logOf makes the files of a build log.
func logOf(ctx context.Context, s *scenarios.Scenario, command string, errOut io.Writer) ([]page.File, error) {
	bar := newProgress(errOut, 0, buildlog.Steps, "studies")
	defer bar.end()
	a, err := assess(ctx, s)
	if err != nil {
		return nil, err
	}
	v, err := buildlog.Of(ctx, s, a.Assessment, bar.step)
	if err != nil {
		return nil, err
	}
	l := page.Log{Scenario: s, Answer: a, Survey: v, Command: command}
	return l.Files()
}

// quoted is a file's name as a shell takes it, in characters that can be printed.
func quoted(name string) string {
	if inert.Flaw(name) != "" {
		var out strings.Builder
		for _, b := range []byte(name) {
			if b < ' ' || b > '~' || b == '\'' || b == '\\' {
				fmt.Fprintf(&out, `\x%02x`, b)
			} else {
				out.WriteByte(b)
			}
		}
		return "$'" + out.String() + "'"
	}
	if name != "" && strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-") == "" {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
