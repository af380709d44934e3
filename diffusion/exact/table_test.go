package exact_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// readTable returns the numbers of a reference table under testdata/exact,
// one map from column name to value per row. Lines that start with # tell the
// origin.
func readTable(t *testing.T, name string) []map[string]float64 {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "exact", name))
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", name)
	rows := make([]map[string]float64, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := make(map[string]float64, len(line))
		for i, text := range line {
			value, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			row[lines[0][i]] = value
		}
		rows = append(rows, row)
	}
	return rows
}

// requireDelta is require.InDelta, which takes two NaN for equal, without that.
func requireDelta(t *testing.T, want, got, delta float64, message ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(delta), message...)
	require.InDelta(t, want, got, delta, message...)
}

// requireRelative is require.InEpsilon, which takes two NaN for equal, without
// that.
func requireRelative(t *testing.T, want, got, epsilon float64, message ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(epsilon), message...)
	require.InEpsilon(t, want, got, epsilon, message...)
}
