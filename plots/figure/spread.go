package figure

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"strandry/diffusion"
	"strandry/plots/field"
	"strandry/scenarios/studies/sweep"
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
// at the medians, which changes but slowly, is smooth, most of all along the limit.
func (c *cut) spread(end func(r *sweep.Row) float64) [][]float64 {
	columns, lines := c.known()
	if len(columns) < 2 || len(c.drawn) > 1 && len(lines) < 2 {
		return nil
	}
	factors := field.Field{U: c.places(0, columns), V: c.places(1, lines)}
	for _, j := range lines {
		var row []float64
		for _, i := range columns {
			r := c.row(i, j)
			if r.Ratio.High <= 0 {
				return nil
			}
			row = append(row, math.Log(end(r)/floored(r)))
		}
		factors.Z = append(factors.Z, row)
	}
	fine := factors.Slanting(c.places(0, nil), c.places(1, nil), c.slant())
	for j, row := range fine.Z {
		for i := range row {
			if r := c.row(i, j); r.Ratio.High > 0 {
				row[i] = end(r)
			} else {
				row[i] = floored(r) * math.Exp(row[i])
			}
		}
	}
	return fine.Z
}

// floored is the content of a row, or a millionth of its limit where it is less.
func floored(r *sweep.Row) float64 { return math.Max(r.Mean, 1e-6*r.Limit) }

// known are the columns and the lines of the cut in which a row has odds.
func (c *cut) known() (columns, lines []int) {
	seen := make([]bool, len(c.order[0]))
	for j := range c.lines() {
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

// slant is by how much the limit at the medians moves along the first axis for a step of one along the second, at the best straight line; zero where it
// does not cross the cut.
func (c *cut) slant() float64 {
	if len(c.drawn) < 2 {
		return 0
	}
	u, v := c.places(0, nil), c.places(1, nil)
	var at, crossed []float64
	for j := range v {
		count, place := 0, 0.0
		for i := 1; i < len(u); i++ {
			a, b := c.row(i-1, j), c.row(i, j)
			if (a.Mean <= c.limit) != (b.Mean <= c.limit) {
				count++
				place = u[i-1] + (u[i]-u[i-1])*part(a.Mean, b.Mean, c.limit)
			}
		}
		if count == 1 {
			at, crossed = append(at, v[j]), append(crossed, place)
		}
	}
	if len(at) < 2 {
		return 0
	}
	_, slope := stat.LinearRegression(at, crossed, nil, false)
	return slope
}
