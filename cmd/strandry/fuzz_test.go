package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/plots/table"
	"strandry/scenarios"
)

// Whatever the text: no panic; where it makes a scenario, either a clear error or
// an answer that is finite, between the driest and the wettest state that start
// and air allow, and fit to be printed.
func FuzzRun(f *testing.F) {
	for _, name := range []string{"lamp-shade", "clear-cover"} { // the quickest to mutate
		text, err := scenarios.DemoText(name)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Add(roughly(f, scenarios.Template()))
	f.Add(fmt.Appendf(nil, steamy, "pa6"))
	if samples.Of(1, 2, 2) == 2 {
		f.Add(fmt.Appendf(nil, steamy, "pva")) // which takes up the most, and takes long
	}
	f.Fuzz(func(t *testing.T, text []byte) { judged(t, text) })
}

// As FuzzRun, over designs that always read: each byte is a place between the
// ends of its range.
func FuzzDesign(f *testing.F) {
	f.Add([]byte("a hot drum, a guide and a wet room"))
	f.Add(bytes.Repeat([]byte{0}, 14))
	f.Add(bytes.Repeat([]byte{255}, 14))
	f.Fuzz(func(t *testing.T, genes []byte) {
		if len(genes) < genesOfDesign {
			t.Skip()
		}
		judged(t, designed(genes))
	})
}

// TestRandomDesigns is the same over bytes from dice, which are quicker to judge than those that are
// fuzzed: two of them, or up to twenty thousand.
func TestRandomDesigns(t *testing.T) {
	t.Parallel()
	count := samples.Of(1, 12, 20_000)
	dice := rand.New(rand.NewPCG(5, 6))
	genes := make([]byte, genesOfDesign)
	defer func() {
		if t.Failed() {
			t.Logf("genes %q", genes)
		}
	}()
	for range count {
		for i := range genes {
			genes[i] = byte(dice.UintN(256))
		}
		judged(t, designed(genes))
	}
}

const genesOfDesign = 14

// designed is a scenario each number of which lies between the ends of its range by a byte.
func designed(genes []byte) []byte {
	linear := func(i int, low, high float64) float64 { return low + (high-low)*float64(genes[i])/255 }
	ratio := func(i int, low, high float64) float64 { return low * math.Pow(high/low, float64(genes[i])/255) }
	names := materials.Names()
	flow := ""
	if genes[10] > 127 {
		flow = fmt.Sprintf("flow = %q, direction = %q, ", fmt.Sprintf("%.4g L/min", ratio(11, 1e-3, 100)), []string{"with", "against", "mixed"}[genes[10]%3])
	}
	return fmt.Appendf(nil, design, names[int(genes[0])%len(names)], ratio(1, 0.2, 5), linear(2, 0, 12),
		ratio(3, 0.1, 1e4), linear(4, 0, 60), linear(5, 0, 100), ratio(6, 1e-3, 50), ratio(7, 1e-3, 100),
		linear(8, 0, 290), flow, linear(9, -60, 0), ratio(12, 1e-3, 10), linear(13, 0, 150))
}

const design = `
[strand]
material = %q
diameter = "%.4g mm"
moisture = "%.4g %%"
[[strand.storage]]
duration = "%.4g h"
temperature = "%.4g °C"
humidity = "%.4g %%"
[feed]
speed = "%.4g mm/s"
[[zone]]
name = "hot"
length = "%.4g m"
temperature = "%.4g °C"
air = { %s dew_point = "%.4g °C" }
[[zone]]
name = "guide"
length = "%.4g m"
temperature = "%.4g °C"
[room]
humidity = "20 %%"
[nozzle]
temperature = "400 °C"
[strand.properties]
melting = "450 °C" # so that no air melts it
`

// judged runs a scenario text to its end and judges what came out.
func judged(t *testing.T, text []byte) {
	s, err := scenarios.Read("fuzz.toml", text)
	if err != nil {
		require.NotEmpty(t, err.Error())
		return
	}
	if laborious(s) {
		t.Skip("would take too many steps")
	}
	a, err := assess(context.Background(), s)
	if err != nil {
		require.NotEmpty(t, err.Error())
		require.NotContains(t, err.Error(), "NaN")
		return
	}
	inSpan(t, s, a.Assessment)
	var out bytes.Buffer
	require.NoError(t, table.WriteText(&out, a))
	if softens(s, a.Assessment) {
		require.NotRegexp(t, "Verdict +DRY", out.String())
		require.NotContains(t, out.String(), "Nothing holds")
		require.Contains(t, out.String(), "Survives       softens: ")
	}
	out.Reset()
	require.NoError(t, table.WriteJSON(&out, a))
	if softens(s, a.Assessment) {
		require.Regexp(t, `"verdict": "(softens|wet)"`, out.String())
		require.Contains(t, out.String(), `"survives": "softens"`)
	}
}

// softens tells by itself whether the strand comes above what it bears.
func softens(s *scenarios.Scenario, a *diffusion.Assessment) bool {
	p := &s.Model.Material
	hottest, most := s.Model.StartTemperature, p.Softening.High
	if p.Structure == materials.Semicrystalline {
		most = min(most, p.Melting.High)
	}
	for _, z := range s.Model.Storage {
		hottest = max(hottest, z.Air.Temperature)
	}
	for _, z := range a.Zones {
		hottest = max(hottest, z.Exit.Temperature)
	}
	return hottest > most+0.01
}

// A strand that is wetted in steam, through a chamber of little air and on.
const steamy = `
[strand]
material = %q
moisture = "0 %%"
[[strand.storage]]
duration = "30 d"
temperature = "40 °C"
humidity = "95 %%"
[feed]
speed = "0.01 mm/s"
[[zone]]
name = "a"
length = "0.5 m"
temperature = "150 °C"
air = { humidity = "15 %%", flow = "0.1 L/min", direction = "with" }
[[zone]]
name = "b"
length = "1 mm"
temperature = "-10 °C"
air = { humidity = "100 %%" }
[numerics]
resolution = 2.4
tolerance = 0.1
`

// laborious tells whether a scenario asks for more work than one execution of the
// fuzzing may take: steps grow with the zones and as the cube root of the
// tolerance falls, nodes with the resolution.
func laborious(s *scenarios.Scenario) bool {
	zones := len(s.Model.Path) + len(s.Model.Storage)
	for _, z := range s.Model.Path {
		if z.Air.Limited() {
			zones += 5 // sought over several marches
		}
	}
	const most = 2500
	return float64(zones)*s.Settings.Resolution/math.Cbrt(s.Settings.Tolerance) > most
}

// inSpan requires every content that is shown to lie between the driest and the
// wettest of the start and what the airs allow.
func inSpan(t *testing.T, s *scenarios.Scenario, a *diffusion.Assessment) {
	m := &s.Design
	low, high := m.Start, m.Start
	for _, zones := range [][]diffusion.Zone{m.Storage, m.Path} {
		for i := range zones {
			// The strand is nowhere colder or hotter than the airs and the start.
			for _, other := range append(append([]diffusion.Zone{{Air: diffusion.Air{Temperature: m.StartTemperature}}}, m.Storage...), m.Path...) {
				c := equilibrium(m, zones[i].Air.VapourPressure, other.Air.Temperature)
				low, high = math.Min(low, c), math.Max(high, c)
				if zones[i].Air.Limited() { // takes up water or gives it off
					low, high = math.Min(low, 0), math.Max(high, equilibrium(m, m.Pressure, other.Air.Temperature))
				}
			}
		}
	}
	// The error of a step is controlled relative to the content.
	slack := 20*s.Settings.Tolerance*high + 1e-9
	contents := append([]float64{a.Nozzle.Mean, a.Nozzle.Centre, a.Nozzle.Skin}, a.Profile...)
	for _, z := range a.Zones {
		contents = append(contents, z.Exit.Mean, z.Exit.Skin)
		require.True(t, z.Exit.Temperature > 200 && z.Exit.Temperature < 600, "temperature %v", z.Exit.Temperature)
	}
	const wider = 10 // than the isotherm at its median: none of the library's is in more doubt
	require.True(t, a.Low >= 0 && a.Low <= a.High && a.High <= wider*high+slack, "odds %v to %v", a.Low, a.High)
	require.True(t, a.Probability >= 0 && a.Probability <= 1)
	for _, c := range contents {
		require.True(t, c >= low-slack && c <= high+slack, "content %v, not in %v to %v", c, low, high)
	}
	require.True(t, a.NumericalError >= 0 && a.NumericalError < 1+high, "numerical error %v", a.NumericalError)
	require.InDelta(t, 0, a.Balance, 1e-6)
}

// equilibrium is the content that a strand of a temperature would reach at a
// vapour pressure; above saturation that of saturated air.
func equilibrium(m *diffusion.Design, vapour, temperature float64) float64 {
	return m.Material.Sorption.Content(min(1, vapour/humidair.SaturationPressure(temperature)), temperature)
}
