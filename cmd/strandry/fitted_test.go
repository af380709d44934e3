package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/materials"
)

// weighedSpool writes a scenario and the material file of a strand that was weighed at 80 °C, whose beta and diffusivity were found together.
func weighedSpool(t *testing.T, c materials.Correlation) (scenario, material string) {
	t.Helper()
	text, err := materials.FittedFile(materials.Fit{
		Base: "pa6", Name: "my spool", Reference: 348.15, Diffusivity: materials.Value{Value: 1.1e-12, Low: 0.7e-12, High: 1.6e-12},
		Activation: &materials.Value{Value: 62e3, Low: 55e3, High: 70e3}, Beta: &materials.Value{Value: 25, Low: 5, High: 45}, Correlation: c,
		Temperature: materials.Range{Min: 333.15, Max: 353.15}, Source: "least squares", Data: []materials.DataFile{{Name: "weights.csv", SHA256: strings.Repeat("0a", 32)}},
	}, nil)
	require.NoError(t, err)
	folder := t.TempDir()
	scenario, material = filepath.Join(folder, "rig.toml"), filepath.Join(folder, "spool.toml")
	require.NoError(t, os.WriteFile(material, []byte(text), 0o600))
	require.NoError(t, os.WriteFile(scenario, []byte(`[strand]
material = "spool.toml"
moisture = "2.5 %"
limit = "1.2 %"
[feed]
speed = "2 mm/s"
[[zone]]
name = "oven"
length = "18 m"
temperature = "75 °C"
air = { dew_point = "-40 °C" }
h = "30 W/m2/K"
k_m = "3 cm/s"
`+coarse()), 0o600))
	return scenario, material
}

// coarse is numerics that keep a test short by default; with more samples there are none of its own.
func coarse() string {
	if samples.Of(1, 2, 2) == 1 {
		return "[numerics]\nresolution = 2.4\ntolerance = 0.01\n"
	}
	return ""
}

// oneLine takes the breaks out of a text.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// A strand that was weighed is shown with its data, its correlation and its range; its verdict says nothing of memory, and knows where the weighings end.
func TestFittedMaterial(t *testing.T) {
	scenario, material := weighedSpool(t, materials.Correlation{Activation: -0.31, Beta: -0.92, ActivationBeta: 0.1})
	shown := oneLine(mustAnswer(t, "materials", material))
	for _, want := range []string{"[fitted to weighings of the strand]", "least squares; data: weights.csv (SHA-256 " + strings.Repeat("0a", 32) + ")", "(1.57 down, 1.45 up)",
		"diffusivity with activation energy -0.31, diffusivity with beta -0.92, activation energy with beta 0.1", "Data hold from 60 °C to 80 °C (diffusivity)", "on one scale"} {
		require.Contains(t, shown, want)
	}
	d := decoded(t, "materials", material, "--json")
	require.Equal(t, map[string]any{"activation": -0.31, "beta": -0.92, "activation_beta": 0.1}, d["correlation"])
	require.NotContains(t, decoded(t, "materials", "pa6", "--json"), "correlation")

	full := oneLine(mustAnswer(t, "run", scenario, "--full"))
	require.NotContains(t, full, "take the interval, not the number")
	require.NotContains(t, full, "extrapolated")
	require.Contains(t, full, "if the diffusivity alone were in doubt, with what it tells of its growth")
	require.NotContains(t, oneLine(mustAnswer(t, "run", scenario)), "take the eight in ten")
	require.Contains(t, oneLine(mustAnswer(t, "run", scenario, "--full", "--set", "zone.oven.temperature=85 °C")), "extrapolated: its data end at 80 °C")
	require.Contains(t, oneLine(mustAnswer(t, "doubt", scenario)), "the activation energy stands for what the diffusivity does not tell of it")
}

// The correlation of diffusivity and beta makes the interval much narrower than their margins do; whoever restates one of the two is told that it is gone.
func TestCorrelationInTheOdds(t *testing.T) {
	c := materials.Correlation{Beta: -0.97}
	scenario, _ := weighedSpool(t, c)
	apart, _ := weighedSpool(t, materials.Correlation{})
	width := func(file string, more ...string) float64 {
		m, _ := decoded(t, append([]string{"run", file, "--json"}, more...)...)["moisture"].(map[string]any)
		low, _ := m["low"].(float64)
		high, _ := m["high"].(float64)
		require.Positive(t, low)
		return high/low - 1
	}
	require.Greater(t, width(apart), 1.4*width(scenario))
	const gone = "the correlation does not hold any more"
	require.NotContains(t, oneLine(mustAnswer(t, "run", scenario, "--full")), gone)
	require.NotContains(t, oneLine(mustAnswer(t, "run", scenario, "--full", "--set", "strand.properties.density=1100 kg/m3")), gone)
	require.Contains(t, oneLine(mustAnswer(t, "run", scenario, "--full", "--set", "strand.properties.diffusivity.beta=25")), gone)
	text, err := os.ReadFile(scenario)
	require.NoError(t, err)
	for _, key := range []string{"value", "beta"} {
		other := filepath.Join(filepath.Dir(scenario), key+".toml")
		doubt := map[string]string{"value": "low = \"0.7e-12 m2/s\"\nhigh = \"1.6e-12 m2/s\"\n", "beta": "low = 5\nhigh = 45\n"}[key]
		require.NoError(t, os.WriteFile(other, append(text, "[[uncertain]]\nkey = \"strand.properties.diffusivity."+key+"\"\n"+doubt...), 0o600))
		require.Contains(t, oneLine(mustAnswer(t, "run", other, "--full")), gone)
		require.InEpsilon(t, width(apart), width(other), 1e-3)
	}
}
