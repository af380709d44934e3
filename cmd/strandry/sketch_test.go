package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sketchOf is a small grid that is sketched.
func sketchOf(folder string, more ...string) []string {
	return append([]string{"sweep", "--sketch", "--demo", "clear-cover", "-o", folder, "--vary", "zone.oven.length=0.5 m..20 m:8:log", "--vary", "feed.speed=1 mm/s..3 mm/s:5"}, more...)
}

// A sketch says that it is one, and how far it is off, on screen, in each row, in JSON and on its map.
func TestSketchSaysSo(t *testing.T) {
	folder := t.TempDir()
	said := strings.Join(strings.Fields(mustAnswer(t, sketchOf(folder)...)), " ")
	for _, part := range []string{"Sketched: these numbers rest on ", "not on a march for each row. They are off by about", "as leaving out each march in turn tells", "rows that were marched besides, by",
		"or the error of the sketch leaves it open", "Without --sketch each row is marched"} {
		require.Contains(t, said, part)
	}
	require.NotContains(t, said, "Numerical error")
	require.NotContains(t, names(t, folder), partialFile)
	rows, err := csv.NewReader(strings.NewReader(content(t, folder, "sweep.csv"))).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"zone.oven.length [m]", "feed.speed [mm/s]", "mean [%]", "low [%]", "high [%]", "probability", "limit [%]", "verdict", "survives",
		"resolution", "tolerance", "heat", "sketched by marches", "off by about [%]", "no answer because"}, rows[0])
	require.Len(t, rows, 41)
	var d any
	require.NoError(t, json.Unmarshal([]byte(content(t, folder, "sweep.json")), &d))
	marches, off := number(t, d, "sketched", "marches"), max(number(t, d, "sketched", "error"), number(t, d, "sketched", "error_checked"))
	require.Greater(t, marches, 30.0)
	require.Positive(t, off)
	for _, row := range rows[1:] {
		require.Equal(t, []string{number64(marches), number64(100 * off)}, row[12:14])
	}
	require.Contains(t, at(t, d, "origin"), "mode=sketched")
	require.Len(t, at(t, d, "rows"), 40)
	require.Positive(t, number(t, d, "rows", 0, "probability"))
	require.NotContains(t, content(t, folder, "sweep.json"), `"skin"`)
	require.NotContains(t, content(t, folder, "sweep.json"), `"relative_error"`)
	require.Contains(t, content(t, folder, "map.svg"), "sketched by")
	require.Contains(t, content(t, folder, "map.svg"), "9 in 10 dry")
	finiteText(t, content(t, folder, "sweep.csv"))
}

func number64(x float64) string {
	text, _ := json.Marshal(x)
	return string(text)
}

// What a sketch may not be asked with is refused, and what it cannot go over is told with what to do; nothing is left behind.
func TestSketchRefuses(t *testing.T) {
	folder := t.TempDir()
	for says, more := range map[string][]string{
		"--sketch and --quick exclude each other":    {"--quick"},
		"--sketch and --continue exclude each other": {"--continue"},
		"--sketch and --cores exclude each other":    {"--cores", "1"},
	} {
		status, _, errOut := call(sketchOf(folder, more...)...)
		require.Equal(t, misused, status)
		require.Contains(t, errOut, says)
	}
	for says, axis := range map[string]string{
		"strand.material: a sketch goes over numbers, not over names": "strand.material=pc, petg",
		"it changes the material. Without --sketch each row is":       "strand.properties.diffusivity.beta=1, 4",
	} {
		status, out, errOut := call("sweep", "--sketch", "--demo", "clear-cover", "-o", folder, "--vary", axis)
		require.Equal(t, failed, status)
		require.Empty(t, out)
		require.Contains(t, errOut, says)
	}
	require.Empty(t, names(t, folder))
}

// A sketch and a sweep do not pass for one another, and a file that is none of a sweep stays.
func TestSketchAndWhatIsThere(t *testing.T) {
	folder := t.TempDir()
	mustAnswer(t, sketchOf(folder)...)
	first := content(t, folder, "sweep.csv")
	full := func(more ...string) []string {
		var all []string
		for _, arg := range sketchOf(folder, more...) {
			if arg != "--sketch" {
				all = append(all, arg)
			}
		}
		return all
	}
	for says, args := range map[string][]string{
		"holds a finished sweep: --force replaces it":  sketchOf(folder),
		"it was a sketched sweep, this is a full one":  full("--continue"),
		"it was a sketched sweep, this is a quick one": full("--continue", "--quick"),
	} {
		status, _, errOut := call(args...)
		require.Equal(t, failed, status)
		require.Contains(t, errOut, says)
		require.Equal(t, first, content(t, folder, "sweep.csv"))
	}
	mustAnswer(t, sketchOf(folder, "--force")...)
	require.Equal(t, first, content(t, folder, "sweep.csv"), "the same to the bit")

	other := t.TempDir()
	mine := filepath.Join(other, partialFile)
	require.NoError(t, os.WriteFile(mine, []byte("mine"), 0o600))
	status, _, _ := call(sketchOf(other, "--force")...)
	require.Equal(t, failed, status)
	require.Equal(t, "mine", content(t, mine))
}
