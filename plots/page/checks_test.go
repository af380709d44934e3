package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/plots/table"
	"strandry/scenarios/studies/checked"
)

// Each check is a group of the table with a row for each quantity, and one sentence or more; one without a prediction has the sentence alone.
func TestChecksOnThePage(t *testing.T) {
	e := func(value float64) checked.Estimate {
		return checked.Estimate{Value: value, Between: diffusion.Between{Low: value / 2, High: 2 * value}}
	}
	l := &Log{Answer: &table.Answer{Checks: []checked.Check{
		{Title: "first", Speed: 2e-3, Stepped: true, Comparisons: []checked.Comparison{{Of: checked.AtExit, Measured: e(0.002), Predicted: e(0.001), Chance: 0.4}}, Diffusivity: checked.Factor{Value: 0.5}},
		{Title: "second", Stepped: true, Reason: "no air"},
	}}}
	text := string(markdown(t, &document{Sections: []section{{"checks", "Checked", l.checks()}}}))
	for _, want := range []string{"first, at the nozzle, fed at 2 mm/s", "| held after | 0.200 | 0.10 to 0.40 | 0.100 | 0.050 to 0.20 | 40 |", "Measured, %", "- first: What it held after agrees", "- second: There is no prediction: no air."} {
		require.Contains(t, text, want)
	}
	l.Answer.Checks = l.Answer.Checks[1:]
	require.NotContains(t, string(markdown(t, &document{Sections: []section{{"checks", "Checked", l.checks()}}})), "Measured")
}
