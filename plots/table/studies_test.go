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
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/keeps"
	"strandry/scenarios/size"
	"strandry/scenarios/suits"
)

// wide is the width of the tables of many materials [columns].
const wide = 95

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
	s := demo(t, name)
	a, err := size.Find(diffusion.NewMarch(), s, size.Request{Key: key})
	require.NoError(t, err)
	return &Size{Title: s.Title, File: s.File, Version: "0.0.0", Answer: a, Assumed: s.Assumed}
}

// What is printed is what was found, for each outcome.
func TestSizeSaysWhatWasFound(t *testing.T) {
	for _, c := range []struct {
		demo, key string
		says      []string
	}{
		{"clear-cover", "zone.oven.length", []string{"just meets the limit", "numerical error", "m ± 0.000", "At the least and the greatest likely diffusivity too: at least "}},
		{"winch-drum", "feed.speed", []string{"On both sides", "Rewetting stands in the way", "none that was looked at"}},
		{"winch-drum", "zone.drum.temperature", []string{"Time stands in the way", "usual highest drying temperature", "--to looks beyond"}},
		{"lamp-shade", "zone.warm box.length", []string{"The air stands in the way", "no answer without drier air", "for ever at 0.128 %"}},
		{"clear-cover", "zone.oven.temperature", []string{"°C ± 0.00", " K (numerical error)"}},
	} {
		page := sizeOf(t, c.demo, c.key)
		var b strings.Builder
		require.NoError(t, page.WriteText(&b))
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
		} else {
			require.InEpsilon(t, page.Answer.Value, x, 1e-3)
		}
		b.Reset()
		require.NoError(t, page.WriteJSON(&b))
		var d sizeDocument
		require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
		require.Equal(t, page.Answer.Outcome.String(), d.Outcome)
		require.InDelta(t, page.Answer.Value, d.Value, 0)
		require.Len(t, d.Points, len(page.Answer.Points))
		page.Answer.NumericalError = math.NaN()
		b.Reset()
		require.ErrorContains(t, page.WriteText(&b), "NumericalError")
		require.ErrorContains(t, page.WriteJSON(&b), "NumericalError")
		require.Empty(t, b.String())
	}
	page := sizeOf(t, "clear-cover", "zone.oven.length")
	require.ErrorIs(t, page.WriteText(broken{}), errBroken)
	page.Answer.Outcome = size.Everywhere
	var b strings.Builder
	require.NoError(t, page.WriteText(&b))
	require.Contains(t, b.String(), "meets the limit.")
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
	study, err := suits.Find(context.Background(), s, some(t, "pp", "abs", "pa6", "pla", "tpu-ether"), 6*3600)
	require.NoError(t, err)
	page := &Suits{Title: s.Title, File: s.File, Version: "0.0.0", Study: study, Assumed: s.Build.Assumed}
	var b strings.Builder
	require.NoError(t, page.WriteText(&b))
	within(t, b.String(), wide)
	for _, says := range []string{
		"In equilibrium with the room", "Dry, then 6.0 h in the room", "needs no drying", "can be built: up to 20 m", "longer than can be built",
		"no length will do", "build.longest: 20 m", "never",
	} {
		require.Contains(t, b.String(), says)
	}
	require.Less(t, strings.Index(b.String(), "\npp "), strings.Index(b.String(), "\nabs "))
	require.Less(t, strings.Index(b.String(), "\nabs "), strings.Index(b.String(), "\npa6 "))
	require.Less(t, strings.Index(b.String(), "\npa6 "), strings.Index(b.String(), "\npla "))

	b.Reset()
	require.NoError(t, page.WriteJSON(&b))
	var d suitsDocument
	require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
	require.Len(t, d.Soaked, 5)
	for i, r := range d.Soaked {
		want := study.Soaked[i]
		require.Equal(t, want.Material.ID, r.Material)
		require.InDelta(t, want.Mean, r.Mean, 0)
		if r.Length.Length != nil {
			require.InEpsilon(t, *r.Length.Length/study.Speed, *r.Length.Dwell, 1e-12)
		}
		require.Equal(t, want.Rest.Never || want.Rest.Already, r.Rest.Time == nil)
	}
	study.Opened[0].Floor = math.Inf(1)
	b.Reset()
	require.ErrorContains(t, page.WriteText(&b), "Floor")
	require.ErrorContains(t, page.WriteJSON(&b), "Floor")
	require.Empty(t, b.String())
}

func TestKeepsTables(t *testing.T) {
	s := demo(t, "winch-drum")
	air := keeps.Air{Temperature: s.Room.Temperature, VapourPressure: s.Room.VapourPressure}
	study, err := keeps.Find(context.Background(), s, air, some(t, "pp", "abs", "pa6", "pei"))
	require.NoError(t, err)
	page := &Keeps{Title: s.Title, File: s.File, Version: "0.0.0", Study: study, Assumed: s.Store.Assumed}
	var b strings.Builder
	require.NoError(t, page.WriteText(&b))
	within(t, b.String(), width)
	for _, says := range []string{"In air of 20 °C and 60 %", "In a store of 20 °C and 2 %", "for ever", "any", "none", "store.humidity: 2 %", "one costs"} {
		require.Contains(t, b.String(), says)
	}
	b.Reset()
	require.NoError(t, page.WriteJSON(&b))
	var d keepsDocument
	require.NoError(t, json.Unmarshal([]byte(b.String()), &d))
	require.Len(t, d.Materials, 4)
	require.InEpsilon(t, 0.6, d.Humidity, 1e-9)
	for i, r := range d.Materials {
		require.Equal(t, study.Rows[i].Material.ID, r.Material)
		require.Equal(t, math.IsInf(study.Rows[i].Bearable, 1), r.Bearable == nil)
	}
	require.Equal(t, "pp", d.Materials[3].Material, "what keeps for ever comes last")
	require.True(t, d.Materials[3].Keeps.Never)
	require.Nil(t, d.Materials[3].Keeps.Time)

	study.Rows[0].Bearable = math.NaN()
	b.Reset()
	require.ErrorContains(t, page.WriteText(&b), "Bearable")
	require.ErrorContains(t, page.WriteJSON(&b), "Bearable")
	require.Empty(t, b.String())
}
