package scenarios_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// The odds against 4,096 draws of another program in each of twenty scenarios: its own reading of the laws that package materials documents, points of
// Sobol's sequence by scipy 1.10, a material file for each draw, and a sweep over the files. How it was done stands in the head of the table. The
// probability lies within 0.01, the 10 and 90 % points within 3 %.
func TestOddsAgainstDrawsOfAnotherProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	folder := filepath.Join("..", "testdata", "odds")
	file, err := os.Open(filepath.Join(folder, "brute.csv"))
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 21)
	w := diffusion.NewMarch()
	for _, row := range rows[1:] {
		s, err := scenarios.Load(filepath.Join(folder, row[0]))
		require.NoError(t, err)
		o, err := w.Odds(&s.Design, s.Settings)
		require.NoError(t, err)
		var want [3]float64
		for i := range want {
			want[i], err = strconv.ParseFloat(row[1+i], 64)
			require.NoError(t, err)
		}
		t.Logf("fit %.3f %s: %.3f, by draws %.3f; %.4g to %.4g, by draws %.4g to %.4g", o.Fit, row[0], o.Probability, want[0], o.Low, o.High, want[1], want[2])
		require.InDelta(t, want[0], o.Probability, 0.01, row[0])
		require.InEpsilon(t, want[1], o.Low, 0.03, row[0])
		require.InEpsilon(t, want[2], o.High, 0.03, row[0])
	}
}
