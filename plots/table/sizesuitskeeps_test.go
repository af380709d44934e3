package table

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/keeps"
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
)

func within(t *testing.T, text string, columns int) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		require.LessOrEqual(t, utf8.RuneCountInString(line), columns, line)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}
	for _, bad := range []string{"NaN", "Inf", "%!", "  \n"} {
		require.NotContains(t, text, bad)
	}
}

func demo(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	return s
}

func sizeOf(t *testing.T, name, key string) *Size {
	t.Helper()
	s, err := demo(t, name).With(scenarios.Setting{Key: "strand.limit", Value: "moulding"})
	require.NoError(t, err)
	if name == "winch-drum" { // whose cover takes long
		s.Settings = diffusion.Settings{Resolution: 2.5, Tolerance: 0.05}
	}
	a, err := size.Find(diffusion.NewMarch(), s, size.Request{Key: key})
	require.NoError(t, err)
	return &Size{Title: s.Title, File: s.File, Version: "0.0.0", Answer: a, Assumed: s.Assumed}
}

// What is printed is what was found, for each outcome.
func TestSizeSaysWhatWasFound(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, c := range samples.Each(3, []struct {
		demo, key string
		says      []string
	}{
		{"clear-cover", "zone.oven.length", []string{"just meets the limit", "numerical error", "m ± 0.000", "To be dry nine times in ten: at least "}},
		{"winch-drum", "feed.speed", []string{"On both sides", "Rewetting stands in the way", "none that was looked at"}},
		{"winch-drum", "zone.drum.temperature", []string{"Time stands in the way", "usual highest drying temperature", "--to looks beyond"}},
		{"lamp-shade", "zone.warm box.length", []string{"The air stands in the way", "no answer without drier air", "for ever at 0.117 %"}},
		{"clear-cover", "zone.oven.temperature", []string{"°C ± 0.00", " K (numerical error)"}},
		{"clear-cover", "zone.guide.length", []string{"To be dry nine times in ten: at most "}},
	}) {
		page := sizeOf(t, c.demo, c.key)
		var b strings.Builder
		require.NoError(t, WriteText(&b, page))
		within(t, b.String(), width)
		joined := strings.Join(strings.Fields(b.String()), " ")
		for _, says := range c.says {
			require.Contains(t, joined, says, c.key)
		}
		value, off := page.written()
		require.Contains(t, joined, value)
		x, err := page.Answer.Key.Parse(value)
		require.NoError(t, err)
		if page.Answer.Outcome == size.Met {
			require.Equal(t, off, math.Abs(x-page.Answer.Value), "what is printed")
			require.LessOrEqual(t, off, page.Answer.NumericalError/2)
			require.Contains(t, joined, value+" ± "+page.band(page.Answer.NumericalError+off), "the band holds the rounding too")
		} else {
			require.InEpsilon(t, page.Answer.Value, x, 1e-3)
		}
		b.Reset()
		require.NoError(t, WriteJSON(&b, page))
		var d struct {
			Outcome string
			Value   float64
			Points  []any
		}
		require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
		require.Equal(t, page.Answer.Outcome.String(), d.Outcome)
		require.InDelta(t, page.Answer.Value, d.Value, 0)
		require.Len(t, d.Points, len(page.Answer.Points))
		page.Answer.NumericalError = math.NaN()
		b.Reset()
		require.ErrorContains(t, WriteText(&b, page), "NumericalError")
		require.ErrorContains(t, WriteJSON(&b, page), "NumericalError")
		require.Empty(t, b.String())
	}
	page := sizeOf(t, "clear-cover", "zone.oven.length")
	require.ErrorIs(t, WriteText(broken{}, page), errBroken)
	page.Answer.Outcome = size.Everywhere
	var b strings.Builder
	require.NoError(t, WriteText(&b, page))
	require.Contains(t, b.String(), "meets the limit at the medians")
}

func some(t *testing.T, names ...string) []materials.Polymer {
	t.Helper()
	all := make([]materials.Polymer, len(names))
	for i, name := range names {
		p, err := materials.Lookup(name)
		require.NoError(t, err)
		all[i] = p
	}
	return all
}

func TestSuitsTables(t *testing.T) {
	s := demo(t, "lamp-shade")
	answer, err := suits.Find(context.Background(), s, some(t, "pp", "abs", "pa6", "pla", "tpu-ether"), 6*3600)
	require.NoError(t, err)
	page := &Suits{Title: s.Title, File: s.File, Version: "0.0.0", Answer: answer, Assumed: s.Build.Assumed}
	var b strings.Builder
	require.NoError(t, WriteText(&b, page))
	within(t, b.String(), width)
	for _, says := range []string{
		"Soaked, as drawn, of 5: 1 needs no drying: pp; ", "Opened 6.0 h ago, as drawn, of 5: 1 needs no drying: pp; 1 is dry", "opened 6.0 h ago\n", "— soaked: needs no drying",
		"— soaked: dry nine times in ten with no more than 20 m", "longer than can be built", "no length will do", "build.longest: 20 m", "none: not",
	} {
		require.Contains(t, b.String(), says)
	}
	drawn, built, found := strings.Cut(b.String(), "\nAs it could be built")
	require.True(t, found)
	require.NotContains(t, built, "\npp ", "it needs nothing")
	for _, p := range labels(answer.Pairs()) {
		require.Contains(t, drawn, "\n"+p+" ")
	}
	require.Less(t, strings.Index(b.String(), "\npp "), strings.Index(b.String(), "\nabs "))
	require.Less(t, strings.Index(b.String(), "\nabs "), strings.Index(b.String(), "\npa6 "))
	require.Less(t, strings.Index(b.String(), "\npa6 "), strings.Index(b.String(), "\npla "))

	b.Reset()
	require.NoError(t, WriteJSON(&b, page))
	var d struct {
		Soaked []struct {
			Material string
			Mean     float64
			Length   struct{ Length, Dwell *float64 }
			Rest     struct{ Time *float64 }
		}
	}
	require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
	require.Len(t, d.Soaked, 5)
	for i, r := range d.Soaked {
		want := answer.Soaked[i]
		require.Equal(t, want.Material.ID, r.Material)
		require.InDelta(t, want.Mean, r.Mean, 0)
		if r.Length.Length != nil {
			require.InEpsilon(t, *r.Length.Length/answer.Speed, *r.Length.Dwell, 1e-12)
		}
		require.Equal(t, want.Rest.Never || want.Rest.Already, r.Rest.Time == nil)
	}
	answer.Opened[0].Floor = math.Inf(1)
	b.Reset()
	require.ErrorContains(t, WriteText(&b, page), "Floor")
	require.ErrorContains(t, WriteJSON(&b, page), "Floor")
	require.Empty(t, b.String())
}

// One row by hand: 6 m at 1 mm/s are 6000 s, 1.7 h; 1e-5 of 1 % is a thousandth, 0.012 m of 6 m two thousandths.
func TestSuitsFigures(t *testing.T) {
	met := func(m float64) size.Length {
		return size.Length{Outcome: size.Met, Value: m, From: m, NumericalError: 0.002 * m}
	}
	page := &Suits{Title: "made up", File: "made.toml", Version: "0.0.0", Answer: &suits.Answer{
		Zone: "drum", Length: 12, Speed: 1e-3, Longest: 20, RoomTime: 3600,
		Soaked: []suits.Row{{
			Material: polymer(), Class: suits.Buildable, Limit: 0.002, Start: 0.025, Heated: 353.15, Floor: 1e-4, Verdict: diffusion.Wet,
			Mean: 0.01, Odds: diffusion.Odds{Low: 0.005, High: 0.02, Probability: 0.04}, NumericalError: 1e-5, Needed: met(6), Rest: rest.Time{Seconds: 7200},
			Reliable: size.ReliableLength{Outcome: size.Met, Value: 18, Probability: 0.9}, RestReliable: rest.ReliableTime{Never: true},
		}},
	}}
	opened := page.Answer.Soaked[0]
	opened.Odds = diffusion.Odds{Low: 0.001, High: 0.004, Probability: 0.5, FastIsWetter: true, ByDiffusivity: diffusion.Between{Low: 0.001, High: 0.003}}
	opened.Verdict, opened.Survives, opened.Rest = diffusion.Unsure, diffusion.Doubtful, rest.Time{Seconds: 180}
	opened.Needed, opened.Reliable = met(19.8), size.ReliableLength{Outcome: size.Met, Value: 20.1, Probability: 0.9}
	page.Answer.Opened = []suits.Row{opened}
	figures := []string{"80", "0.2", "2.5", "1.0", "0.50–2.0", "4", "wet", "holds", "6.0", "18", "1.7 h", "2.0 h", "none", "0.010"}
	require.Equal(t, append([]string{"Reedon"}, figures...), page.Cells(&page.Answer.Soaked[0]))
	require.Len(t, page.Heads(), 1+len(figures))
	var b strings.Builder
	require.NoError(t, WriteText(&b, page))
	joined := strings.Join(strings.Fields(b.String()), " ")
	require.Contains(t, joined, "reedon 80 0.2 2.5 0.50–2.0 wet 4 2.5 0.10–0.40+ unsure? 50")
	require.Contains(t, joined, "reedon 6.0 18 2.0 h none 20 21 3.0 min none", "what is longer than 20 m is not said to be 20 m")
	require.Contains(t, joined, "at the nozzle up to 0.1 % of the content, of the lengths up to 0.2 %")
	require.Equal(t, "Soaked, as drawn, of 1: 1 is wet nine times in ten or more: reedon. With up to 20 m of drum, 1 more would be dry nine times in ten: reedon 18 m. "+
		"Opened 60 min ago, as drawn, of 1: 1 is unsure, dry so many times in 100: reedon? 50. With up to 20 m of drum, none more would be dry nine times in ten. "+
		"At the medians, but not so often: reedon?. ?: the strand may give way in the heat of the path.", page.Conclusion())
}

// The words for lengths that are no figures.
func TestSuitsLengths(t *testing.T) {
	page := &Suits{Answer: &suits.Answer{Longest: 20}}
	for want, row := range map[string]suits.Row{
		"any": {Needed: size.Length{Outcome: size.Everywhere, Value: 3}}, "none": {Needed: size.Length{Outcome: size.Nowhere, Value: 3}},
		"3.0": {Needed: size.Length{Outcome: size.Met, Value: 3, From: 3}}, "≤3.0": {Needed: size.Length{Outcome: size.Met, Value: 3, From: size.Shortest}},
		"air": {Class: suits.Forbidden, Obstacle: advice.Air}, "time": {Class: suits.Forbidden, Obstacle: advice.Time},
	} {
		require.Equal(t, want, page.needed(&row))
	}
}

// One row by hand: it keeps for an hour, with an error of a hundredth, and stays within its limit in the shut store alone.
func TestKeepsFigures(t *testing.T) {
	page := &Keeps{Title: "made up", File: "made.toml", Version: "0.0.0", Answer: &keeps.Answer{
		Air: keeps.Air{Temperature: 293.15, VapourPressure: 1000}, Store: scenarios.Store{Temperature: 293.15, Humidity: 0.02},
		Opening: scenarios.Opening{Duration: 30, TimeConstant: 600, PerDay: 2}, Radius: 0.875e-3,
		Rows: []keeps.Row{{
			Material: polymer(), Limit: 0.002, Hours: rest.Time{Seconds: 3600, NumericalError: 36}, Reliable: rest.ReliableTime{Seconds: 1200},
			Skin: 0.01, SkinShare: 0.9, Equilibrium: 0.03, ForEver: 0.04, Store: 0.001, InStore: 0.003,
			Gain: 1e-4, GainLow: 5e-5, GainHigh: 3e-4, GainNumericalError: 2e-6,
		}},
	}}
	var b strings.Builder
	require.NoError(t, WriteText(&b, page))
	joined := strings.Join(strings.Fields(b.String()), " ")
	require.Contains(t, joined, "reedon 0.2 60 min 20 min 1.0 90 3.0 4.0")
	require.Contains(t, joined, "reedon 0.2 0.10 0.30 0.010 0.0050–0.030 none none")
	require.Contains(t, joined, "past its limit after 60 min at the medians; nine times in ten it is still within it until 20 min. At the medians this store with its openings keeps in the long run: none; not: reedon.")
	require.Contains(t, joined, "errors of the times up to 1 %, of the gains up to 2 %")
}

func TestKeepsTables(t *testing.T) {
	s := demo(t, "winch-drum")
	air := keeps.Air{Temperature: s.Room.Temperature, VapourPressure: s.Room.VapourPressure}
	answer, err := keeps.Find(context.Background(), s, air, some(t, "pp", "abs", "pa6", "pei"))
	require.NoError(t, err)
	page := &Keeps{Title: s.Title, File: s.File, Version: "0.0.0", Answer: answer, Assumed: s.Store.Assumed}
	var b strings.Builder
	require.NoError(t, WriteText(&b, page))
	within(t, b.String(), width)
	for _, says := range []string{"In air of 20 °C and 60 %", "In a store of 20 °C and 2 %", "for ever", "any", "none", "store.humidity: 2 %", "one costs"} {
		require.Contains(t, b.String(), says)
	}
	b.Reset()
	require.NoError(t, WriteJSON(&b, page))
	var d struct {
		Humidity  float64
		Materials []struct {
			Material string
			Keeps    struct {
				Never bool
				Time  *float64
			}
			Bearable *float64 `json:"openings_a_day"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
	require.Len(t, d.Materials, 4)
	require.InEpsilon(t, 0.6, d.Humidity, 1e-9)
	for i, r := range d.Materials {
		require.Equal(t, answer.Rows[i].Material.ID, r.Material)
		require.Equal(t, math.IsInf(answer.Rows[i].Bearable, 1), r.Bearable == nil)
	}
	require.Equal(t, "pp", d.Materials[3].Material, "what keeps for ever comes last")
	require.True(t, d.Materials[3].Keeps.Never)
	require.Nil(t, d.Materials[3].Keeps.Time)

	answer.Rows[0].Bearable = math.NaN()
	b.Reset()
	require.ErrorContains(t, WriteText(&b, page), "Bearable")
	require.ErrorContains(t, WriteJSON(&b, page), "Bearable")
	require.Empty(t, b.String())
}
