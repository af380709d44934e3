package main

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Masses that were weighed at the machine, as a person and as a program see them; what was made up is marked as invented.
func TestChecksOfAScenario(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "checks", "petg-oven.toml")
	require.Contains(t, mustAnswer(t, "run", file), "\nChecked: 3 of 5 measurements agree, 1 cannot tell, 1 does not; see run --full.\n")
	full := mustAnswer(t, "run", file, "--full")
	for _, said := range []string{"(invented)", "\nChecked on the machine\n", "out of the oven, cooler, after oven, fed at 1.5 mm/s\n", "is wetter than predicted", "these masses cannot tell"} {
		require.Contains(t, strings.Join(strings.Fields(full), " "), strings.TrimSpace(said))
	}

	d := decoded(t, "run", file, "--json")
	require.Len(t, at(t, d, "checks"), 3)
	require.Equal(t, "agrees", at(t, d, "checks", 0, "comparisons", 1, "outcome"))
	require.Equal(t, "wetter", at(t, d, "checks", 1, "comparisons", 0, "outcome"))
	require.Equal(t, "cannot tell", at(t, d, "checks", 2, "comparisons", 0, "outcome"))
	// SI: kg, m/s, and contents as fractions.
	si := func(want float64, path ...any) {
		t.Helper()
		got := number(t, d, append([]any{"checks"}, path...)...)
		require.LessOrEqual(t, math.Abs(got-want), 1e-5*math.Abs(want), "%v: %g", path, got)
	}
	si(1e-7, 0, "resolution")
	si(1.5e-3, 1, "speed")
	si(27.0/30001, 0, "comparisons", 1, "measured", "value")
	si(33.0/30061, 0, "comparisons", 2, "measured", "value")
	// What is predicted at the nozzle is the answer of the run.
	si(number(t, d, "moisture", "mean"), 0, "comparisons", 1, "predicted", "value")
	si(number(t, d, "moisture", "low"), 0, "comparisons", 1, "predicted", "low")
	si(number(t, d, "moisture", "high"), 0, "comparisons", 1, "predicted", "high")

	// A change that is tried is checked too, and a scenario without checks has none.
	hotter := decoded(t, "run", file, "--json", "--set", "zone.oven.length=2 m")
	require.Greater(t, number(t, hotter, "checks", 0, "comparisons", 1, "predicted", "value"), 1.2*number(t, d, "checks", 0, "comparisons", 1, "predicted", "value"))
	require.Empty(t, at(t, decoded(t, "run", "--demo", "clear-cover", "--json"), "checks"))
	require.NotContains(t, mustAnswer(t, "run", "--demo", "clear-cover", "--full"), "Checked")
	status, _, errOut := call("run", scenarioFile(t, quick+"[[check]]\nafter = \"12.4 g\"\n"))
	require.NotEqual(t, answered, status)
	require.Contains(t, errOut, "two or three of before, after, dried")
}
