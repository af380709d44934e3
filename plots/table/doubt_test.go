package table

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	cylinder "strandry/diffusion/exact"
	"strandry/diffusion/sensitivity"
	"strandry/materials"
	"strandry/scenarios/studies/doubt"
)

// aDoubt is made up: a limit that decides, an unknown whose first index came out below zero, and one with a long name.
func aDoubt() *Doubt {
	a := answer()
	index := func(value, by float64) sensitivity.Index {
		return sensitivity.Index{Value: value, Low: max(0, value-by), High: min(1, value+by), Estimate: value}
	}
	below := sensitivity.Index{High: 0.004, Estimate: -0.0031}
	return &Doubt{
		Title: a.Title, File: a.File, Version: a.Version, Assumed: a.Assumed,
		Answer: &doubt.Answer{
			Design: a.Design, Assessment: a.Assessment, Limit: materials.Value{Value: 0.002, Low: 0.001, High: 0.004}, Fit: 0.02,
			Spread: sensitivity.Range{Low: math.Log(2.5), High: math.Log(10)}, Variance: 0.3, Together: 0.03,
			Rows: []doubt.Row{
				{Unknown: diffusion.UnknownLimit, First: index(0.6, 0.03), Total: index(0.61, 0.03), Left: 0.6},
				{Unknown: "zone.hot drum of the long kind.temperature", First: index(0.25, 0.02), Total: index(0.27, 0.03), Left: 0.85},
				{Unknown: diffusion.UnknownDiffusivity, First: index(0.1, 0.02), Total: index(0.12, 0.03), Left: 0.95},
				{Unknown: diffusion.UnknownMixing, First: below, Total: index(0.002, 0.002), Left: 1},
			},
			Order: []doubt.Step{{Unknown: diffusion.UnknownLimit, Left: 0.6}, {Unknown: diffusion.UnknownDiffusivity, Left: 0.08}},
		},
	}
}

func doubtText(t *testing.T, d *Doubt) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, WriteText(&out, d))
	within(t, out.String(), 79)
	return out.String()
}

func TestDoubtGolden(t *testing.T) {
	golden(t, "doubt.txt", doubtText(t, aDoubt()))
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, aDoubt()))
	golden(t, "doubt.json", out.String())
	require.True(t, json.Valid(out.Bytes()))
}

// An index below zero is shown as none, and the page says why.
func TestDoubtBelowZero(t *testing.T) {
	text := strings.Join(strings.Fields(doubtText(t, aDoubt())), " ")
	require.Contains(t, text, "heat of sorption, alone: 0 (the estimate is -0.31 %, below zero within its error).")
	require.Regexp(t, `heat of sorption 0 <1 <1 <1 4\.0`, text)
}

func TestDoubtConclusions(t *testing.T) {
	d := aDoubt()
	require.Contains(t, d.Conclusion(), "What decides: limit. 60 % of the doubt is its own, 61 % with what it does beside others. To know the limit narrows the doubt most: from a factor of 4.0 to 2.3. The limit is not likely")
	d.Answer.Assessment.Probability = 0.95
	require.Contains(t, d.Conclusion(), "The limit is likely to be met as it is")
	d.Answer.Assessment.Probability = 0.5
	require.NotContains(t, d.Conclusion(), "likely")
	d.Answer.Rows[1].Left = 0.5
	require.Contains(t, d.Conclusion(), "though not the greatest share (which counts rare extremes too): from a factor of 4.0 to 2.0.")
	d.Answer.Rows[1].Total.High = 0.7
	require.Contains(t, d.Conclusion(), "It cannot be told which of these decides: limit, zone.hot drum of the long kind.temperature. To know")
	require.NotContains(t, doubtText(t, d), "as rough")
	d.Answer.Fit = 0.2
	require.Contains(t, doubtText(t, d), "as rough")
}

func TestDoubtOfNothing(t *testing.T) {
	d := aDoubt()
	d.Answer.Variance, d.Answer.Rows, d.Answer.Order, d.Answer.Limit = 0, nil, nil, materials.Value{Value: 0.002, Low: 0.002, High: 0.002}
	text := doubtText(t, d)
	require.Contains(t, text, "there is\nnothing to measure")
	require.NotContains(t, text, "between")
	require.NotContains(t, text, "factor")
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, d))
	require.Contains(t, out.String(), `"unknowns": []`)
	require.Contains(t, out.String(), `"measure": []`)
}

func TestDoubtRefusesWhatIsNoNumber(t *testing.T) {
	for _, spoil := range []func(s *doubt.Answer){
		func(s *doubt.Answer) { s.Rows[1].Total.High = math.NaN() }, func(s *doubt.Answer) { s.Spread.Low = math.Inf(-1) }, func(s *doubt.Answer) { s.Order[0].Left = math.NaN() },
	} {
		d := aDoubt()
		spoil(d.Answer)
		var out bytes.Buffer
		require.Error(t, WriteText(&out, d))
		require.Error(t, WriteJSON(&out, d))
		require.Empty(t, out.String())
	}
}

// Each unknown has its own way to be measured, a key of the scenario too.
func TestMeasuring(t *testing.T) {
	m := answer().Design
	seen := map[string]bool{}
	for _, name := range []string{
		diffusion.UnknownDiffusivity, diffusion.UnknownActivation, diffusion.UnknownBeta, diffusion.UnknownIsotherm, diffusion.UnknownMixing, diffusion.UnknownFilm,
		diffusion.UnknownMouths, diffusion.UnknownLimit, "zone.drum.temperature", "room.humidity", "strand.moisture", "feed.speed", "zone.drum.air.flow", "strand.diameter", "numerics.other",
	} {
		text := measuring(name, m)
		require.Regexp(t, `^[A-Z].*\.$`, text)
		require.False(t, seen[text], name)
		seen[text] = true
	}
	require.Contains(t, measuring("zone.drum.air.dew_point", m), "hygrometer")
	// Half of the water is in a cylinder at D t / r² = 0.063 (Crank, The Mathematics of Diffusion, 2nd ed. (1975), eq. 5.23).
	require.InDelta(t, 0.5, cylinder.ConstantUptake(0.063), 0.001)
}
