//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestClosedPipe: where nobody reads any more the signal SIGPIPE ends a program, which shells call 128 + 13 = 141 (POSIX.1,
// "Exit Status for Commands" and write()). Nothing is said about it, and what was to be written is there.
func TestClosedPipe(t *testing.T) {
	program := built(t)
	folder := filepath.Join(t.TempDir(), "plots")
	file := scenarioFile(t, quick)
	for _, args := range [][]string{
		{"run", file}, {"run", file, "--json"}, {"materials"}, {"--help"}, {"--version"},
		{"sweep", file, "-o", folder, "--vary", "feed.speed=1 mm/s, 2 mm/s"},
	} {
		reader, writer, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, reader.Close())
		var errOut strings.Builder
		c := exec.Command(program, args...)
		c.Stdout, c.Stderr = writer, &errOut
		require.Error(t, c.Run(), args)
		require.NoError(t, writer.Close())
		status, ok := c.ProcessState.Sys().(syscall.WaitStatus)
		require.True(t, ok)
		require.True(t, status.Signaled(), "%v: %v %s", args, c.ProcessState, errOut.String())
		require.Equal(t, syscall.SIGPIPE, status.Signal(), args)
		require.Empty(t, errOut.String(), args)
	}
	require.Subset(t, names(t, folder), []string{tableFile, dataFile, inputFile, "line.png"})
	require.NotContains(t, names(t, folder), partialFile)
	requireListed(t, folder, 4)

	if _, err := exec.LookPath("bash"); err != nil {
		t.Skip("no shell that tells the status of each part of a pipe")
	}
	said, err := exec.Command("bash", "-c", `"$0" run "$1" | head -1; echo "${PIPESTATUS[@]}"`, program, file).CombinedOutput()
	require.NoError(t, err, string(said))
	require.Regexp(t, `^[A-Z]+: within the limit .*\n(0|141) 0\n$`, string(said), "all of it, or one line")
}
