package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/plots/folder"
)

// TestSweepKilled kills a sweep at random moments, goes on with it, and requires the
// bytes of one that was left alone. At no moment is there a part of a finished file.
// Half of the kills fall about its end, where the files get their names. What else lies in the folder stays as it is.
func TestSweepKilled(t *testing.T) {
	kills := samples.Of(2, 8, 80)
	program := built(t)
	sweep := func(folder string) *exec.Cmd {
		return exec.Command(program, "sweep", "--quick", "--demo", "clear-cover", "-o", folder, "--continue",
			"--vary", "zone.oven.length=0.5 m..50 m:12:log", "--vary", "feed.speed=1 mm/s..4 mm/s:12")
	}
	quiet := t.TempDir()
	mine := func(folder string) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, "mine.csv"), []byte("mine"), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(folder, "mine.png"), []byte("mine"), 0o600))
	}
	mine(quiet)
	began := time.Now()
	said, err := sweep(quiet).CombinedOutput()
	require.NoError(t, err, string(said))
	took := time.Since(began)
	whole := tree(t, quiet)

	dice := attackDice(t, 5, 0)
	killed := 0
	folder := ""
	for round := range kills {
		if round%4 == 0 {
			folder = t.TempDir()
			mine(folder)
		}
		c := sweep(folder)
		require.NoError(t, c.Start())
		at := dice.Float64()
		if round%2 == 1 {
			at = 0.85 + 0.2*at
		}
		time.Sleep(time.Duration(at * float64(took)))
		require.NoError(t, c.Process.Kill())
		if c.Wait() != nil {
			killed++
		}
		requireOldOrNew(t, folder, whole)
		if round%4 != 3 && round != kills-1 {
			continue
		}
		said, err := sweep(folder).CombinedOutput()
		require.NoError(t, err, string(said))
		sameTree(t, whole, tree(t, folder), "killed before")
	}
	require.Positive(t, killed)
}

// requireOldOrNew requires of a folder that each file of the finished sweep is whole or not there, that no set is listed without all
// of its files unless it is said to be under way, and that what is not of the sweep is untouched.
func requireOldOrNew(t *testing.T, path string, whole map[string]string) {
	t.Helper()
	now := tree(t, path)
	for name, text := range whole {
		if got, there := now[name]; there && name != "/"+folder.Marker {
			require.True(t, got == text, "%s is torn", name)
		}
	}
	list, listed := now["/"+folder.Marker]
	if listed && !strings.Contains(list, "# set under way") {
		requireListed(t, path, 4)
	}
	for _, name := range []string{"/mine.csv", "/mine.png"} {
		require.Equal(t, "mine", now[name])
	}
}

// TestPlotKilled kills the plots of two scenarios in one folder at random moments, most of them about the end:
// what is listed there is whole, or said to be under way, and the next run ends it.
func TestPlotKilled(t *testing.T) {
	kills := samples.Of(1, 3, 60)
	program := built(t)
	path := t.TempDir()
	plot := func(file string) *exec.Cmd { return exec.Command(program, "plot", file, "-o", path) }
	files := []string{scenarioFile(t, quick), scenarioFile(t, quick+"[[vary]]\nkey = \"feed.speed\"\nvalues = [\"1 mm/s\", \"2 mm/s\"]\n")}
	began := time.Now()
	said, err := plot(files[0]).CombinedOutput()
	require.NoError(t, err, string(said))
	took := time.Since(began)
	dice := attackDice(t, 6, 0)
	for round := range kills {
		c := plot(files[1-round%2])
		require.NoError(t, c.Start())
		time.Sleep(time.Duration((0.8 + 0.3*dice.Float64()) * float64(took)))
		_ = c.Process.Kill() // it may have ended before
		_ = c.Wait()
		if !strings.Contains(content(t, path, folder.Marker), "# set under way") {
			requireListed(t, path, 10)
		}
		f, err := folder.Open(path)
		require.NoError(t, err)
		require.NoError(t, f.Whole("plot"))
		require.NoError(t, f.Close())
		requireListed(t, path, 10)
	}
}

// requireListed requires the files of a folder to have the sums of its list, and to be more than so many.
func requireListed(t *testing.T, path string, more int) {
	t.Helper()
	count := 0
	for line := range strings.Lines(content(t, path, folder.Marker)) {
		if sum, name, ok := strings.Cut(strings.TrimSpace(line), "  "); ok && !strings.HasPrefix(line, "#") {
			require.Equal(t, sum, fmt.Sprintf("%x", sha256.Sum256([]byte(content(t, path, name)))), name)
			count++
		}
	}
	require.Greater(t, count, more)
}
