package main

import (
	"crypto/sha256"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/plots/folder"
)

// TestSweepKilled kills a sweep at random moments, goes on with it, and requires the
// bytes of one that was left alone. At no moment is there a part of a finished file.
// STRANDRY_KILLS=long does it twenty times.
func TestSweepKilled(t *testing.T) {
	kills := 2
	if os.Getenv("STRANDRY_KILLS") == "long" {
		kills = 20
	}
	program := built(t)
	sweep := func(folder string) *exec.Cmd {
		return exec.Command(program, "sweep", "--demo", "clear-cover", "-o", folder, "--continue",
			"--vary", "zone.oven.length=0.5 m..50 m:12:log", "--vary", "feed.speed=1 mm/s..4 mm/s:12")
	}
	quiet := t.TempDir()
	began := time.Now()
	said, err := sweep(quiet).CombinedOutput()
	require.NoError(t, err, string(said))
	took := time.Since(began)

	dice := rand.New(rand.NewPCG(3, 4))
	killed := 0
	folder := ""
	for round := range kills {
		if round%4 == 0 {
			folder = t.TempDir()
		}
		c := sweep(folder)
		require.NoError(t, c.Start())
		time.Sleep(time.Duration(dice.Float64() * float64(took)))
		require.NoError(t, c.Process.Kill())
		if c.Wait() != nil {
			killed++
		}
		for _, file := range []string{tableFile, dataFile, inputFile} {
			if _, err := os.Stat(filepath.Join(folder, file)); err == nil {
				require.Equal(t, content(t, quiet, file), content(t, folder, file))
			}
		}
		if round%4 != 3 && round != kills-1 {
			continue
		}
		said, err := sweep(folder).CombinedOutput()
		require.NoError(t, err, string(said))
		for _, file := range []string{tableFile, dataFile, inputFile} {
			require.Equal(t, content(t, quiet, file), content(t, folder, file))
		}
		require.Equal(t, names(t, quiet), names(t, folder))
	}
	require.Positive(t, killed)
}

// TestPlotKilled kills the plots of two scenarios in one folder at random moments, most of them about the end:
// what is listed there is whole, or said to be under way, and the next run ends it.
func TestPlotKilled(t *testing.T) {
	kills := 3
	if os.Getenv("STRANDRY_KILLS") == "long" {
		kills = 60
	}
	program := built(t)
	path := t.TempDir()
	plot := func(file string) *exec.Cmd { return exec.Command(program, "plot", file, "-o", path) }
	files := []string{scenarioFile(t, quick), scenarioFile(t, quick+"[[vary]]\nkey = \"feed.speed\"\nvalues = [\"1 mm/s\", \"2 mm/s\"]\n")}
	began := time.Now()
	said, err := plot(files[0]).CombinedOutput()
	require.NoError(t, err, string(said))
	took := time.Since(began)
	dice := rand.New(rand.NewPCG(5, 6))
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
