package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/text/quantity"
)

// chamber is a strand of a material on a way through a chamber at a temperature.
const chamber = `title = "a chamber"
[strand]
material = %q
[feed]
speed = "1 mm/s"
[room]
temperature = "22 °C"
[[zone]]
name = "oven"
length = "%s"
temperature = "%s"
air = { vapour_pressure = "10 Pa" }
[[zone]]
name = "guide"
length = "20 mm"
[numerics]
resolution = 3
tolerance = 0.003
`

// coarser is the chamber with the coarsest steps that may be asked for.
func coarser(t *testing.T, text string) string {
	t.Helper()
	coarse := strings.Replace(text, "resolution = 3\ntolerance = 0.003\n", "resolution = 2.4\ntolerance = 0.1\n", 1)
	require.NotEqual(t, text, coarse)
	return coarse
}

func chamberFile(t *testing.T, material, length, temperature string) string {
	t.Helper()
	return scenarioFile(t, fmt.Sprintf(chamber, material, length, temperature))
}

// PETG has its glass transition near 80 °C and is printed at 220 to 260 °C (handbook-typical, from memory): at
// 200 °C nothing is left of a strand. However dry it is, no verb calls it dry.
func TestSoftenedStrandIsNeverDry(t *testing.T) {
	file := scenarioFile(t, coarser(t, fmt.Sprintf(chamber, "petg", "3 m", "200 °C")))
	text := mustAnswer(t, "run", file)
	require.Contains(t, text, "SOFTENS: ")
	require.Contains(t, text, "Survives       softens: 200 °C in oven")
	require.Contains(t, text, "Heat holds this design back")
	require.NotContains(t, text, "DRY")
	require.NotContains(t, text, "Nothing holds")
	d := decoded(t, "run", file, "--json")
	require.Equal(t, []any{"softens", "softens", "softening"}, []any{at(t, d, "verdict"), at(t, d, "survives"), at(t, d, "cause")})
	require.Less(t, number(t, d, "moisture", "mean"), number(t, d, "moisture", "limit"), "it would be dry")
	require.Equal(t, "oven", at(t, d, "heat", "zone"))
	require.InDelta(t, 473.15, number(t, d, "heat", "strand_temperature"), 0.1)
	require.Equal(t, []any{"cooler", "zone.oven.temperature", "65 °C"}, []any{at(t, d, "advice", 0, "changes", 0, "change"),
		at(t, d, "advice", 0, "changes", 0, "key"), at(t, d, "advice", 0, "changes", 0, "to")})
	require.Equal(t, []any{"dry", "holds"}, []any{at(t, d, "advice", 0, "verdict"), at(t, d, "advice", 0, "survives")})

	size := unwrapped(mustAnswer(t, "size", file, "--for", "zone.oven.length"))
	require.Contains(t, size, "Survives softens: ")
	require.Contains(t, size, "It is no answer all the same: the strand softens")
	d = decoded(t, "size", file, "--for", "zone.oven.length", "--json")
	require.Equal(t, []any{"softens", "softens"}, []any{at(t, d, "verdict"), at(t, d, "survives")})
}

// Where the strand is wet it stays wet, and that it softens is told.
func TestWetAndSoft(t *testing.T) {
	oven := fmt.Sprintf(chamber, "petg", "10 mm", "200 °C")
	file := scenarioFile(t, strings.Replace(oven, "[strand]\n", "[strand]\nlimit = \"moulding\"\n", 1))
	text := mustAnswer(t, "run", file)
	require.Regexp(t, "^WET: within the limit [a-z0-9 ]+ in 100,\\s+and it softens", text)
	require.Contains(t, unwrapped(text), "The strand softens: ")
	d := decoded(t, "run", file, "--json")
	require.Equal(t, []any{"wet", "softens"}, []any{at(t, d, "verdict"), at(t, d, "survives")})
}

// A strand that flashes through hot air stays cool and gives way if the feed stops; one between the ends of its
// range is in doubt, in the line of the verdict.
func TestDoubtfulStrand(t *testing.T) {
	text := mustAnswer(t, "run", scenarioFile(t, strings.Replace(fmt.Sprintf(chamber, "petg", "1 mm", "200 °C"), "[feed]", "moisture = \"0.001 %\"\n[feed]", 1)))
	require.Contains(t, text, "Survives       doubtful, holds only while it runs: ")
	require.Contains(t, unwrapped(text), "it would soften if the feed stops")
	text = mustAnswer(t, "run", scenarioFile(t, coarser(t, fmt.Sprintf(chamber, "pc", "6 m", "140 °C"))))
	require.Contains(t, text, "DRY, IF IT BEARS THE HEAT: ")
	require.Contains(t, text, "Survives       doubtful: 140 °C in oven")
	require.NotContains(t, text, "Nothing holds")
}

// Each material at its own usual drying temperature holds, nylon among them: a warning at a temperature at which
// everybody dries would be no warning.
func TestOwnDryingTemperatureHolds(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	for _, p := range samples.Each(5, library) {
		written := quantity.Temperature().Format(p.DryingTemperature.Value, "°C", 6)
		d := decoded(t, "run", chamberFile(t, p.ID, "5 m", written), "--json")
		require.Equal(t, "holds", at(t, d, "survives"), p.ID)
	}
}

// Hot rows of a sweep are soft, and too hot ones are refused as rows, not as a file.
func TestHotRows(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	file := chamberFile(t, "petg", "3 m", "65 °C")
	text := mustAnswer(t, "sweep", file, "-o", folder, "--vary", "zone.oven.temperature=65 °C, 80 °C, 200 °C, 250 °C")
	require.Contains(t, text, "soft: 1.")
	require.Contains(t, text, "the strand would melt")
	rows := csvRows(t, filepath.Join(folder, "sweep.csv"))
	var survives []string
	for _, r := range rows {
		survives = append(survives, r["survives"])
		if r["survives"] != "holds" {
			require.NotEqual(t, "dry", r["verdict"])
		}
	}
	require.Equal(t, []string{"holds", "doubtful", "softens", ""}, survives)
	require.Equal(t, "softens", rows[2]["verdict"])
	require.Contains(t, rows[3]["no answer because"], "up to 240 °C, the temperature of the nozzle")
	raw, err := os.ReadFile(filepath.Join(folder, "sweep.json"))
	require.NoError(t, err)
	var d map[string]any
	require.NoError(t, json.Unmarshal(raw, &d))
	require.Equal(t, []any{"softens", "softens"}, []any{at(t, d, "rows", 2, "survives"), at(t, d, "rows", 2, "verdict")})

	quick := unwrapped(mustAnswer(t, "sweep", file, "-o", filepath.Join(t.TempDir(), "quick"), "--quick", "--vary", "zone.oven.temperature=150 °C, 200 °C"))
	require.Contains(t, quick, "within the limit at the central diffusivity: 0; above it: 0; within it but soft: 2.")
}

// unwrapped puts a text on one line.
func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

func csvRows(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for k, head := range lines[0] {
			row[head] = line[k]
		}
		rows = append(rows, row)
	}
	return rows
}

// In a room as hot as an oven PLA and PCL soften as they lie: no verdict, class and figure of suits takes them for
// dry, and keeps does not say that they keep.
func TestHotRoom(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	file := scenarioFile(t, coarser(t, strings.Replace(fmt.Sprintf(chamber, "pc", "10 m", "115 °C"), "22 °C", "70 °C", 1)))
	all := []string{"pla", "pcl", "pc"}
	if samples.Of(1, 2, 2) == 2 {
		all = materials.Names()
	}
	soft := map[any]bool{}
	for _, name := range all {
		d := decoded(t, "suits", file, "--material", name, "--json")
		for _, view := range []string{"soaked", "opened"} {
			row := at(t, d, view, 0)
			require.Equal(t, name, at(t, row, "material"))
			if at(t, row, "survives") == "softens" {
				soft[name] = true
				require.NotEqual(t, "dry", at(t, row, "verdict"))
				require.Equal(t, []any{"no length will do", "softening"}, []any{at(t, row, "class"), at(t, row, "obstacle")})
			}
		}
	}
	require.Equal(t, map[any]bool{"pla": true, "pcl": true}, soft)
	text := mustAnswer(t, "suits", file, "--material", "pla")
	require.Regexp(t, `(?m)^pla .* softens .*softens`, text)
	for _, name := range []string{"pla", "pcl"} {
		args := []string{"keeps", file, "--material", name}
		if samples.Of(1, 2, 2) == 2 {
			args = args[:2] // all on one page
		}
		text = unwrapped(mustAnswer(t, args...))
		require.Contains(t, text, "It is too hot there for: ")
		require.Regexp(t, "too hot there for: [^.]*"+name+"[^.]*which soften", text)
		require.NotRegexp(t, "keeps in the long run: [^;]*"+name+"[,;]", text)
	}
}

// The page says so too, in its lead, its banner and its advice; its map has no design that is dry.
func TestPageOfSoftenedStrand(t *testing.T) {
	t.Parallel()
	if samples.Of(1, 2, 2) == 1 {
		t.Skip("the odds of the whole library; package page has its lead")
	}
	folder := filepath.Join(t.TempDir(), "log")
	mustAnswer(t, "buildlog", scenarioFile(t, coarser(t, fmt.Sprintf(chamber, "petg", "3 m", "200 °C"))), "-o", folder)
	raw, err := os.ReadFile(filepath.Join(folder, "buildlog.md"))
	require.NoError(t, err)
	page := string(raw)
	require.Contains(t, page, "PETG softens on its way, at 200 °C in oven.")
	require.Contains(t, page, "**▲ SOFTENS**")
	require.Contains(t, page, "Build nothing of this yet")
	require.NotContains(t, page, "DRY")
	require.NotContains(t, page, "Nothing holds")
	require.Contains(t, page, "0 are within the limit and do not soften")
}

// size goes to where the strand holds, unless told to go further, and then says where it softens.
func TestSizeStaysWhereTheStrandHolds(t *testing.T) {
	file := chamberFile(t, "petg", "10 m", "65 °C")
	for _, key := range []string{"zone.oven.temperature", "zone.guide.temperature", "room.temperature"} {
		d := decoded(t, "size", file, "--for", key, "--json")
		require.LessOrEqual(t, number(t, d, "searched_to"), 343.15+1e-9, key)
		require.NotEqual(t, "softens", at(t, d, "survives"))
	}
	text := unwrapped(mustAnswer(t, "size", file, "--for", "zone.oven.temperature", "--to", "150 °C"))
	require.Contains(t, text, "Too hot")
	require.Contains(t, text, "Not every value that meets the limit will do")
}
