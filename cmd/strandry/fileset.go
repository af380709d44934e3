package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"

	"strandry/plots/page"
)

// stagingFolder is where files that belong together are written before any of them gets its name. What
// a killed run leaves in it is taken away by the next one.
const stagingFolder = ".strandry.new"

// writeSet gives the folder all the files, or none: each is written whole before the first is put in
// its place, the last of them last. Those of the known names that are no longer among
// them are taken away.
func writeSet(ctx context.Context, folder string, files []page.File, known []string) (err error) {
	fresh := !exists(folder)
	if err := makeFolder(folder); err != nil {
		return err
	}
	staging := filepath.Join(folder, stagingFolder)
	for _, f := range files {
		if err := noFolder(filepath.Join(folder, filepath.FromSlash(f.Name))); err != nil {
			return err
		}
	}
	defer func() {
		if left := os.RemoveAll(staging); err == nil {
			err = left
		}
		if err != nil && fresh {
			_ = os.Remove(folder) // stays if there is anything in it
		}
	}()
	if err := os.RemoveAll(staging); err != nil {
		return unwritable(staging, err)
	}
	for _, f := range files {
		if ctx.Err() != nil {
			return errors.New("strandry: interrupted; nothing was written")
		}
		name := filepath.Join(staging, filepath.FromSlash(f.Name))
		if err := makeFolder(filepath.Dir(name)); err != nil {
			return err
		}
		if err := writeFile(name, func(out io.Writer) error { _, err := io.Copy(out, bytes.NewReader(f.Content)); return err }); err != nil {
			return err
		}
	}
	for _, f := range files {
		name := filepath.FromSlash(f.Name)
		if err := makeFolder(filepath.Dir(filepath.Join(folder, name))); err != nil {
			return err
		}
		if err := os.Rename(filepath.Join(staging, name), filepath.Join(folder, name)); err != nil {
			return unwritable(filepath.Join(folder, name), err)
		}
	}
	for _, name := range known {
		if !slices.ContainsFunc(files, func(f page.File) bool { return f.Name == name }) {
			if err := os.Remove(filepath.Join(folder, filepath.FromSlash(name))); err != nil && !errors.Is(err, os.ErrNotExist) {
				return unwritable(name, err)
			}
		}
	}
	return nil
}
