package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios/studies/required"
)

// What was found for the scenario's own zone stands in the place of what the table has, at its own temperature and speed alone.
func TestOwnLength(t *testing.T) {
	known := required.Table{
		Speeds: []float64{1e-3, 2e-3}, Own: 1, Temperatures: []float64{340, 353.15}, Lengths: [][]float64{{5, 4}, {10, 8}},
		NineInTen: []float64{30, 20}, OneInTen: []float64{3, 2}, Zone: "drum",
	}
	f := Required{Table: known, Material: "PA6", HeatLimit: 353.15, Longest: 20, Limit: 0.003}
	require.Contains(t, f.WithOwnLength(353.15, 8.14, 21.3).own(), "8.14\u00a0m (2 to 21.3, eight times in ten)")
	require.Equal(t, [][]float64{{5, 4}, {10, 8}}, f.Lengths)
	require.Equal(t, f, f.WithOwnLength(346, 8.14, 21.3))
	f.NineInTen = nil
	require.Equal(t, f, f.WithOwnLength(353.15, 8.14, 21.3))
}
