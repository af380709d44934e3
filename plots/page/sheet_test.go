package page

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// aPlan is made by hand; nothing in it comes from a solve.
func aPlan(t *testing.T, title string) *table.FitPlan {
	t.Helper()
	w, err := scenarios.ReadPlan("folder/plan.toml", []byte(`title = '''`+title+`'''
strand.material = "pa6"
[[run]]
file = "dry-80.csv"
temperature = "80 °C"
[[run]]
file = "fan-60.csv"
temperature = "60 °C"
air = { dew_point = "-10 °C", speed = "1 m/s" }
`), nil)
	require.NoError(t, err)
	return &table.FitPlan{Version: "0.0.0", Plan: &fit.Plan{
		Weighings: w, Runs: []fit.PlannedRun{{Times: []float64{0, 300, 4500, 93600}, Left: 0.05, Water: 0.02}, {Times: []float64{0, 900, 7200}, Left: 0.2, Water: 0.02}},
		Chosen: fit.Option{Scale: 1e-5, Strand: 0.02, Factor: 1.1}, Enough: true, Library: 3.2,
	}}
}

func sheetOf(t *testing.T, p *table.FitPlan) string {
	t.Helper()
	out, err := OfPlan(p)
	require.NoError(t, err)
	elements(t, out) // well formed
	return string(out)
}

// Cautions come first, then how to weigh, then a table for each run with room to write.
func TestWeighingSheet(t *testing.T) {
	page := sheetOf(t, aPlan(t, "My nylon"))
	before, rest, _ := strings.Cut(page, "<style>")
	_, after, _ := strings.Cut(rest, "</style>")
	golden(t, "weighing-sheet.html", []byte(before+"<style></style>"+after))
	order := -1
	for _, want := range []string{"<h1>My nylon", "An oven burns", "fumes", "The strand softens at about 190", "How to weigh", "20 g of strand", "known within 10",
		"Run dry-80", "80\u00a0°C, measured", "that of the room, heated", "still, the fan off", ">0:00<", ">0:05<", ">1:15<", ">26:00<", "At the end 5\u00a0% of the water", "dry-80.csv", "strandry fit plan.toml",
		"Run fan-60", "60\u00a0°C, measured", "a frost point of -10", "it moves at 1\u00a0m/s", ">0:15<", ">2:00<", "At the end 20\u00a0%", "fan-60.csv"} {
		at := strings.Index(page[order+1:], want)
		require.GreaterOrEqual(t, at, 0, want)
		order += 1 + at
	}
	require.Equal(t, 2, strings.Count(page, `<table class="blank">`))
	require.Equal(t, 3*7, strings.Count(page, "></td>"), "three empty cells for each weighing")
	require.NotContains(t, page, "NOT ENOUGH")
	require.NotContains(t, page, "may stretch")
	again, err := OfPlan(aPlan(t, "My nylon"))
	require.NoError(t, err)
	require.True(t, bytes.Equal([]byte(page), again))
}

// What the plan does not reach, and an oven that is too hot, are said; a title is text and nothing else.
func TestWeighingSheetWarns(t *testing.T) {
	p := aPlan(t, hostile)
	p.Plan.Enough, p.Plan.Chosen.Factor = false, math.Inf(1)
	p.Plan.Weighings.Runs[0].Zone.Air.Temperature = 460 // where PA6 softens, more or less
	page := sheetOf(t, p)
	require.Contains(t, page, "NOT ENOUGH")
	require.Contains(t, page, "no, this cannot work")
	require.NotContains(t, page, "Expected")
	require.Contains(t, page, "It may stretch or stick together: a cooler oven is needed.")
	require.NotContains(t, page, "<script>")
	p.Plan.Runs[0].Left = math.NaN()
	_, err := OfPlan(p)
	require.ErrorContains(t, err, "the plan of weighings")
}
