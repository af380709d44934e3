package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/folder"
	"strandry/scenarios"
)

// The page, the JSON and the figure of one study agree, and the odds are those of a run.
func TestDoubt(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "figures")
	demo, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	file := scenarioFile(t, strings.NewReplacer( // with fewer unknowns, so that it is found soon
		"[feed]", "[strand.properties]\ndiffusivity = { beta = 0, scatter = 1 }\nsorption = { mixing_enthalpy = \"5 kJ/mol\" }\n[feed]",
		"temperature = \"115 °C\"\n", "temperature = \"115 °C\"\nh = \"20 W/m2/K\"\nk_m = \"0.02 m/s\"\n",
		"length = \"60 mm\"", "h = \"20 W/m2/K\"\nk_m = \"0.02 m/s\"\nlength = \"60 mm\"").Replace(string(demo)))
	text := mustAnswer(t, "doubt", file, "-o", path)
	d := decoded(t, "doubt", file, "--json")
	for _, part := range []string{"What to measure, in this order\n 1. ", "Cautions", "nine times in ten", at(t, d, "measure", 0, "name").(string)} {
		require.Contains(t, text, part)
	}
	require.Contains(t, strings.Join(strings.Fields(text), " "), at(t, d, "conclusion"))
	for _, line := range strings.Split(text, "\n") {
		require.LessOrEqual(t, len([]rune(line)), max(79, len("Written to : doubt.png, doubt.svg, doubt.pdf")+len(path)), line)
	}
	sum := 0.0
	for _, u := range at(t, d, "unknowns").([]any) {
		first, total := number(t, u, "first_order", "value"), number(t, u, "total", "value")
		require.LessOrEqual(t, 0.0, first)
		require.LessOrEqual(t, first, total)
		require.Less(t, number(t, u, "width_left_if_known"), 1.02)
		sum += first
	}
	require.InDelta(t, 1, sum+number(t, d, "share_by_acting_together"), 0.02)
	run := decoded(t, "run", file, "--json")
	require.Equal(t, number(t, run, "moisture", "probability"), number(t, d, "probability"))
	require.Equal(t, at(t, run, "verdict"), at(t, d, "verdict"))
	require.ElementsMatch(t, []string{folder.Marker, "doubt.pdf", "doubt.png", "doubt.svg"}, names(t, path))
	drawing, err := os.ReadFile(filepath.Join(path, "doubt.svg"))
	require.NoError(t, err)
	require.Contains(t, string(drawing), "The limit makes")
}

func TestDoubtMisused(t *testing.T) {
	for _, c := range []struct {
		status int
		says   string
		args   []string
	}{
		{misused, "-o needs the name of a folder", []string{"doubt", "-o", ""}},
		{misused, "exclude each other", []string{"doubt", "a.toml", "--demo", "lamp-shade"}},
		{misused, "did you mean --force?", []string{"doubt", "--forse"}},
		{failed, "missing.toml", []string{"doubt", "missing.toml"}},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, c.status, status, c.args)
		require.Empty(t, out)
		require.Contains(t, errOut, c.says)
	}
}
