package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// TestContinuedSweepCounts takes up a sweep of which three rows are kept whole, one was torn and one is of nobody.
func TestContinuedSweepCounts(t *testing.T) {
	folder := t.TempDir()
	file := scenarioFile(t, quick)
	const axis = "feed.speed=1 mm/s..4 mm/s:8"
	s, err := scenarios.Load(file)
	require.NoError(t, err)
	s, err = s.Varied(axis)
	require.NoError(t, err)
	work := sweep.Sweep{Scenario: s, Workers: 1}
	o, err := work.Origin(version)
	require.NoError(t, err)
	root, err := os.OpenRoot(folder)
	require.NoError(t, err)
	part, err := sweep.CreatePartial(root, partialFile, o)
	require.NoError(t, err)
	enough, rows := errors.New("enough"), 0
	work.Done = func(i int, row sweep.Row) error {
		if rows++; rows > 4 {
			return enough
		}
		return part.Add(i, row)
	}
	_, err = work.Run(context.Background())
	require.ErrorIs(t, err, enough)
	require.NoError(t, errors.Join(part.Close(), root.Close()))
	path := filepath.Join(folder, partialFile)
	whole := content(t, path)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(whole, "\n", "\nof nobody\n", 1)[:len(whole)+5]), 0o600))

	said := mustAnswer(t, "sweep", file, "-o", folder, "--continue", "--vary", axis)
	require.Contains(t, unwrapped(said), "Of 8 rows 3 were kept from before, 5 are new; lines of sweep.partial that were damaged and left out: 2. ")
	said = mustAnswer(t, "sweep", file, "-o", filepath.Join(folder, "new"), "--continue", "--vary", axis)
	require.Contains(t, said, "Of 8 rows 0 were kept from before, 8 are new.\n")
	require.Equal(t, content(t, folder, "new", tableFile), content(t, folder, tableFile))
}

// The bar of a sweep that goes on starts where it was left, and comes to its end with the last row.
func TestBarStartsFromWhatIsKept(t *testing.T) {
	bar := barOn(io.Discard, 3, 8, "rows")
	require.EqualValues(t, 3, bar.bar.State().CurrentNum)
	for range 5 {
		bar.step()
	}
	require.EqualValues(t, 8, bar.bar.State().CurrentNum)
	require.True(t, bar.bar.IsFinished())
	bar.end()
	newProgress(io.Discard, 3, 8, "rows").step() // no terminal, no bar
}
