//go:build linux || darwin || freebsd || netbsd || openbsd

package sweep

import (
	"errors"
	"os"
	"syscall"
)

// lock keeps a file for this process until it is closed. The error is that another one has it; a
// file system without locks is no error.
func lock(file *os.File) error {
	if err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		return err
	}
	return nil
}
