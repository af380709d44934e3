package main

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// Strands that end, or begin, with next to no water.
const (
	// A thin strand that dried through and then lies cold.
	coldAndDry = `[strand]
material = "pva"
diameter = "0.322 mm"
moisture = "5.03 %"
[feed]
speed = "0.119 mm/s"
[[zone]]
name = "oven"
length = "3.4 m"
temperature = "71.05 °C"
h = "141.58 W/m2/K"
k_m = "0.195177 m/s"
contact = { share = "70.11 %", moves = true }
air = { vapour_pressure = "0 Pa" }
[[zone]]
name = "cold"
length = "55.8 m"
temperature = "-0.45 °C"
h = "75.88 W/m2/K"
k_m = "0.051616 m/s"
contact = { share = "24.395 %", moves = true }
air = { vapour_pressure = "0 Pa" }
[[zone]]
name = "guide"
length = "16 m"
temperature = "15.75 °C"
h = "89.77 W/m2/K"
k_m = "0.045 m/s"
contact = { share = "53.26 %", moves = true }
air = { vapour_pressure = "0 Pa" }
[[vary]]
key = "zone.oven.length"
from = "2 m"
to = "20 m"
count = 5
`
	// One that never held any, in a film that could not be thinner.
	dryFromTheStart = `[strand]
material = "abs"
moisture = "0 %"
[feed]
speed = "1 mm/s"
[[zone]]
name = "oven"
length = "1000 m"
temperature = "80 °C"
h = "1000 W/m2/K"
k_m = "1 m/s"
air = { vapour_pressure = "0 Pa" }
[[vary]]
key = "strand.moisture"
values = ["0 %", "0.001 %", "0.3 %"]
`
)

// A strand that holds next to no water holds no less than none, in every verb and every file, and no more than all of
// it was removed.
func TestBoneDryDesigns(t *testing.T) {
	for name, text := range map[string]string{"cold and dry": coldAndDry, "dry from the start": dryFromTheStart} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			folder := t.TempDir()
			file := filepath.Join(folder, "dry.toml")
			require.NoError(t, os.WriteFile(file, []byte(text+coarse()), 0o600))
			d := decoded(t, "run", file, "--json")
			for _, part := range []any{at(t, d, "moisture"), at(t, d, "profile", "moisture"), at(t, d, "steam_per_melt_volume")} {
				noneBelowZero(t, part)
			}
			require.LessOrEqual(t, number(t, d, "moisture", "removed"), 1.0)

			mustAnswer(t, "sweep", file, "-o", filepath.Join(folder, "sweep"))
			for _, row := range csvRows(t, filepath.Join(folder, "sweep", "sweep.csv")) {
				for column, cell := range row {
					x, err := strconv.ParseFloat(cell, 64)
					if err != nil {
						continue // a word
					}
					require.GreaterOrEqual(t, x, 0.0, column)
					if strings.HasPrefix(column, "removed") {
						require.LessOrEqual(t, x, 100.0)
					}
				}
			}
			if samples.Of(1, 2, 2) == 2 {
				mustAnswer(t, "plot", file, "-o", filepath.Join(folder, "plot"))
			}
			if name == "cold and dry" && samples.Of(1, 2, 2) == 2 { // the odds of the whole library
				mustAnswer(t, "buildlog", file, "-o", filepath.Join(folder, "log"))
			}
		})
	}
}

// noneBelowZero holds all numbers of a part of a document at or above zero.
func noneBelowZero(t *testing.T, part any) {
	t.Helper()
	switch v := part.(type) {
	case float64:
		require.GreaterOrEqual(t, v, 0.0)
	case []any:
		for _, one := range v {
			noneBelowZero(t, one)
		}
	case map[string]any:
		for _, one := range v {
			noneBelowZero(t, one)
		}
	default:
		t.Fatalf("%v is no number", v)
	}
}
