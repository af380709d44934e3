package folder

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"

	"strandry/diffusion/parallel"
)

// File is a file of a set: its name in the folder, with slashes, and what writes it.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Bytes is the file of a content.
func Bytes(name string, content []byte) File {
	return File{name, func(out io.Writer) error { _, err := out.Write(content); return err }}
}

// Set is the files that belong together.
type Set struct {
	Kind   string // of the work, one word
	Files  []File
	Inputs []string // paths of what the work has read: never written
	Force  bool     // replace files of the set before that were changed since
	Kept   bool     // a set that is to be changed by hand, and is never forced
}

// Has tells whether the folder lists a set.
func (f *Folder) Has(kind string) bool { return f.marker.find(kind) != nil }

// Whole refuses a set of which a file is lost or was changed since it was written.
func (f *Folder) Whole(kind string) error {
	s := f.marker.find(kind)
	if s == nil || s.torn {
		return fmt.Errorf("%s: parts of it are lost", f.path)
	}
	for _, e := range s.files {
		switch sum, err := f.sumOf(e.name); {
		case errors.Is(err, fs.ErrNotExist):
			return fmt.Errorf("%s is not there any more", f.name(e.name))
		case err != nil:
			return fmt.Errorf("%s: %w", f.name(e.name), reason(err))
		case sum != e.sum:
			return fmt.Errorf("%s was changed since it was written", f.name(e.name))
		}
	}
	return nil
}

// Free tells whether the files of a set may be written; the error names the first that may not, and says
// what to do. Their writers are not called.
func (f *Folder) Free(s Set) error {
	for _, file := range s.Files {
		if !proper(file.Name) {
			return fmt.Errorf("%s: no name for a file of a folder", f.name(file.Name))
		}
		info, err := f.ordinary(file.Name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return fmt.Errorf("%s: %w", f.name(file.Name), reason(err))
		case isInput(info, s.Inputs):
			return fmt.Errorf("%s is read by this command, which would replace it: name another folder", f.name(file.Name))
		}
		if err := f.ours(s, file.Name); err != nil {
			return err
		}
	}
	return nil
}

// ours refuses an ordinary file that the set may not replace.
func (f *Folder) ours(s Set, name string) error {
	owner := f.marker.owner(name)
	switch {
	case owner == nil:
		return fmt.Errorf("%s exists already, and strandry did not write it: move it away, or name another folder", f.name(name))
	case owner.kind != s.Kind:
		return fmt.Errorf("%s belongs to the %s in this folder: name another folder", f.name(name), owner.kind)
	case s.Force && !s.Kept:
		return nil
	}
	before, _ := owner.find(name)
	sum, err := f.sumOf(name)
	if err != nil {
		return fmt.Errorf("%s: cannot be read: %w", f.name(name), reason(err))
	}
	if sum != before.sum {
		instead := "--force replaces it"
		if s.Kept {
			instead = "name another folder"
		}
		return fmt.Errorf("%s was changed since strandry wrote it: move it away, or %s", f.name(name), instead)
	}
	return nil
}

func isInput(info fs.FileInfo, inputs []string) bool {
	return slices.ContainsFunc(inputs, func(name string) bool {
		input, err := os.Stat(name)
		return err == nil && os.SameFile(info, input)
	})
}

// Write gives the folder the whole set in place of the one before of its kind, whose other files are removed
// unless they were changed. When it fails before the first file has its name nothing is changed; after
// that the next [Open] ends it. The error of the context is handed on.
func (f *Folder) Write(ctx context.Context, s Set) error {
	if err := f.Free(s); err != nil {
		return err
	}
	n := &next{set: set{kind: s.Kind}, staging: newStaging()}
	err := f.stage(ctx, s, n)
	if err == nil {
		err = f.Free(s) // once more, for it may have taken long
	}
	if before := f.marker.find(s.Kind); err == nil && before != nil {
		n.was = f.replaceable(before, s)
	}
	if err == nil {
		m := f.marker.without(s.Kind)
		m.next = n
		err = f.writeMarker(m)
	}
	if err != nil {
		_ = f.root.RemoveAll(n.staging) // the first error says what is wrong
		return err
	}
	if err := f.finish(); err != nil {
		return fmt.Errorf("%w; %s tells which files are in place, and the next run ends it", err, f.name(Marker))
	}
	return nil
}

// replaceable lists the files of the set before that may go: with their sums as they are now.
func (f *Folder) replaceable(before *set, s Set) []entry {
	var was []entry
	for _, e := range before.files {
		again := slices.ContainsFunc(s.Files, func(file File) bool { return file.Name == e.name })
		sum, err := f.sumOf(e.name)
		info, lost := f.ordinary(e.name)
		switch {
		case err != nil || lost != nil: // not there, or not ours to touch
		case again:
			was = append(was, entry{sum, e.name})
		case sum == e.sum && !isInput(info, s.Inputs):
			was = append(was, e)
		}
	}
	return was
}

// stage writes the files where nobody looks for them, and notes their sums.
func (f *Folder) stage(ctx context.Context, s Set, n *next) error {
	if err := f.do("make "+n.staging, func() error { return f.root.Mkdir(n.staging, 0o755) }); err != nil {
		return Unwritable(f.path, err)
	}
	for _, file := range s.Files {
		if err := ctx.Err(); err != nil {
			return err
		}
		staged := path.Join(n.staging, file.Name)
		sum, err := f.create(ctx, staged, file.Write)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			return Unwritable(f.name(file.Name), err)
		}
		n.files = append(n.files, entry{sum, file.Name})
	}
	f.sync(n.staging, n.files)
	return nil
}

// create writes a file that must not exist, and makes it durable.
func (f *Folder) create(ctx context.Context, name string, write func(io.Writer) error) (sum string, err error) {
	if err := f.root.MkdirAll(path.Dir(name), 0o755); err != nil {
		return "", err
	}
	var file *os.File
	err = f.do("create "+name, func() error {
		file, err = f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		return err
	})
	if err != nil {
		return "", err
	}
	hash := sha256.New()
	out := bufio.NewWriterSize(heard{ctx, io.MultiWriter(file, hash)}, 1<<16)
	err = f.do("write "+name, func() error {
		_, err := parallel.UnlessDone(ctx, func(context.Context) (struct{}, error) { return struct{}{}, errors.Join(write(out), out.Flush()) })
		return errors.Join(err, file.Sync()) // an output that was given up takes no more
	})
	if err = errors.Join(err, file.Close()); err != nil {
		return "", err // and somebody may be at the sum still
	}
	return hex.EncodeToString(hash.Sum(nil)), nil
}

// heard is an output that ends with the context.
type heard struct {
	ctx context.Context
	out io.Writer
}

func (h heard) Write(text []byte) (int, error) {
	if err := h.ctx.Err(); err != nil {
		return 0, err
	}
	return h.out.Write(text)
}

// writeMarker replaces the list at once.
func (f *Folder) writeMarker(m marker) error {
	staged := newStaging()
	_, err := f.create(context.Background(), staged, func(out io.Writer) error { _, err := out.Write(m.text()); return err })
	if err == nil {
		err = f.do("mark", func() error { return f.root.Rename(staged, Marker) })
	}
	if err != nil {
		_ = f.root.Remove(staged) // the first error says what is wrong
		return Unwritable(f.name(Marker), err)
	}
	f.sync(".", nil)
	f.marker = m
	return nil
}

// do takes one step on the disk.
func (f *Folder) do(what string, step func() error) error {
	if f.step != nil {
		if err := f.step(what); err != nil {
			return err
		}
	}
	return step()
}

// sync makes the names of the folders of files durable, where the system can.
func (f *Folder) sync(base string, files []entry) {
	done := map[string]bool{}
	for _, e := range append([]entry{{name: "."}}, files...) {
		name := path.Join(base, path.Dir(e.name))
		if done[name] {
			continue
		}
		done[name] = true
		if file, err := f.root.Open(name); err == nil {
			_ = file.Sync()
			_ = file.Close()
		}
	}
}
