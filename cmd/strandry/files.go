package main

import (
	"context"
	"errors"
	"fmt"
	"unicode/utf8"

	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/page"
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

// within works in a folder, which nobody else writes to meanwhile.
func within(path string, work func(*folder.Folder) error) error {
	f, err := folder.Open(path)
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

// wroteTo says what was written to a folder, on one line where that fits 80 columns; the name of the folder is not broken.
func wroteTo(path, what string) string {
	const most = 79
	if line := "Written to " + path + ": " + what; utf8.RuneCountInString(line) <= most {
		return line + "\n"
	}
	return "Written to " + path + ":\n" + table.Wrapped(what)
}

// pages are the files of pages for a folder.
func pages(all []page.File) []folder.File {
	var files []folder.File
	for _, f := range all {
		files = append(files, folder.Bytes(f.Name, f.Content))
	}
	return files
}

// drawn encodes a figure in some formats, unless the context ends between two of them.
func drawn(ctx context.Context, s figure.Sheet, formats ...canvas.Format) ([]folder.File, error) {
	var files []folder.File
	for _, format := range formats {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		drawing, err := figure.Encode(s.Figure, format)
		if err != nil {
			return nil, err
		}
		files = append(files, folder.Bytes(s.Name+"."+string(format), drawing))
	}
	return files, nil
}
