package diffusion_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// table reads a reference table under testdata; lines that start with # tell its origin. A column
// that is not a number is left out.
func table(t testing.TB, folder, name string) (rows []map[string]float64) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", folder, name))
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "%s holds no rows", name)
	for _, line := range lines[1:] {
		row := map[string]float64{}
		for i, text := range line {
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				row[lines[0][i]] = v
			}
		}
		rows = append(rows, row)
	}
	return rows
}
