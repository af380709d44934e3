package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

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

// writeFile gives a file new content at once: at no moment is there a part of it
// under that name. What is written to before, beside it and hidden, is taken up by the
// next call if the program ends half-way.
func writeFile(path string, write func(io.Writer) error) (err error) {
	if err := noFolder(path); err != nil {
		return err
	}
	before := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".new")
	file, err := os.OpenFile(before, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return unwritable(path, err)
	}
	out := bufio.NewWriter(file)
	err = errors.Join(write(out), out.Flush(), file.Sync(), file.Close())
	if err == nil {
		err = os.Rename(before, path)
	}
	if err != nil {
		_ = os.Remove(before) // the first error says what is wrong
		return unwritable(path, err)
	}
	return nil
}

// noFolder refuses the name of a folder for a file.
func noFolder(path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s: cannot be written: this is a folder", path)
	}
	return nil
}

// makeFolder makes a folder unless there is one.
func makeFolder(path string) error {
	info, err := os.Stat(path)
	if err == nil && !info.IsDir() {
		return fmt.Errorf("%s: this is a file; the name of a folder is needed", path)
	}
	if err := os.MkdirAll(path, 0o755); err != nil {
		return unwritable(path, err)
	}
	return nil
}

// exists tells whether there is anything under a name.
func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// same tells whether two names are of one file.
func same(one, other string) bool {
	first, err := os.Stat(one)
	second, otherErr := os.Stat(other)
	return err == nil && otherErr == nil && os.SameFile(first, second)
}

// unwritable names the file once.
func unwritable(path string, err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err
	}
	return fmt.Errorf("%s: cannot be written: %w", path, err)
}
