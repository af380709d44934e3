package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// someWeighings writes the file of a run with its table, whose line for a weighing may be another one.
func someWeighings(t *testing.T, change func(weighing int, line string) string) (file string) {
	t.Helper()
	folder := t.TempDir()
	file = filepath.Join(folder, "strand.toml")
	text, _, _ := strings.Cut(aPlan(), "[plan]")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	masses := "time [h],mass [g]\n"
	for i := range 12 {
		line := fmt.Sprintf("%d,%.3f", i*i, 20+0.6*math.Exp(-0.25*float64(i)-0.012*float64(i*i)))
		if change != nil {
			line = change(i, line)
		}
		masses += line + "\n"
	}
	require.NoError(t, os.WriteFile(filepath.Join(folder, "dry-80.csv"), []byte(masses), 0o600))
	return file
}

// What cannot be fitted is told as what it is, and leaves nothing behind.
func TestFitRefuses(t *testing.T) {
	file := someWeighings(t, nil)
	folder := filepath.Dir(file)
	beside := func(name string) string { return filepath.Join(folder, name) }
	scenario := beside("scenario.toml")
	mustAnswer(t, "new", scenario)
	require.NoError(t, os.WriteFile(beside("long.toml"), []byte(strings.Repeat("# long\n", 60_000)), 0o600))
	before := names(t, folder)
	for _, c := range []struct {
		want string
		args []string
	}{
		{"there is no such file", []string{"fit", beside("none.toml")}},
		{"this is a folder; a file is needed", []string{"fit", folder}},
		{"this is a scenario of a strand that runs", []string{"fit", scenario}},
		{"this is a scenario of a strand that runs", []string{"fit", "--plan", scenario}},
		{"these are weighings of a strand at rest", []string{"fit", "--plan", file, "--for", file}},
		{"these are weighings of a strand at rest", []string{"run", file}},
		{"there is no such file", []string{"fit", "--plan", file, "--for", beside("none.toml")}},
		{"not valid TOML", []string{"fit", beside("dry-80.csv")}},
		{"the file is too long; up to 256 KiB is read", []string{"fit", beside("long.toml")}},
		{"exists already; name a new file or remove it first", []string{"fit", file, "-o", scenario}},
		{"cannot be written: no such file or directory", []string{"fit", file, "-o", beside("none/mine.toml")}},
		{"this is a file; the name of a folder is needed", []string{"fit", "--plan", file, "-o", scenario}},
		{"fit needs the name of the one file", []string{"fit"}},
		{"fit needs the name of the one file", []string{"fit", file, file}},
	} {
		status, said, complaint := call(c.args...)
		require.Contains(t, complaint, c.want)
		require.NotEqual(t, answered, status, c.want)
		require.Empty(t, said)
		require.Equal(t, before, names(t, folder))
	}
}

// Tables that hold no masses are refused line by line.
func TestFitRefusesMasses(t *testing.T) {
	for line, want := range map[string]string{
		"9,NaN":    `dry-80.csv:5: mass [g] = "NaN": not a finite number`,
		"9,Inf":    `dry-80.csv:5: mass [g] = "Inf"`,
		"9,-20":    "dry-80.csv:5: mass [g]",
		"9,":       "not weighed yet",
		"9,10.001": "the masses of one strand",
	} {
		file := someWeighings(t, func(weighing int, sound string) string {
			if weighing == 3 {
				return line
			}
			return sound
		})
		status, said, complaint := call("fit", file)
		require.Equal(t, failed, status, line)
		require.Empty(t, said)
		require.Contains(t, complaint, want)
	}
	file := someWeighings(t, nil)
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "dry-80.csv"), make([]byte, 5<<20), 0o600))
	_, _, complaint := call("fit", file)
	require.Contains(t, complaint, "the file is too long; up to 4096 KiB is read")
}

// Nothing is written from weighings that do not tell: the answer is shown, and the material that was asked for is said to be missing.
func TestFitNotTold(t *testing.T) {
	file := someWeighings(t, func(weighing int, _ string) string {
		return fmt.Sprintf("%d,%.3f", weighing, 20+0.001*float64(weighing%2))
	})
	mine := filepath.Join(filepath.Dir(file), "mine.toml")
	status, said, complaint := call("fit", file, "-o", mine)
	require.Equal(t, failed, status)
	require.Contains(t, oneLine(said), "these weighings cannot tell it: see what stands out")
	require.Contains(t, complaint, "mine.toml is not written: these weighings do not tell the diffusivity")
	require.Contains(t, oneLine(mustAnswer(t, "fit", file)), "these weighings cannot tell it: see what stands out")
	require.NoFileExists(t, mine)
}
