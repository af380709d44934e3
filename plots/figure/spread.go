package figure

import (
	"math"

	"strandry/diffusion"
	"strandry/scenarios/sweep"
)

// ratios are the 10 and 90 % points of the content over the limit at each place of a cut; nil where they are not known.
func (c *cut) ratios() [][]diffusion.Between {
	low := c.spread(func(r *sweep.Row) float64 { return r.Ratio.Low * r.Limit })
	high := c.spread(func(r *sweep.Row) float64 { return r.Ratio.High * r.Limit })
	if low == nil || high == nil {
		return nil
	}
	out := make([][]diffusion.Between, len(low))
	for j, row := range low {
		for i := range row {
			out[j] = append(out[j], diffusion.Between{Low: row[i] / c.limit, High: high[j][i] / c.limit})
		}
	}
	return out
}

// spread is an end of the doubt [kg/kg dry] at each place of a cut. It is known at some rows, which make a grid; between them its ratio to the content
// at the medians, which changes but slowly, is smooth.
func (c *cut) spread(end func(r *sweep.Row) float64) [][]float64 {
	columns, lines := c.known()
	if len(columns) < 2 || len(c.drawn) > 1 && len(lines) < 2 {
		return nil
	}
	factors := field{u: c.places(0, columns), v: c.places(1, lines)}
	for _, j := range lines {
		var row []float64
		for _, i := range columns {
			r := c.row(i, j)
			if r.Ratio.High <= 0 {
				return nil
			}
			row = append(row, math.Log(end(r)/floored(r)))
		}
		factors.z = append(factors.z, row)
	}
	fine := factors.over(c.places(0, nil), c.places(1, nil))
	for j, row := range fine.z {
		for i := range row {
			if r := c.row(i, j); r.Ratio.High > 0 {
				row[i] = end(r)
			} else {
				row[i] = floored(r) * math.Exp(row[i])
			}
		}
	}
	return fine.z
}

// floored is the content of a row, or a millionth of its limit where it is less.
func floored(r *sweep.Row) float64 { return math.Max(r.Mean, 1e-6*r.Limit) }

// known are the columns and the lines of the cut in which a row has odds.
func (c *cut) known() (columns, lines []int) {
	count := 1
	if len(c.drawn) > 1 {
		count = len(c.order[1])
	}
	seen := make([]bool, len(c.order[0]))
	for j := range count {
		any := false
		for i := range seen {
			if c.row(i, j).Ratio.High > 0 {
				seen[i], any = true, true
			}
		}
		if any {
			lines = append(lines, j)
		}
	}
	for i, yes := range seen {
		if yes {
			columns = append(columns, i)
		}
	}
	return columns, lines
}

// places are those of some values of a drawn axis, by their logarithms where it steps by ratio; of all for nil. An axis that is not drawn has one.
func (c *cut) places(n int, some []int) []float64 {
	if n >= len(c.drawn) {
		return []float64{0}
	}
	var values []float64
	for _, place := range c.order[n] {
		values = append(values, c.grid.Axes[c.drawn[n]].Values[place])
	}
	log, out := evenly(values), []float64{}
	for i, v := range values {
		if log {
			v = math.Log(v)
		}
		if some == nil || len(out) < len(some) && some[len(out)] == i {
			out = append(out, v)
		}
	}
	return out
}
