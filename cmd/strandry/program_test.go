package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// asProgram tells what the tests start that it is the program.
const asProgram = "STRANDRY_TESTED"

// program is where the tests have the program, once for all.
type program struct {
	once   sync.Once
	folder string
	err    error
}

// theProgram is made for the first test that asks for it.
var theProgram program

// TestMain is the program for what the tests start: they need not build it. At the end it takes its copy away.
func TestMain(m *testing.M) {
	if tests := len(os.Args) > 1 && strings.HasPrefix(os.Args[1], "-test."); os.Getenv(asProgram) != "" && !tests {
		main()
	}
	if err := os.Setenv(asProgram, "1"); err != nil {
		panic(err)
	}
	status := samples.Run(m)
	if theProgram.folder != "" {
		_ = os.RemoveAll(theProgram.folder)
	}
	os.Exit(status)
}

// make copies the tests to where anybody may run them.
func (p *program) make() {
	if p.folder, p.err = os.MkdirTemp("", "strandry"); p.err != nil {
		return
	}
	own, err := os.Executable()
	if err != nil {
		p.err = err
		return
	}
	p.err = errors.Join(os.Chmod(p.folder, 0o755), copyFile(own, p.file()))
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o755)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// file has an ending, which means something on Windows only.
func (p *program) file() string { return filepath.Join(p.folder, "strandry.exe") }

// built is the program as a file of its own.
func built(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("starts the program")
	}
	theProgram.once.Do(theProgram.make)
	require.NoError(t, theProgram.err)
	return theProgram.file()
}
