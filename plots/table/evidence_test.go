package table

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials"
	"strandry/scenarios/validation/measured"
)

// evidence is made by hand: no figure in it comes from the library.
func evidence() *Evidence {
	figure := func(f measured.Figure, p measured.Prediction, v measured.Verdict) measured.Comparison {
		return measured.Comparison{Figure: f, Predicted: p, Verdict: v}
	}
	return &Evidence{Version: "9.9.9", Evidence: &measured.Evidence{
		Comparisons: []measured.Comparison{
			figure(measured.Figure{Material: "alder", Quantity: measured.Equilibrium, At: measured.Conditions{Temperature: 296.15, Humidity: 0.5}, Low: 0.01, High: 0.02,
				Kind: materials.PublishedWeak, Read: "text", Source: "A. Author (1901)", Remark: "as grown"},
				measured.Prediction{Value: 0.015, Low: 0.0125, High: 0.03}, measured.Partly),
			figure(measured.Figure{Material: "alder", Quantity: measured.Uptake, At: measured.Conditions{Temperature: 296.15, Humidity: 1, Thickness: 0.002, Time: 7200}, Low: 0.004, High: 0.004,
				Read: "abstract", Source: "B. Author (1902)"},
				measured.Prediction{Value: 0.001, Low: 0.0005, High: 0.002, Extrapolated: true}, measured.Outside),
			figure(measured.Figure{Material: "birch", Quantity: measured.ActivationEnergy, At: measured.Conditions{Temperature: 293.15, To: 333.15}, Low: 40e3, High: 40e3,
				Read: "abstract", Source: "C. Author (1903)", Reckoned: "from 9.56 kcal/mol", Anchor: "it is this figure"},
				measured.Prediction{Value: 40e3, Low: 35e3, High: 45e3}, measured.Inside),
			figure(measured.Figure{Material: "birch", Quantity: measured.Diffusivity, At: measured.Conditions{Temperature: 293.15}, Low: 1e-12, High: 1e-12,
				Read: "abstract", Source: "C. Author (1903)"},
				measured.Prediction{Value: 2e-12, Low: 0.8e-12, High: 5e-12}, measured.Inside),
			figure(measured.Figure{Material: "birch", Quantity: measured.EquilibriumRatio, At: measured.Conditions{Temperature: 293.15, To: 333.15, Humidity: 1}, Low: 1, High: 1,
				Read: "abstract", Source: "C. Author (1903)"},
				measured.Prediction{Value: 1.1, Low: 0.9, High: 1.3}, measured.Inside),
		},
		Unusable:    []measured.Unusable{{Materials: []string{"cedar"}, What: "a curve", Why: "not read", Source: "D. Author (1904)"}, {What: "another", Why: "not read", Source: "E. Author (1905)"}},
		Independent: measured.Tally{Inside: 2, Partly: 1, Outside: 1},
		Anchors:     measured.Tally{Inside: 1},
		Unmeasured:  []string{"cedar"}, DiffusivityUntested: []string{"alder", "cedar"},
	}}
}

func TestEvidenceText(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteText(&b, evidence()))
	golden(t, "evidence.txt", b.String())
	for _, line := range strings.Split(b.String(), "\n") {
		require.LessOrEqual(t, len([]rune(line)), width)
	}
}

func TestEvidenceJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, evidence()))
	golden(t, "evidence.json", b.String())
}

func TestEvidenceWithoutANumberIsAnError(t *testing.T) {
	e := evidence()
	e.Evidence.Comparisons[0].Predicted.Value = math.NaN()
	require.Error(t, WriteJSON(&bytes.Buffer{}, e))
}
