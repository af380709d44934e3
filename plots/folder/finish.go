package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
)

// recover ends what a killed run has begun, and takes away what it has left.
func (f *Folder) recover() error {
	if f.marker.next != nil {
		if err := f.finish(); err != nil {
			return err
		}
	}
	if f.lock == nil {
		return nil // somebody may be at work
	}
	entries, err := fs.ReadDir(f.root.FS(), ".")
	if err != nil {
		return Unwritable(f.path, err)
	}
	for _, e := range entries {
		if isStaging(e.Name()) && (e.IsDir() || e.Type().IsRegular()) {
			if err := f.root.RemoveAll(e.Name()); err != nil {
				return Unwritable(f.name(e.Name()), err)
			}
		}
	}
	return nil
}

// finish gives the files of the set under way their names. It goes on where an earlier one was cut short.
func (f *Folder) finish() error {
	n := f.marker.next
	done := set{kind: n.kind}
	for _, e := range n.files {
		there, err := f.put(n, e)
		if err != nil {
			return err
		}
		if there {
			done.files = append(done.files, e)
		} else {
			done.torn = true
		}
	}
	f.sync(".", n.files)
	for _, e := range n.was {
		if _, again := n.find(e.name); again {
			continue
		}
		if sum, err := f.sumOf(e.name); err != nil || sum != e.sum {
			continue // changed, or gone
		}
		if err := f.do("remove "+e.name, func() error { return f.root.Remove(e.name) }); err != nil {
			return Unwritable(f.name(e.name), err)
		}
		f.prune(e.name)
	}
	m := f.marker.without(n.kind)
	m.sets = append(m.sets, done)
	if err := f.writeMarker(m); err != nil {
		return err
	}
	// What cannot be removed now is by the next run.
	_ = f.do("clean", func() error { return f.root.RemoveAll(n.staging) })
	return nil
}

// put gives a staged file its name; false for one that is lost.
func (f *Folder) put(n *next, e entry) (bool, error) {
	staged := path.Join(n.staging, e.name)
	sum, err := f.sumOf(e.name)
	absent := errors.Is(err, fs.ErrNotExist)
	if err != nil && !absent {
		return false, fmt.Errorf("%s: %w", f.name(e.name), reason(err))
	}
	if got, err := f.sumOf(staged); err != nil || got != e.sum {
		return sum == e.sum, nil // it has its name already, or is lost
	}
	if !absent && sum != e.sum && !slices.Contains(n.was, entry{sum, e.name}) {
		return false, fmt.Errorf("%s was changed while a new one was put in its place: move it away and start again", f.name(e.name))
	}
	if err := f.root.MkdirAll(path.Dir(e.name), 0o755); err != nil {
		return false, Unwritable(f.name(e.name), err)
	}
	if err := f.do("rename "+e.name, func() error { return f.root.Rename(staged, e.name) }); err != nil {
		return false, Unwritable(f.name(e.name), err)
	}
	return true, nil
}

// prune removes the folders of a file that are empty now.
func (f *Folder) prune(name string) {
	for up := path.Dir(name); up != "."; up = path.Dir(up) {
		if f.root.Remove(up) != nil {
			return
		}
	}
}
