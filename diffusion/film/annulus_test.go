package film_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
)

func TestAnnulusInner(t *testing.T) {
	// Kays & Crawford, printed in Incropera & DeWitt, Table 8.2; two decimals.
	for ratio, nu := range map[float64]float64{0.05: 17.46, 0.10: 11.56, 0.25: 7.37, 0.50: 5.74, 1: 4.86} {
		require.InDelta(t, nu, film.AnnulusInner(ratio), 0.005, "ratio %g", ratio)
	}
	for _, inner := range []func(float64) float64{film.AnnulusInner, film.DraggedInner} {
		previous := math.Inf(1)
		for ratio := 0.001; ratio <= 1; ratio += 0.0005 {
			nu := inner(ratio)
			require.Less(t, nu, previous, "ratio %g", ratio)
			previous = nu
		}
	}
}

func TestAnnulusBetweenTheRowsOfTheTable(t *testing.T) {
	for _, row := range annulusRows(t) {
		require.InEpsilon(t, row[1], film.AnnulusInner(row[0]), 1e-6, "ratio %g", row[0])
		require.InEpsilon(t, row[2], film.DraggedInner(row[0]), 1e-6, "ratio %g", row[0])
	}
}

func TestDraggedInnerBetweenPlates(t *testing.T) {
	// Plates, one of which moves: the slowest mode is √z J(-1/3)(⅔ √(2μ) z^1.5), so that
	// Nu = 2μ = (1.5 j)², j = 1.86635 the first zero of J(-1/3); Abramowitz & Stegun,
	// ch. 9 and 10.4 (zero from memory).
	require.InEpsilon(t, math.Pow(1.5*1.86635, 2), film.DraggedInner(1), 1e-5)
}

// annulusRows are ratio, Nusselt number under pressure and dragged, computed
// independently; the file tells how.
func annulusRows(t *testing.T) [][3]float64 {
	t.Helper()
	file, err := os.Open("../../testdata/film/annulus.csv")
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	records, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 20)
	var rows [][3]float64
	for _, record := range records[1:] {
		var row [3]float64
		for i := range row {
			row[i], err = strconv.ParseFloat(record[i], 64)
			require.NoError(t, err)
		}
		rows = append(rows, row)
	}
	return rows
}
