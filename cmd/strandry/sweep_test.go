package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// small is a grid of few rows that do not take long.
func small(folder string, more ...string) []string {
	return append([]string{"sweep", "--demo", "clear-cover", "-o", folder, "--vary", "zone.guide.length=0.2 m..20 m:4:log", "--vary", "feed.speed=1 mm/s, 2 mm/s"}, more...)
}

func content(t *testing.T, path ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(path...))
	require.NoError(t, err)
	return string(text)
}

// names lists what a folder holds, hidden files too.
func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var all []string
	for _, entry := range entries {
		all = append(all, entry.Name())
	}
	return all
}

func TestSweepLeavesATableWithUnits(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "new", "drum")
	text := mustAnswer(t, small(folder)...)
	for _, part := range []string{"zone.guide.length: 0.2 m to 20 m, 4 values", "Rows: 8", "Driest", "Numerical", folder} {
		require.Contains(t, strings.Join(strings.Fields(text), " "), part)
	}
	require.Subset(t, names(t, folder), []string{"map.png", "map.svg", "scenario.toml", "sweep.csv", "sweep.json"})
	require.NotContains(t, names(t, folder), partialFile)
	for _, name := range names(t, folder) {
		require.False(t, strings.HasPrefix(name, ".") && name != ".strandry", name)
	}
	rows, err := csv.NewReader(strings.NewReader(content(t, folder, "sweep.csv"))).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"zone.guide.length [m]", "feed.speed [mm/s]", "mean [%]", "centre [%]", "skin [%]", "low [%]", "high [%]",
		"probability", "limit [%]", "removed [%]", "verdict", "survives", "resolution", "tolerance", "heat", "no answer because"}, rows[0])
	require.Len(t, rows, 9)
	require.Equal(t, []string{"0.2", "1"}, rows[1][:2])
	require.Equal(t, []string{"0.2", "2"}, rows[2][:2], "the last axis is the fastest")
	require.Equal(t, "20", rows[8][0])
	finiteText(t, content(t, folder, "sweep.csv"))
	agree(t, rows, content(t, folder, "sweep.json"))

	// Two axes by --vary are told in the scenario that lies beside the table.
	demo, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(content(t, folder, "scenario.toml"), string(demo)))
	require.Contains(t, content(t, folder, "scenario.toml"), `# swept with --vary "feed.speed=1 mm/s, 2 mm/s"`)
}

// agree requires the JSON to say in SI what the table says.
func agree(t *testing.T, rows [][]string, text string) {
	t.Helper()
	var d any
	require.NoError(t, json.Unmarshal([]byte(text), &d))
	require.Equal(t, version, at(t, d, "version"))
	require.InDelta(t, 2e-3, number(t, d, "axes", 1, "values", 1), 1e-12)
	require.Len(t, at(t, d, "rows"), len(rows)-1)
	for i, row := range rows[1:] {
		for name, column := range map[string]int{"mean": 2, "centre": 3, "skin": 4, "low": 5, "high": 6, "limit": 8, "removed": 9} {
			x, err := strconv.ParseFloat(row[column], 64)
			require.NoError(t, err)
			require.InEpsilon(t, number(t, d, "rows", i, name), x/100, 1e-14)
		}
		require.Equal(t, row[10], at(t, d, "rows", i, "verdict"))
		require.Equal(t, row[7], strconv.FormatFloat(number(t, d, "rows", i, "probability"), 'g', -1, 64))
		require.Equal(t, []any{float64(i / 2), float64(i % 2)}, at(t, d, "rows", i, "at"))
	}
	require.Greater(t, number(t, d, "relative_error"), 0.0)
}

// A row answers what run answers for the scenario with its values, at the same numerics.
func TestSweepAgreesWithRun(t *testing.T) {
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	fine := string(text) + "\n[numerics]\nresolution = 6\n"
	folder := t.TempDir()
	mustAnswer(t, "sweep", "-o", folder, scenarioFile(t, fine))
	var d any
	require.NoError(t, json.Unmarshal([]byte(content(t, folder, "sweep.json")), &d))
	hot := strings.Replace(fine, `temperature = "115 °C"`, `temperature = "120 °C"`, 1)
	require.NotEqual(t, fine, hot)
	one := decoded(t, "run", "--json", scenarioFile(t, hot))
	for _, name := range []string{"mean", "centre", "skin", "limit", "removed"} {
		require.Equal(t, number(t, one, "moisture", name), number(t, d, "rows", 8, name), name)
	}
	require.Equal(t, at(t, one, "verdict"), at(t, d, "rows", 8, "verdict"))
}

func TestSweepIsTheSameOnAnyNumberOfCores(t *testing.T) {
	t.Parallel()
	var tables []string
	for _, cores := range samples.Each(2, []string{"1", "2", "5"}) {
		folder := t.TempDir()
		mustAnswer(t, small(folder, "--cores", cores)...)
		tables = append(tables, content(t, folder, "sweep.csv")+content(t, folder, "sweep.json"))
	}
	for _, other := range tables[1:] {
		require.Equal(t, tables[0], other)
	}
}

func TestQuickSweep(t *testing.T) {
	folder := t.TempDir()
	require.Contains(t, mustAnswer(t, small(folder, "--quick")...), "within the limit at the central diffusivity")
	head, _, _ := strings.Cut(content(t, folder, "sweep.csv"), "\n")
	require.Equal(t, "zone.guide.length [m],feed.speed [mm/s],mean [%],centre [%],skin [%],limit [%],removed [%],survives,resolution,tolerance,heat,no answer because", head)
	require.NotContains(t, content(t, folder, "sweep.json"), `"high"`)
}

// What lies in the folder is neither lost by mistake nor mixed with what it does not belong to.
func TestSweepAndWhatIsThere(t *testing.T) {
	if testing.Short() {
		t.Skip("slow, and its code is run by others")
	}
	folder := t.TempDir()
	mustAnswer(t, small(folder)...)
	first := content(t, folder, "sweep.csv")
	refused := func(says string, args ...string) {
		t.Helper()
		status, out, errOut := call(args...)
		require.Equal(t, failed, status)
		require.Empty(t, out)
		require.Contains(t, errOut, says)
		require.Equal(t, first, content(t, folder, "sweep.csv"))
	}
	refused("holds a finished sweep: --force replaces it", small(folder)...)
	refused("it was a full sweep, this is a quick one", small(folder, "--continue", "--quick")...)
	refused("the text of the scenario is another", "sweep", "-o", folder, "--continue", "--demo", "lamp-shade")
	refused("the axes are others", "sweep", "-o", folder, "--continue", "--demo", "clear-cover")
	require.Contains(t, mustAnswer(t, small(folder, "--continue")...), "nothing to do")

	table := filepath.Join(folder, tableFile)
	require.NoError(t, os.WriteFile(table, []byte(first[:len(first)-40]), 0o600))
	status, _, errOut := call(small(folder, "--continue")...)
	require.Equal(t, failed, status)
	require.Contains(t, errOut, "sweep.csv was changed since it was written: --force makes it anew")
	require.NoError(t, os.WriteFile(table, []byte(first), 0o600))

	partial := filepath.Join(folder, partialFile)
	require.NoError(t, os.WriteFile(partial, nil, 0o600))
	refused("holds an unfinished sweep: --continue goes on with it", small(folder)...)
	mustAnswer(t, small(folder, "--continue")...)
	require.Equal(t, first, content(t, folder, "sweep.csv"))
	require.NoFileExists(t, partial)

	require.NoError(t, os.Remove(filepath.Join(folder, "sweep.json")))
	refused("sweep.json", small(folder, "--continue")...)
	mustAnswer(t, small(folder, "--force", "--quick")...)
	require.NotEqual(t, first, content(t, folder, "sweep.csv"))

	// Figures of the sweep that is replaced go with it; what is no figure of it stays.
	require.FileExists(t, filepath.Join(folder, "map.svg"))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "mine.png"), nil, 0o600))
	mustAnswer(t, "sweep", "-o", folder, "--force", "--quick", "--demo", "clear-cover", "--vary", "feed.speed=1 mm/s, 2 mm/s")
	require.Equal(t, []string{".strandry", "line.png", "line.svg", "mine.png", "scenario.toml", "sweep.csv", "sweep.json"}, names(t, folder))
}

func TestSweepFailures(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "file")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	text, err := scenarios.DemoText("winch-drum")
	require.NoError(t, err)
	bare, _, _ := strings.Cut(string(text), "[[vary]]")
	for _, c := range []struct {
		says string
		args []string
	}{
		{"this is a file; the name of a folder is needed", small(file)},
		{"cannot be written", small(filepath.Join(file, "inside"))},
		{"no axis to sweep. Add one, such as\n\n[[vary]]", []string{"sweep", scenarioFile(t, bare), "-o", folder}},
		{"up to 1000000 can be swept", []string{"sweep", "-o", folder, "--vary", "feed.speed=1 mm/s..2 mm/s:2000", "--vary", "zone.drum.length=1 m..2 m:2000"}},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, failed, status, c.args)
		require.Empty(t, out)
		require.Contains(t, errOut, c.says)
	}
	require.Equal(t, "mine", content(t, file))
	require.Equal(t, []string{"file"}, names(t, folder))
	for says, args := range map[string][]string{
		`did you mean "zone.drum.length"?`:    {"sweep", "-o", folder, "--vary", "zone.drum.lenght=1 m..2 m:3"},
		"-o DIR":                              {"sweep"},
		"--continue and --force exclude each": small(folder, "--continue", "--force"),
		"--cores":                             small(folder, "--cores", "-1"),
		"exclude each other":                  {"sweep", file, "--demo", "lamp-shade", "-o", folder},
		"did you mean --continue":             small(folder, "--contineu"),
	} {
		status, _, errOut := call(args...)
		require.Equal(t, misused, status)
		require.Contains(t, errOut, says)
	}
}

// A folder that may not be written to, or where a folder is in the way of a file.
func TestSweepWhoseFileIsAFolder(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(folder, partialFile), 0o700))
	status, _, errOut := call(small(folder, "--force")...)
	require.Equal(t, failed, status)
	require.Contains(t, errOut, partialFile+": cannot be written")
}

// A file of the user's that a sweep would replace is left alone, the scenario above all.
func TestSweepLeavesStrangersAlone(t *testing.T) {
	folder := t.TempDir()
	text, err := scenarios.DemoText("lamp-shade")
	require.NoError(t, err)
	for _, name := range []string{inputFile, dataFile} {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, text, 0o600))
		status, _, errOut := call(small(folder)...)
		require.Equal(t, failed, status)
		require.Contains(t, errOut, name+" exists already, and strandry did not write it: move it away, or name another folder")
		require.Equal(t, string(text), content(t, folder, name))
		require.NoError(t, os.Remove(path))
	}
}

// An interrupt is heard within a second, says how to go on, and going on ends in the
// same bytes.
func TestSweepInterruptedAndContinued(t *testing.T) {
	grid := []string{"--demo", "clear-cover", "--vary", fmt.Sprintf("zone.oven.temperature=60 °C..90 °C:%d", samples.Of(6, 20, 20)), "--vary", "strand.material=pc,pmma"}
	whole, cut := t.TempDir(), t.TempDir()
	mustAnswer(t, append([]string{"sweep", "-o", whole}, grid...)...)
	args := append([]string{"sweep", "-o", cut, "--continue", "--cores", "1"}, grid...)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	time.AfterFunc(60*time.Millisecond, cancel)
	began := time.Now()
	var out, errOut strings.Builder
	status := run(ctx, args, &out, &errOut)
	require.Less(t, time.Since(began), 1060*time.Millisecond)
	if status == failed { // else it was done before
		require.Contains(t, errOut.String(), "interrupted")
		require.Contains(t, errOut.String(), "--continue")
		require.True(t, slices.Contains(names(t, cut), partialFile))
		mustAnswer(t, args...)
	}
	for _, file := range []string{tableFile, dataFile} {
		require.Equal(t, content(t, whole, file), content(t, cut, file))
	}
	require.NotContains(t, names(t, cut), partialFile)
}
