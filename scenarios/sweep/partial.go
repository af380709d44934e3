package sweep

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Partial is the file of a sweep under way: a line for its origin and one for each
// finished row, in the order of finishing. It survives the end of the program at any
// moment: a line that was torn is known by its checksum and left out when the file is
// read. While it is open no other sweep can open it, where the system knows locks.
type Partial struct {
	Known map[int]Row // rows that the file held when it was opened

	file   *os.File
	origin uint32 // checksum of the origin
}

// CreatePartial starts the file anew.
func CreatePartial(path string, o Origin) (*Partial, error) {
	p, err := openPartial(path, os.O_CREATE)
	if err != nil {
		return nil, err
	}
	if err := p.file.Truncate(0); err != nil {
		return nil, errors.Join(unwritable(path, err), p.file.Close())
	}
	if err := p.line(o.String()); err != nil {
		return nil, errors.Join(err, p.file.Close(), os.Remove(path)) // lest it pass for a sweep
	}
	p.origin = checksum(0, o.String())
	return p, nil
}

// OpenPartial takes up the file of a sweep that was cut short. A missing file, and
// one that ended within its first line, is started anew. It refuses a file whose origin
// is another and says in what.
func OpenPartial(path string, o Origin) (*Partial, error) {
	known, found, err := readPartial(path, o)
	if err != nil {
		return nil, err
	}
	if !found {
		return CreatePartial(path, o)
	}
	p, err := openPartial(path, 0)
	if err != nil {
		return nil, err
	}
	p.Known, p.origin = known, checksum(0, o.String())
	// A torn line is ended, so that it takes no other with it.
	if _, err := io.WriteString(p.file, "\n"); err != nil {
		return nil, errors.Join(unwritable(path, err), p.file.Close())
	}
	return p, nil
}

// openPartial opens the file to add to it, alone.
func openPartial(path string, flag int) (*Partial, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND|flag, 0o644)
	if err != nil {
		return nil, unwritable(path, err)
	}
	if lock(file) != nil {
		return nil, errors.Join(fmt.Errorf("%s: another sweep is writing to it: wait for its end, or name another folder", path), file.Close())
	}
	return &Partial{file: file}, nil
}

// readPartial reads what a file holds; found is false where there is nothing to
// keep.
func readPartial(path string, o Origin) (known map[int]Row, found bool, err error) {
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, fmt.Errorf("%s: cannot be opened: %w", path, errors.Unwrap(err))
	}
	defer file.Close()
	known = map[int]Row{}
	lines := bufio.NewScanner(file)
	lines.Buffer(nil, longestLine)
	origin := uint32(0)
	for lines.Scan() {
		text, whole := unsealed(origin, lines.Text())
		switch {
		case !found && whole:
			earlier, err := ParseOrigin(text)
			if err != nil {
				return nil, false, fmt.Errorf("%s: damaged: %w; start again with --force", path, err)
			}
			if why := o.Differs(earlier); why != "" {
				return nil, false, fmt.Errorf("%s: cannot be continued: %s", path, why)
			}
			found, origin = true, checksum(0, text)
		case !found:
			if lines.Scan() {
				return nil, false, fmt.Errorf("%s: damaged: its first line is no origin of a sweep; start again with --force", path)
			}
			return nil, false, nil
		case whole:
			if index, row, ok := parseRecord(text, o.Rows); ok {
				known[index] = row
			}
		}
	}
	if err := lines.Err(); err != nil {
		return nil, false, fmt.Errorf("%s: cannot be read: %w", path, err)
	}
	return known, found, nil
}

// longestLine bounds the reading of a file that is none of ours.
const longestLine = 1 << 20

// Add writes one finished row to the file, in one piece.
func (p *Partial) Add(index int, row Row) error { return p.line(record(index, row)) }

func (p *Partial) line(text string) error {
	if _, err := io.WriteString(p.file, sealed(p.origin, text)); err != nil {
		return unwritable(p.file.Name(), err)
	}
	return nil
}

// Close ends the writing; the file stays.
func (p *Partial) Close() error {
	if err := errors.Join(p.file.Sync(), p.file.Close()); err != nil {
		return unwritable(p.file.Name(), err)
	}
	return nil
}

func unwritable(path string, err error) error {
	return fmt.Errorf("%s: cannot be written: %w", path, reason(err))
}

// reason is the error without the path that it repeats.
func reason(err error) error {
	if inner := errors.Unwrap(err); inner != nil {
		return inner
	}
	return err
}
