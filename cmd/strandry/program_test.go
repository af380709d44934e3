package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// program is where the tests build the program, once for all.
type program struct {
	once   sync.Once
	folder string
	err    error
}

// theProgram is built for the first test that asks for it.
var theProgram program

// TestMain takes the program away at the end.
func TestMain(m *testing.M) {
	status := m.Run()
	if theProgram.folder != "" {
		_ = os.RemoveAll(theProgram.folder)
	}
	os.Exit(status)
}

func (p *program) build() {
	if p.folder, p.err = os.MkdirTemp("", "strandry"); p.err != nil {
		return
	}
	if p.err = os.Chmod(p.folder, 0o755); p.err != nil { // anybody may run it
		return
	}
	if said, err := exec.Command("go", "build", "-o", p.file(), ".").CombinedOutput(); err != nil {
		p.err = fmt.Errorf("%w: %s", err, said)
	}
}

// file has an ending, which means something on Windows only.
func (p *program) file() string { return filepath.Join(p.folder, "strandry.exe") }

// built is the program, made anew for this run of the tests.
func built(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("builds the program")
	}
	theProgram.once.Do(theProgram.build)
	require.NoError(t, theProgram.err)
	return theProgram.file()
}
