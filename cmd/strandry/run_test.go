package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// call carries out a command line and returns what a user would see.
func call(args ...string) (status int, out, errOut string) {
	var o, e strings.Builder
	status = run(context.Background(), args, &o, &e)
	return status, o.String(), e.String()
}

// answered requires success and an empty error output.
func mustAnswer(t *testing.T, args ...string) string {
	t.Helper()
	status, out, errOut := call(args...)
	require.Equal(t, answered, status, errOut)
	require.Empty(t, errOut)
	finiteText(t, out)
	if !slices.Contains(args, "--json") {
		narrow(t, out)
	}
	return out
}

// narrow requires that no line of a text is wider than a terminal of 80 columns, but for the name of a file, which is as long as it is.
func narrow(t *testing.T, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		unbroken := slices.ContainsFunc(strings.Fields(line), func(word string) bool { return len(word) > 30 && strings.Trim(word, "─") != "" })
		if line = strings.TrimSuffix(line, "\n"); !unbroken {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
		}
	}
}

func finiteText(t *testing.T, text string) {
	t.Helper()
	for _, bad := range []string{"NaN", "Inf", "+Inf", "%!", "panic"} {
		require.NotContains(t, text, bad)
	}
}

// decoded runs a command that prints one JSON object.
func decoded(t *testing.T, args ...string) map[string]any {
	t.Helper()
	var d map[string]any
	require.NoError(t, json.Unmarshal([]byte(mustAnswer(t, args...)), &d))
	return d
}

// at follows keys and indices, and fails where there is nothing.
func at(t *testing.T, d any, path ...any) any {
	t.Helper()
	for _, step := range path {
		switch step := step.(type) {
		case string:
			object, ok := d.(map[string]any)
			require.True(t, ok, "%v: no object at %q", path, step)
			require.Contains(t, object, step, "%v", path)
			d = object[step]
		case int:
			list, ok := d.([]any)
			require.True(t, ok && step < len(list), "%v: no element %d", path, step)
			d = list[step]
		}
	}
	return d
}

func number(t *testing.T, d any, path ...any) float64 {
	t.Helper()
	x, ok := at(t, d, path...).(float64)
	require.True(t, ok, "%v is no number", path)
	return x
}

// scenarioFile writes a scenario to a folder of the test.
func scenarioFile(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "strand.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func TestEveryDemonstration(t *testing.T) {
	for _, name := range samples.Each(4, scenarios.Demos()) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, err := scenarios.Demo(name)
			require.NoError(t, err)
			screen := mustAnswer(t, "run", "--demo", name)
			answer, machine, _ := strings.Cut(screen, "\nThe machine")
			require.LessOrEqual(t, strings.Count(answer, "\n"), 24)
			require.LessOrEqual(t, strings.Count(machine, "\n"), 10)
			for _, part := range []string{s.Title, "At the nozzle", "Limit", "Survives", "run --full"} {
				require.Contains(t, screen, part)
			}
			text := mustAnswer(t, "run", "--full", "--demo", name)
			for _, part := range []string{s.Title, "At the nozzle", "Limit", "Verdict", "Removed", "Steam", "Notes", "Sources", "Cautions", "burn", name + ".toml"} {
				require.Contains(t, text, part)
			}
			keysOf(t, decoded(t, "run", "--demo", name, "--json"), len(s.Model.Path))
		})
	}
}

// The same bytes every time, and a demonstration where no file is named.
func TestSameBytesEveryTime(t *testing.T) {
	require.Equal(t, mustAnswer(t, "run"), mustAnswer(t, "run", "--demo", scenarios.Demos()[0]))
	require.Equal(t, mustAnswer(t, "run", "--json", "--demo", "lamp-shade"), mustAnswer(t, "run", "--demo", "lamp-shade", "--json"))
}

// keysOf requires the keys that programs rely on, and that the figures agree with
// one another.
func keysOf(t *testing.T, d map[string]any, zones int) {
	t.Helper()
	for _, key := range []string{"start", "mean", "low", "high", "centre", "skin", "limit", "removed", "numerical_error"} {
		number(t, d, "moisture", key)
	}
	require.Equal(t, version, at(t, d, "version"))
	require.Contains(t, []any{"dry", "wet", "unsure"}, at(t, d, "verdict"))
	require.Len(t, at(t, d, "zones"), zones)
	for i := range zones {
		require.NotEmpty(t, at(t, d, "zones", i, "name"))
		for _, key := range []string{"length", "residence", "mean", "strand_temperature", "air_activity"} {
			number(t, d, "zones", i, key)
		}
	}
	require.IsType(t, []any{}, at(t, d, "warnings"))
	require.Positive(t, number(t, d, "settings", "tolerance"))
	radius, moisture := at(t, d, "profile", "radius").([]any), at(t, d, "profile", "moisture").([]any)
	require.Len(t, moisture, len(radius))
	require.InDelta(t, number(t, d, "strand", "diameter")/2, radius[len(radius)-1], 1e-12)
	require.Equal(t, at(t, d, "moisture", "skin"), moisture[len(moisture)-1])

	mean, limit := number(t, d, "moisture", "mean"), number(t, d, "moisture", "limit")
	low, high := number(t, d, "moisture", "low"), number(t, d, "moisture", "high")
	require.LessOrEqual(t, low, mean)
	require.LessOrEqual(t, mean, high)
	require.Equal(t, at(t, d, "zones", zones-1, "mean"), mean)
	require.InDelta(t, 1-mean/number(t, d, "moisture", "start"), number(t, d, "moisture", "removed"), 1e-12)
	require.Positive(t, limit)
	switch p := number(t, d, "moisture", "probability"); at(t, d, "verdict") {
	case "dry":
		require.GreaterOrEqual(t, p, 0.9)
	case "wet":
		require.LessOrEqual(t, p, 0.1)
	default:
		require.True(t, p > 0.1 && p < 0.9)
	}
}

func TestLampShadeLacksAirNotTime(t *testing.T) {
	text := mustAnswer(t, "run", "--demo", "lamp-shade")
	require.Contains(t, text, "The air is too moist for more time alone to do")
	d := decoded(t, "run", "--demo", "lamp-shade", "--json")
	require.Equal(t, "air", at(t, d, "cause"))
	require.Equal(t, "wet", at(t, d, "verdict"))
	require.Greater(t, number(t, d, "zones", 0, "equilibrium"), number(t, d, "moisture", "limit"))
}

// Air of 23 °C and 50 % heated to 45 °C: saturation pressures 2810.4 Pa and 9594.4 Pa
// (Wagner & Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387, eq. 2.5; from memory, good
// to 1 Pa) give 0.5 × 2810.4/9594.4 = 0.1465. The tolerance is that of
// the last digit and of the fits in use, a few parts in ten thousand.
func TestRoomAirHeated(t *testing.T) {
	file := scenarioFile(t, `
[strand]
material = "pla"
[feed]
speed = "1 mm/s"
[room]
temperature = "23 °C"
humidity = "50 %"
[[zone]]
name = "box"
length = "1 m"
temperature = "45 °C"
`)
	require.InDelta(t, 0.1465, number(t, decoded(t, "run", file, "--json"), "zones", 0, "air_activity"), 5e-4)
}

// The standard transit: computed with CVODE (BDF, banded) on 320 and 640 cells and
// extrapolated; scipy's BDF agrees to 3e-8 at equal grid. Both known to 2e-8; the
// numerical error that is printed must cover the true one.
func TestStandardTransitFiles(t *testing.T) {
	for name, want := range map[string]float64{"transit-beta20": 2.444867e-3, "transit-beta0": 2.345023e-3} {
		file := filepath.Join("..", "..", "testdata", "transit", name+".toml")
		d := decoded(t, "run", file, "--json")
		mean, claimed := number(t, d, "moisture", "mean"), number(t, d, "moisture", "numerical_error")
		require.InEpsilon(t, want, mean, 1e-3, name)
		require.InDelta(t, want, mean, claimed, "%s: the error printed covers the true one", name)
		require.Less(t, claimed, 1e-3*want, "and is no excuse")
	}
}

// roughly is the template with the coarsest steps that may be asked for, without what the odds read the whole file again for.
func roughly(t testing.TB, template []byte) []byte {
	t.Helper()
	rough := strings.Replace(string(template), "\n[numerics]\n", "\n[numerics]\nresolution = 2.4\ntolerance = 0.1\n", 1)
	before, rest, found := strings.Cut(rough, "\n[[uncertain]]\n")
	_, after, also := strings.Cut(rest, "\n\n")
	require.True(t, found && also && strings.Contains(rough, "resolution = 2.4\n"))
	return []byte(before + "\n\n" + after)
}

func TestNewThenRun(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine.toml")
	require.Contains(t, mustAnswer(t, "new", path), path)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(scenarios.Template()), string(content))
	require.Contains(t, mustAnswer(t, "run", path), "At the nozzle")
	template, err := scenarios.Read("template.toml", scenarios.Template())
	require.NoError(t, err)
	rough := scenarioFile(t, string(roughly(t, content)))
	keysOf(t, decoded(t, "run", rough, "--json"), len(template.Model.Path))
}

func TestMaterials(t *testing.T) {
	require.Contains(t, mustAnswer(t, "materials"), "\npa6 ")
	require.Contains(t, mustAnswer(t, "materials", "pa6"), "Doubts")
	require.Equal(t, "pa6", at(t, decoded(t, "materials", "pa6", "--json"), "id"))
	var all []any
	require.NoError(t, json.Unmarshal([]byte(mustAnswer(t, "materials", "--json")), &all))
	require.Greater(t, len(all), 10)

	file := filepath.Join(t.TempDir(), "own.toml")
	require.NoError(t, os.WriteFile(file, []byte("base = \"pa6\"\nname = \"My nylon\"\ndensity = \"1.2 g/cm3\"\n"), 0o600))
	page := mustAnswer(t, "materials", file)
	require.Contains(t, page, "My nylon")
	require.Contains(t, page, "1200 kg/m³")
}
