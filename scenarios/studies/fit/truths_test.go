package fit_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// made is a set of weighings that an independent march has made, and its truth.
type made struct {
	weighings          *scenarios.Weighings
	diffusivity, start float64
}

// rowsOf are the rows of a table of weighings without its head.
func rowsOf(t testing.TB, name string) [][]string {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", "weighings", name))
	require.NoError(t, err)
	reader := csv.NewReader(bytes.NewReader(text))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// weighedAs are masses [g] over the hours of a run, in the air of the tables.
func weighedAs(t testing.TB, material, step string, hours float64, masses []string) *scenarios.Weighings {
	celsius := map[string]float64{"pa6": 80, "petg": 65}[material]
	file := fmt.Sprintf("[strand]\nmaterial = %q\n[scale]\nresolution = \"%s g\"\n[[run]]\nfile = \"masses.csv\"\ntemperature = \"%g °C\"\nair = { dew_point = \"-10 °C\" }\nh = \"25 W/m2/K\"\nk_m = \"0.03 m/s\"\n",
		material, step, celsius)
	table := "time [h],mass [g]\n"
	for i, mass := range masses {
		share := float64(i) / float64(len(masses)-1)
		table += fmt.Sprintf("%.6f,%s\n", hours*share*share, mass)
	}
	w, err := scenarios.ReadWeighings("made.toml", []byte(file), func(string) ([]byte, error) { return []byte(table), nil })
	require.NoError(t, err)
	return w
}

func truths(t testing.TB) (all []made) {
	for _, row := range rowsOf(t, "truths.csv") {
		number := func(i int) float64 {
			x, err := strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
			return x
		}
		all = append(all, made{weighedAs(t, row[1], row[2], number(3), strings.Fields(row[6])), number(4), number(5)})
	}
	return all
}

// Two hundred strands with truths of their own, weighed on scales of 0.01 and 0.1 g, a half of which do nothing but round: the interval of nine in ten holds the diffusivity and
// the start in 85 to 95 of 100. The masses are those of an independent march, see testdata/weighings/README.md.
func TestTruths(t *testing.T) {
	all := truths(t)
	require.Len(t, all, 200)
	every := len(all) / samples.Of(4, 10, 200)
	for i := range all[:len(all)/every] {
		all[i] = all[i*every]
	}
	all = all[:len(all)/every]
	var diffusivity, start, unfit float64
	for _, m := range all {
		o := found(t, m.weighings, fit.Options{})
		share := func(b fit.Between, truth float64) float64 {
			if b.Low <= truth && truth <= b.High {
				return 1 / float64(len(all))
			}
			return 0
		}
		diffusivity += share(o.Diffusivity, m.diffusivity)
		start += share(o.Runs[0].Start, m.start)
		if o.Lack.Probability <= 0.01 {
			unfit += 1 / float64(len(all))
		}
	}
	t.Logf("of %d: diffusivity %.3f, start %.3f, said to be unfit %.3f", len(all), diffusivity, start, unfit)
	slack := 0.0
	if len(all) < 200 {
		slack = 3 * 0.3 / math.Sqrt(float64(len(all)))
	}
	for _, held := range []float64{diffusivity, start} {
		require.GreaterOrEqual(t, held, 0.85-slack)
		require.LessOrEqual(t, held, 0.95+slack)
	}
	require.LessOrEqual(t, unfit, 0.04+slack)
}

// Twenty strands that no diffusivity explains, by the same march: ten with a slow second stage of 31 to 43 in 100 of the water, ten in air whose dew point rises from -10 °C to
// 32 to 44 °C over the run, on a scale of 0.01 g with a noise of a third of that. At least eighteen are told.
func TestUnfit(t *testing.T) {
	all := rowsOf(t, "unfit.csv")
	require.Len(t, all, 20)
	rows := all[:samples.Of(3, 10, 20)]
	told := 0
	for _, row := range rows {
		w := weighedAs(t, "pa6", "0.01", 48, strings.Fields(row[2]))
		o := found(t, w, fit.Options{})
		if slices.Contains(kinds(o), fit.Shape) {
			told++
		} else {
			t.Logf("not told: %s (%v)", row[1], o.Lack)
		}
	}
	require.GreaterOrEqual(t, told, len(rows)-max(1, len(rows)/10))
}
