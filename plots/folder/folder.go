package folder

import (
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/gofrs/flock"
)

// Folder is a folder that this process alone writes to until it is closed.
type Folder struct {
	path   string
	fresh  bool // made by Open
	root   *os.Root
	lock   *flock.Flock // nil where the system has none
	marker marker

	step func(what string) error // before each step on the disk; nil but in tests
}

// lockFile is there while the folder is open.
const lockFile = Marker + ".lock"

// Open takes a folder, which is made if there is none, and ends what a run that was killed has left half done
// there. The error tells that it cannot be written to, that another process has it, or that its
// marker is none.
func Open(path string) (*Folder, error) {
	info, err := os.Stat(path)
	if err == nil && !info.IsDir() {
		return nil, fmt.Errorf("%s: this is a file; the name of a folder is needed", path)
	}
	f := &Folder{path: path, fresh: err != nil}
	if err := os.MkdirAll(path, 0o755); err != nil {
		return nil, Unwritable(path, err)
	}
	if f.root, err = os.OpenRoot(path); err != nil {
		return nil, Unwritable(path, err)
	}
	err = f.take()
	if err == nil {
		if err = f.readMarker(); err == nil {
			err = f.recover()
		}
		if err == nil {
			return f, nil
		}
	}
	return nil, errors.Join(err, f.Close())
}

// Root is for files that are no part of a set, such as those of work under way.
func (f *Folder) Root() *os.Root { return f.root }

// Close lets go of the folder, and takes it away if it was made for nothing.
func (f *Folder) Close() error {
	f.letGo()
	err := f.root.Close()
	if f.fresh {
		_ = os.Remove(f.path) // stays if there is anything in it
	}
	return err
}

// take locks the folder. The lock is on a file of its own, which is removed at the end: whoever has locked it
// makes sure that it is still the one of that name.
func (f *Folder) take() error {
	busy := fmt.Errorf("%s: another strandry is writing to it: wait for its end, or name another folder", f.path)
	for range 100 {
		info, err := f.root.Lstat(lockFile)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			file, err := f.root.OpenFile(lockFile, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o644)
			if errors.Is(err, fs.ErrExist) {
				continue
			}
			if err != nil {
				return Unwritable(f.path, err)
			}
			_ = file.Close() // nothing was written
		case err != nil:
			return Unwritable(f.path, err)
		case !info.Mode().IsRegular():
			return fmt.Errorf("%s: %w", f.name(lockFile), errNotOrdinary)
		}
		lock := flock.New(f.name(lockFile), flock.SetFlag(os.O_RDWR))
		locked, err := lock.TryLock()
		var unopened *fs.PathError
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue // its owner has just gone
		case errors.As(err, &unopened):
			return Unwritable(f.path, err)
		case err != nil:
			return nil // a file system without locks
		case !locked:
			return busy
		}
		if f.isLock(lock) {
			f.lock = lock
			return nil
		}
		_ = lock.Close()
	}
	return busy
}

// isLock tells whether what was locked is what the folder has under that name.
func (f *Folder) isLock(lock *flock.Flock) bool {
	here, err := f.root.Lstat(lockFile)
	locked, lockErr := lock.Stat()
	return err == nil && lockErr == nil && os.SameFile(here, locked)
}

// letGo removes the lock's file while it is locked still; one that is not empty is somebody's.
func (f *Folder) letGo() {
	info, err := f.root.Lstat(lockFile)
	empty := err == nil && info.Mode().IsRegular() && info.Size() == 0
	if f.lock == nil {
		return
	}
	if empty {
		err = f.root.Remove(lockFile)
	}
	_ = f.lock.Close()
	if empty && err != nil && runtime.GOOS == "windows" { // which removes no open file
		_ = f.root.Remove(lockFile)
	}
	f.lock = nil
}

// name is that of a file of the folder in messages.
func (f *Folder) name(file string) string { return filepath.Join(f.path, filepath.FromSlash(file)) }

// errNotOrdinary is what becomes of links, pipes and devices, which are never opened.
var errNotOrdinary = errors.New("this is a link or a device: move it away, or name another folder")

// ordinary is what is under a name, if it is an ordinary file in no linked folder.
func (f *Folder) ordinary(name string) (fs.FileInfo, error) {
	parts := strings.Split(name, "/")
	for i := 1; i < len(parts); i++ {
		info, err := f.root.Lstat(strings.Join(parts[:i], "/"))
		if err != nil {
			return nil, err
		}
		if !info.IsDir() {
			return nil, fmt.Errorf("%s: this is no folder: move it away, or name another folder", f.name(strings.Join(parts[:i], "/")))
		}
	}
	info, err := f.root.Lstat(name)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, errors.New("cannot be written: this is a folder")
	case !info.Mode().IsRegular():
		return nil, errNotOrdinary
	}
	return info, nil
}

// stagingPrefix begins the names of the folders in which sets are staged.
const stagingPrefix = Marker + "-"

func newStaging() string { return fmt.Sprintf("%s%016x", stagingPrefix, rand.Uint64()) }

func isStaging(name string) bool {
	digits, ok := strings.CutPrefix(name, stagingPrefix)
	_, err := hex.DecodeString(digits)
	return ok && err == nil && len(digits) == 16
}

// Unwritable is the error of a file that cannot be written; it names the file once.
func Unwritable(path string, err error) error {
	return fmt.Errorf("%s: cannot be written: %w", path, reason(err))
}

// reason is the error without the path that it repeats.
func reason(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
