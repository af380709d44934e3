package sweep

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Partial is the file of a sweep under way: a line for its origin and one for each
// finished row, in the order of finishing. It survives the end of the program at any
// moment: a line that was torn is known by its checksum and left out when the file is
// read. Two must not have it open at once: whoever opens it holds its folder.
type Partial struct {
	Known   map[int]Row // rows that the file held when it was opened
	Damaged int         // its lines that held none, torn or changed; their rows are found again

	file   *os.File
	origin uint32 // checksum of the origin
}

// CreatePartial starts the file of that name in the folder anew. One that is there must be that of a sweep.
func CreatePartial(root *os.Root, name string, o Origin) (*Partial, error) {
	old, err := openPartial(root, name, os.O_RDONLY)
	switch {
	case err == nil:
		ours := isPartial(old)
		_ = old.Close() // nothing was written
		if !ours {
			return nil, fmt.Errorf("%s exists already, and is none of a sweep: move it away, or name another folder", path(root, name))
		}
		if err := root.Remove(name); err != nil {
			return nil, cannotBe("written", path(root, name), err)
		}
	case !errors.Is(err, fs.ErrNotExist):
		return nil, err
	}
	file, err := root.OpenFile(name, os.O_WRONLY|os.O_APPEND|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, cannotBe("written", path(root, name), err)
	}
	p := &Partial{file: file}
	if err := p.line(o.String()); err != nil {
		return nil, errors.Join(err, file.Close(), root.Remove(name)) // lest it pass for a sweep
	}
	p.origin = checksum(0, o.String())
	return p, nil
}

// isPartial tells a file that begins like that of a sweep, or was torn before it had a beginning.
func isPartial(file io.Reader) bool {
	begins := make([]byte, len(originMark))
	n, _ := io.ReadFull(file, begins)
	return strings.HasPrefix(originMark, string(begins[:n]))
}

// OpenPartial takes up the file of a sweep that was cut short. A missing file, and
// one that ended within its first line, is started anew. It refuses a file whose origin
// is another and says in what.
func OpenPartial(root *os.Root, name string, o Origin) (*Partial, error) {
	p, err := readPartial(root, name, o)
	if err != nil {
		return nil, err
	}
	if p == nil {
		return CreatePartial(root, name, o)
	}
	file, err := openPartial(root, name, os.O_WRONLY|os.O_APPEND)
	if err != nil {
		return nil, err
	}
	p.file = file
	// A torn line is ended, so that it takes no other with it.
	if _, err := io.WriteString(file, "\n"); err != nil {
		return nil, errors.Join(cannotBe("written", path(root, name), err), file.Close())
	}
	return p, nil
}

// openPartial opens the file, if it is an ordinary one and no link to one.
func openPartial(root *os.Root, name string, flag int) (*os.File, error) {
	before, err := root.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, err
	case err != nil:
		return nil, cannotBe("opened", path(root, name), err)
	case before.IsDir():
		return nil, fmt.Errorf("%s: cannot be written: this is a folder", path(root, name))
	case !before.Mode().IsRegular():
		return nil, fmt.Errorf("%s: this is a link or a device: move it away, or name another folder", path(root, name))
	}
	file, err := root.OpenFile(name, flag, 0)
	if err != nil {
		return nil, cannotBe("opened", path(root, name), err)
	}
	if now, err := file.Stat(); err != nil || !os.SameFile(before, now) {
		return nil, errors.Join(fmt.Errorf("%s: was changed while it was opened", path(root, name)), file.Close())
	}
	return file, nil
}

// path is the name of a file of the folder in messages.
func path(root *os.Root, name string) string { return filepath.Join(root.Name(), name) }

// readPartial reads what a file holds; nil where there is nothing to keep.
func readPartial(root *os.Root, name string, o Origin) (*Partial, error) {
	file, err := openPartial(root, name, os.O_RDONLY)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	lines := bufio.NewReaderSize(file, longestLine)
	first, more, err := nextLine(lines)
	if err != nil || !more {
		return nil, cannotBe("read", path(root, name), err)
	}
	text, whole := unsealed(0, first)
	if !whole {
		if _, more, err = nextLine(lines); err == nil && more {
			err = fmt.Errorf("%s: damaged: its first line is no origin of a sweep: move it away, or start again with --force", path(root, name))
		}
		return nil, err
	}
	earlier, err := ParseOrigin(text)
	if err != nil {
		return nil, fmt.Errorf("%s: damaged: %w; start again with --force", path(root, name), err)
	}
	if why := o.Differs(earlier); why != "" {
		return nil, fmt.Errorf("%s: cannot be continued: %s", path(root, name), why)
	}
	p := &Partial{Known: map[int]Row{}, origin: checksum(0, text)}
	for {
		line, more, err := nextLine(lines)
		if err != nil || !more {
			return p, cannotBe("read", path(root, name), err)
		}
		if line != "" && !p.take(line, o.Rows) {
			p.Damaged++
		}
	}
}

// take keeps the row of a line; it tells whether there was one, of a grid of so many.
func (p *Partial) take(line string, rows int) bool {
	text, whole := unsealed(p.origin, line)
	if !whole {
		return false
	}
	index, row, ok := parseRecord(text, rows)
	if ok {
		p.Known[index] = row
	}
	return ok
}

// nextLine reads a line without its end. Of one that is too long to be a record only the beginning is kept.
func nextLine(lines *bufio.Reader) (line string, more bool, err error) {
	text, err := lines.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		line = string(text[:tooLong])
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = lines.ReadSlice('\n')
		}
		text = []byte(line)
	} else if errors.Is(err, io.EOF) && len(text) == 0 {
		return "", false, nil
	}
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return strings.TrimSuffix(string(text), "\n"), err == nil, err
}

// longestLine is more than a record ever takes, and tooLong what is kept of a line that is longer [bytes].
const longestLine, tooLong = 1 << 20, 40

// Add writes one finished row to the file, in one piece.
func (p *Partial) Add(index int, row Row) error { return p.line(record(index, row)) }

func (p *Partial) line(text string) error {
	_, err := io.WriteString(p.file, sealed(p.origin, text))
	return cannotBe("written", p.file.Name(), err)
}

// Close ends the writing; the file stays.
func (p *Partial) Close() error {
	return cannotBe("written", p.file.Name(), errors.Join(p.file.Sync(), p.file.Close()))
}

// cannotBe names the file in an error, without the path that the error repeats; nil for none.
func cannotBe(done, path string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: cannot be %s: %w", path, done, cmp.Or(errors.Unwrap(err), err))
}
