package sweep

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// A row whose odds are nearer to nine or one in ten than the numerical error of the grid makes of them is unsure; the error is relative, or
// what the absolute one is of the row's content, whichever is less.
func TestRowsCountTheNumericalError(t *testing.T) {
	for _, r := range []struct {
		probability, mean float64
		want              diffusion.Verdict
	}{
		{0.905, 0.01, diffusion.Unsure}, {0.92, 0.01, diffusion.Dry}, {0.095, 0.01, diffusion.Unsure}, {0.08, 0.01, diffusion.Wet},
		{0.905, 0.1, diffusion.Dry}, {0.095, 0.1, diffusion.Wet}, // an absolute error of 1e-4 is a thousandth of 0.1
	} {
		g := Grid{Rows: []Row{{Mean: r.mean, Probability: r.probability, Density: 1}}, RelativeError: 0.01, NumericalError: 1e-4}
		g.judge()
		require.Equal(t, r.want.String(), g.Rows[0].Verdict.String(), "%v", r)
	}
	softens := diffusion.Excess{Bear: 2, Yield: 1}
	g := Grid{Rows: []Row{{Mean: 1, Probability: 0.95, Excess: softens}, {Mean: 1, Probability: 0.95, Failed: "no"}}}
	g.judge()
	require.Equal(t, diffusion.TooHot, g.Rows[0].Verdict)
	require.Equal(t, diffusion.Unsure, g.Rows[1].Verdict, "without an answer there is none to judge")
}

// The rows of a sweep are judged with the error that its probes find.
func TestProbesFindTheError(t *testing.T) {
	g := grid(t, Sweep{Scenario: rough(t, demo(t, "clear-cover", "zone.oven.length=1 m, 2 m")), Workers: 1})
	require.Positive(t, g.RelativeError)
	require.Positive(t, g.NumericalError)
}
