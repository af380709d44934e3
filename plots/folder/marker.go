package folder

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
)

// Marker is the name of the list of what was written. It can be read by sha256sum -c, which
// takes a line for a file and passes over the others.
const Marker = ".strandry"

const (
	markerFirst = "# strandry 1"
	markerWords = `# What strandry wrote here, with SHA-256. Nothing else in this folder is ever replaced or removed.
# To see whether all of it is whole: sha256sum -c .strandry`
	markerEnd   = "# end"
	markerWas   = "# was "
	markerTorn  = "# parts are lost"
	longestMark = 1 << 20 // bytes that are read of a marker
)

// entry is a file with the SHA-256 of its content.
type entry struct{ sum, name string }

// set is what one kind of work has written.
type set struct {
	kind  string
	files []entry
	torn  bool // a part was lost before it had its name
}

func (s *set) find(name string) (entry, bool) {
	for _, e := range s.files {
		if e.name == name {
			return e, true
		}
	}
	return entry{}, false
}

// next is a set that is being put in place.
type next struct {
	set
	staging string  // where its files are until they have their names
	was     []entry // of the set before
}

// marker is what a folder lists.
type marker struct {
	sets []set
	next *next // nil where nothing is under way
}

func (m *marker) find(kind string) *set {
	for i := range m.sets {
		if m.sets[i].kind == kind {
			return &m.sets[i]
		}
	}
	return nil
}

// owner is the set that lists a file; nil for none.
func (m *marker) owner(name string) *set {
	for i := range m.sets {
		if _, ok := m.sets[i].find(name); ok {
			return &m.sets[i]
		}
	}
	return nil
}

// without is the marker less one kind.
func (m *marker) without(kind string) marker {
	return marker{sets: slices.DeleteFunc(slices.Clone(m.sets), func(s set) bool { return s.kind == kind })}
}

func (m *marker) text() []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, markerFirst)
	fmt.Fprintln(&b, markerWords)
	for _, s := range m.sets {
		fmt.Fprintf(&b, "# set %s\n", s.kind)
		if s.torn {
			fmt.Fprintln(&b, markerTorn)
		}
		entries(&b, "", s.files)
	}
	if n := m.next; n != nil {
		fmt.Fprintf(&b, "# set under way %s %s\n", n.kind, n.staging)
		entries(&b, markerWas, n.was)
		entries(&b, "", n.files)
	}
	fmt.Fprintln(&b, markerEnd)
	return b.Bytes()
}

func entries(b *bytes.Buffer, before string, files []entry) {
	for _, e := range files {
		fmt.Fprintf(b, "%s%s  %s\n", before, e.sum, e.name)
	}
}

// errMarker is what becomes of a marker that is damaged, or none of ours.
var errMarker = errors.New("damaged, or not written by strandry: move it away, or name another folder")

func parseMarker(text []byte) (marker, error) {
	var m marker
	lines := strings.Split(string(text), "\n")
	n := len(lines)
	if n < 3 || lines[0] != markerFirst || lines[n-1] != "" || lines[n-2] != markerEnd {
		return m, errMarker
	}
	var into *set
	for _, line := range lines[1 : n-2] {
		switch {
		case strings.HasPrefix(line, "# set under way "):
			words := strings.Fields(line)
			if len(words) != 6 || m.next != nil || !isStaging(words[5]) {
				return m, errMarker
			}
			m.next = &next{set: set{kind: words[4]}, staging: words[5]}
			into = &m.next.set
		case strings.HasPrefix(line, "# set "):
			m.sets = append(m.sets, set{kind: strings.TrimPrefix(line, "# set ")})
			into = &m.sets[len(m.sets)-1]
		case line == markerTorn && into != nil:
			into.torn = true
		case strings.HasPrefix(line, markerWas) && m.next != nil:
			e, ok := parseEntry(strings.TrimPrefix(line, markerWas))
			if !ok {
				return m, errMarker
			}
			m.next.was = append(m.next.was, e)
		case strings.HasPrefix(line, "#"):
		default:
			e, ok := parseEntry(line)
			if !ok || into == nil {
				return m, errMarker
			}
			into.files = append(into.files, e)
		}
	}
	return m, nil
}

func parseEntry(line string) (entry, bool) {
	sum, name, ok := strings.Cut(line, "  ")
	raw, err := hex.DecodeString(sum)
	return entry{sum, name}, ok && err == nil && len(raw) == sha256.Size && proper(name)
}

// proper tells whether a name may be that of a file of a set: inside the folder, on one line, and none of
// this package's own.
func proper(name string) bool {
	first, _, _ := strings.Cut(name, "/")
	return filepath.IsLocal(filepath.FromSlash(name)) && name != "." && !strings.ContainsAny(name, "\n\r\\") && !strings.HasPrefix(first, Marker)
}

// sumOf reads a file of the folder, which is an ordinary one.
func (f *Folder) sumOf(name string) (string, error) {
	if _, err := f.ordinary(name); err != nil {
		return "", err
	}
	file, err := f.root.Open(name)
	if err != nil {
		return "", err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// readMarker takes up what the folder lists; nothing where there is no marker.
func (f *Folder) readMarker() error {
	info, err := f.ordinary(Marker)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s: %w", f.name(Marker), err)
	case info.Size() > longestMark:
		return fmt.Errorf("%s: %w", f.name(Marker), errMarker)
	}
	text, err := f.root.ReadFile(Marker)
	if err != nil {
		return fmt.Errorf("%s: cannot be read: %w", f.name(Marker), reason(err))
	}
	if f.marker, err = parseMarker(text); err != nil {
		return fmt.Errorf("%s: %w", f.name(Marker), err)
	}
	return nil
}
