package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"strandry/materials/text/nearest"
	"strandry/materials/text/strict"
)

// Load makes the scenario of a file. Material files that it names are looked for from its
// folder. The error is [strict.Faults].
func Load(path string) (*Scenario, error) {
	d, err := Open(path)
	if err != nil {
		return nil, err
	}
	return d.Scenario()
}

// Open takes the document of a file. A folder, a file that is not text and one
// longer than [strict.MaxSize] are refused. The error is [strict.Faults].
func Open(path string) (*Document, error) {
	content, err := Text(path)
	if err != nil {
		return nil, strict.Faults{{File: path, Problem: err.Error(), Nearest: neighbour(path, err)}}
	}
	d, err := Parse(path, content)
	if err != nil {
		return nil, err
	}
	folder := filepath.Dir(path)
	d.open = func(name string) ([]byte, error) {
		if !filepath.IsAbs(name) {
			name = filepath.Join(folder, name)
		}
		return Text(name)
	}
	return d, nil
}

// Text reads a text file whole. It refuses what [Open] refuses; its errors are for
// people and do not repeat the path.
func Text(path string) ([]byte, error) {
	content, err := whole(path, strict.MaxSize)
	if err == nil && bytes.IndexByte(content, 0) >= 0 {
		return nil, errors.New("this is no text file: it holds zero bytes")
	}
	return content, err
}

// whole reads a file of at most so many bytes.
func whole(path string, most int) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errMissing
	case err != nil:
		return nil, fmt.Errorf("cannot be opened: %w", errors.Unwrap(err))
	case info.IsDir():
		return nil, errors.New("this is a folder; a file is needed")
	case !info.Mode().IsRegular():
		return nil, errors.New("this is no ordinary file")
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("cannot be opened: %w", errors.Unwrap(err))
	}
	defer file.Close()
	content, err := io.ReadAll(io.LimitReader(file, int64(most)+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot be read: %w", err)
	case len(content) > most:
		return nil, fmt.Errorf("the file is too long; up to %d KiB is read", most>>10)
	}
	return content, nil
}

var errMissing = errors.New("there is no such file")

// neighbour is the file of the same kind beside a missing one that its name most likely meant.
func neighbour(path string, err error) string {
	if !errors.Is(err, errMissing) {
		return ""
	}
	entries, _ := os.ReadDir(filepath.Dir(path))
	var names []string
	for _, entry := range entries {
		if filepath.Ext(entry.Name()) == filepath.Ext(path) {
			names = append(names, entry.Name())
		}
	}
	if near := nearest.Name(filepath.Base(path), names); near != "" {
		return filepath.Join(filepath.Dir(path), near)
	}
	return ""
}
