package main

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestSweepKilled kills a sweep at random moments, goes on with it, and requires the
// bytes of one that was left alone. At no moment is there a part of a finished file.
// STRANDRY_KILLS=long does it twenty times.
func TestSweepKilled(t *testing.T) {
	kills := 4
	if os.Getenv("STRANDRY_KILLS") == "long" {
		kills = 20
	}
	program := built(t)
	sweep := func(folder string) *exec.Cmd {
		return exec.Command(program, "sweep", "-o", folder, "--continue",
			"--vary", "zone.drum.length=0.5 m..50 m:12:log", "--vary", "feed.speed=1 mm/s..4 mm/s:12")
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
