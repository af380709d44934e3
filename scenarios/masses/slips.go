package masses

import (
	"math"
	"slices"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// slips reports masses that are ten, a hundred or a thousand times what they should be, or such a part of it, beside
// the median of all: no strand takes up or gives off that much.
func (r *reader) slips() {
	rows := r.table.Rows
	if len(rows) < MinRows {
		return
	}
	all := make([]float64, len(rows))
	for i, row := range rows {
		all[i] = row.Mass
	}
	slices.Sort(all)
	median := all[len(all)/2]
	for _, row := range rows {
		decades := math.Log10(row.Mass / median)
		whole := math.Round(decades)
		const near = 0.2 // of a decade
		if whole == 0 || math.Abs(whole) > 3 || math.Abs(decades-whole) > near {
			continue
		}
		in := func(kg float64) string {
			x, _ := quantity.Mass().In(kg, r.columns.massUnit)
			return quantity.Number(x, 9)
		}
		r.report(strict.Fault{Line: row.Line, Key: r.columns.names[r.columns.mass], Given: quoted(in(row.Mass)),
			Problem: times(int(whole)) + " its neighbours", Allowed: "masses of one strand", Nearest: in(row.Mass / math.Pow10(int(whole)))})
	}
}

// times tells a power of ten, one of 1 to 3 or of -1 to -3.
func times(decades int) string {
	if decades > 0 {
		return [...]string{"ten times", "a hundred times", "a thousand times"}[decades-1]
	}
	return [...]string{"a tenth of", "a hundredth of", "a thousandth of"}[-decades-1]
}
