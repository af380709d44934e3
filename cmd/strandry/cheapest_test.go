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

const priced = `
[strand]
material = "pc"
[feed]
speed = "2 mm/s"
[[zone]]
name = "oven"
length = "6 m"
temperature = "115 °C"
air = { dew_point = "-10 °C", flow = "4 L/min" }
[money]
currency = "EUR"
[[part]]
name = "tube"
price = 10
per = "m"
of = "oven"
[[free]]
key = "zone.oven.length"
from = "0.5 m"
to = "30 m"
spacing = "log"
[[free]]
key = "zone.oven.temperature"
values = ["100 °C", "110 °C", "115 °C"]
[search]
budget = 40
`

// Text, JSON and figure tell the same design, and a run of it is dry; half a metre less is not.
func TestCheapest(t *testing.T) {
	t.Parallel()
	file, path := scenarioFile(t, priced), filepath.Join(t.TempDir(), "figures")
	text := mustAnswer(t, "size", file, "--cheapest", "-o", path)
	d := decoded(t, "size", file, "--cheapest", "--json")
	require.True(t, at(t, d, "met").(bool))
	length := at(t, d, "set", "zone.oven.length").(string)
	heat := at(t, d, "set", "zone.oven.temperature").(string)
	for _, part := range []string{"nine times in ten", length, heat, "At random", "Looked at", "EUR", at(t, d, "conclusion").(string)} {
		require.Contains(t, strings.Join(strings.Fields(text), " "), part)
	}
	s, err := scenarios.Load(file)
	require.NoError(t, err)
	k, ok := s.Key("zone.oven.length")
	require.True(t, ok)
	long, err := k.Parse(length)
	require.NoError(t, err)
	require.InDelta(t, 10*long, number(t, d, "cost"), 1e-6)
	for _, c := range []struct {
		length  float64
		verdict string
	}{{long, "dry"}, {long - 0.5, "unsure"}} {
		changed := strings.NewReplacer("6 m", k.Setting(c.length, 5).Value, "\"115 °C\"\nair", "\""+heat+"\"\nair").Replace(priced)
		require.Equal(t, c.verdict, at(t, decoded(t, "run", scenarioFile(t, changed), "--json"), "verdict"))
	}
	require.ElementsMatch(t, []string{folder.Marker, "cheapest.pdf", "cheapest.png", "cheapest.svg"}, names(t, path))
	drawing, err := os.ReadFile(filepath.Join(path, "cheapest.svg"))
	require.NoError(t, err)
	require.Contains(t, string(drawing), "PC is dry nine times in ten for")
}

func TestCheapestMisused(t *testing.T) {
	for _, c := range []struct {
		status int
		says   string
		args   []string
	}{
		{misused, "no --for", []string{"size", "--cheapest", "--for", "feed.speed"}},
		{misused, "belong to --cheapest", []string{"size", "--for", "feed.speed", "-o", "figures"}},
		{misused, "name of a folder", []string{"size", "--cheapest", "-o", ""}},
		{failed, "nothing may be chosen", []string{"size", "--cheapest", "--demo", "lamp-shade"}},
		{failed, "nothing costs anything", []string{"size", "--cheapest", scenarioFile(t, strings.Replace(priced, "[[part]]\nname = \"tube\"\nprice = 10\nper = \"m\"\nof = \"oven\"\n", "", 1))}},
	} {
		status, out, errOut := call(c.args...)
		require.Equal(t, c.status, status, "%v: %s", c.args, errOut)
		require.Empty(t, out)
		require.Contains(t, errOut, c.says)
	}
	var errOut strings.Builder
	require.Equal(t, failed, run(t.Context(), []string{"size", "--cheapest", scenarioFile(t, priced)}, fullDisk{}, &errOut))
	require.Contains(t, errOut.String(), "no space left")
}
