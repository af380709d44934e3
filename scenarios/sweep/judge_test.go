package sweep

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// A limit that lies within the numerical error of the driest content of a row leaves it unsure, also where the row is known
// from before; one that lies beyond it does not.
func TestRowsCountTheNumericalError(t *testing.T) {
	s := rough(t, demo(t, "clear-cover", "zone.oven.length=1 m, 2 m"))
	first := grid(t, Sweep{Scenario: s, Workers: 1})
	require.Positive(t, first.RelativeError)
	require.Positive(t, first.NumericalError)
	row := first.Rows[0]
	off := min(first.RelativeError*row.Low, first.NumericalError)
	for share, want := range map[float64]diffusion.Verdict{-0.3: diffusion.Unsure, -2: diffusion.Wet} {
		limit := row.Low + share*off
		varied, err := s.Varied("zone.oven.length=1 m, 2 m", fmt.Sprintf("strand.limit=%.14g %%", 100*limit))
		require.NoError(t, err)
		known := map[int]Row{}
		work := Sweep{Scenario: varied, Workers: 1, Done: func(i int, r Row) error { known[i] = r; return nil }}
		g := grid(t, work)
		require.InDelta(t, row.Low, g.Rows[0].Low, 0)
		require.Equal(t, want, g.Rows[0].Verdict, "%g", share)
		require.Equal(t, g, grid(t, Sweep{Scenario: varied, Workers: 1, Known: known}))
	}
}
