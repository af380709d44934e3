package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
)

// text reads a text file whole; its errors name the file.
func text(path string) ([]byte, error) {
	content, err := scenarios.Text(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return content, nil
}

// forceRule says in the help of a command that writes to a folder what is replaced there.
const forceRule = `

DIR/.strandry lists what was written there with its checksums. A file that it
does not list, one that was changed since, a link, and what the command reads
are left alone and named; --force replaces what was changed since, and never the
others.`

// target is the folder that a command writes to; none where it has no path.
type target struct {
	path  string
	force bool
}

// flags adds the flags that name it.
func (t *target) flags(c *cobra.Command, files, force string) {
	c.Flags().StringVarP(&t.path, "output", "o", "", files+"; made if there is none")
	c.Flags().BoolVar(&t.force, "force", false, force)
}

// needed refuses a command line that does not name it.
func (t *target) needed(c *cobra.Command, _ []string) error {
	if t.path == "" {
		return fmt.Errorf("%s needs -o DIR, the folder for its files", c.Name())
	}
	return nil
}

// offered refuses a command line that names it by nothing.
func (t *target) offered(c *cobra.Command, _ []string) error {
	if t.path == "" && c.Flags().Changed("output") {
		return errors.New("-o needs the name of a folder")
	}
	return nil
}

// within works in the folder, which nobody else writes to meanwhile.
func (t *target) within(work func(*folder.Folder) error) error {
	f, err := folder.Open(t.path)
	if err != nil {
		return err
	}
	return errors.Join(work(f), f.Close())
}

// written gives a folder a set of files. Interrupted, it leaves what was there.
func written(ctx context.Context, f *folder.Folder, s folder.Set) error {
	err := f.Write(ctx, s)
	if errors.Is(err, context.Canceled) {
		return errors.New("strandry: interrupted; nothing was written")
	}
	return err
}

// write gives the folder a set of files.
func (t *target) write(ctx context.Context, s folder.Set) error {
	return t.within(func(f *folder.Folder) error { return written(ctx, f, s) })
}

// made is the files that a work has made, and what is said of them.
type made struct {
	files []folder.File
	said  string
}

// fill gives the folder the files that work makes, and says what they are after all is written, for the reader may have gone. What may not be replaced, or refuse, which may be nil,
// will not have, is refused before the work.
func (t *target) fill(c *cobra.Command, set folder.Set, refuse func(f *folder.Folder) error, work func(ctx context.Context) (made, error)) error {
	return t.within(func(f *folder.Folder) error {
		if refuse != nil {
			if err := refuse(f); err != nil {
				return err
			}
		}
		if err := f.Free(set); err != nil {
			return err
		}
		m, err := unlessDone(c.Context(), work)
		if err != nil {
			return err
		}
		set.Files = m.files
		if err := written(c.Context(), f, set); err != nil {
			return err
		}
		_, err = io.WriteString(c.OutOrStdout(), m.said)
		return err
	})
}

// wroteTo says what was written to a folder, on one line where that fits 80 columns; the name of the folder is not broken.
func wroteTo(path, what string) string {
	const most = 79
	if line := "Written to " + path + ": " + what; utf8.RuneCountInString(line) <= most {
		return line + "\n"
	}
	return "Written to " + path + ":\n" + table.Wrapped(what)
}

// drawing is the files of a figure, or why it cannot be drawn.
type drawing struct {
	figure.Sheet
	files []folder.File
	err   error
}

// names lists its files.
func (d *drawing) names() string { return strings.Join(fileNames(d.files), ", ") }

func fileNames(files []folder.File) (names []string) {
	for _, f := range files {
		names = append(names, f.Name)
	}
	return names
}

// drawn draws figures in some formats, unless the context ends.
func drawn(ctx context.Context, sheets []figure.Sheet, formats ...canvas.Format) ([]drawing, error) {
	encoded, err := figure.EncodeAll(ctx, sheets, formats...)
	if err != nil {
		return nil, err
	}
	drawings := make([]drawing, len(sheets))
	for i, e := range encoded {
		drawings[i] = drawing{Sheet: sheets[i], err: e.Err}
		for k, content := range e.Files {
			drawings[i].files = append(drawings[i].files, folder.Bytes(sheets[i].Name+"."+string(formats[k]), content))
		}
	}
	return drawings, nil
}

// drawOne draws the one figure of a verb into the folder that was named, whose kind is the figure's name, and says what was written.
func drawOne(ctx context.Context, to target, s *scenarios.Scenario, sheet figure.Sheet) (said string, err error) {
	drawings, err := drawn(ctx, []figure.Sheet{sheet}, canvas.Formats()...)
	if err != nil {
		return "", err
	}
	d := drawings[0]
	if d.err != nil {
		return "", fmt.Errorf("%s: %w", d.Name, d.err)
	}
	err = to.write(ctx, folder.Set{Kind: sheet.Name, Files: d.files, Inputs: s.Inputs(), Force: to.force})
	return wroteTo(to.path, d.names()), err
}

// showAndSay shows a page and, unless it is JSON, what was written besides.
func showAndSay(c *cobra.Command, page table.Page, asJSON bool, said string) error {
	if err := show(c.OutOrStdout(), page, asJSON); err != nil || asJSON {
		return err
	}
	_, err := io.WriteString(c.OutOrStdout(), said)
	return err
}
