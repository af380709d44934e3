package figure

import (
	"math"

	"strandry/diffusion"
	"strandry/materials/text/quantity"
	"strandry/plots/field"
	"strandry/plots/words"
)

// threshold is the X that just meets the limit, in words: at the medians, and between what is enough one time and nine times in ten. It is looked for in the row of
// the scenario's own design, or else in the middle one; ok tells that the limit is crossed just once there.
func (f Map) threshold() (y float64, text string, ok bool) {
	y, content := f.row(f.Content)
	x, up, ok := f.crossing(content, f.Limit)
	if !ok {
		return y, "", false
	}
	if f.Met > 0 {
		x = f.Met
	}
	word := "at most"
	if up {
		word = "at least"
	}
	text = f.X.Name + " of " + word + " " + f.X.bound(x, up)
	if f.Ratio != nil {
		text += " (" + f.doubtOf(up) + ", eight times in ten)"
	}
	return y, text, true
}

// doubtOf is from where to where X may lie that just meets the limit, the lesser value first.
func (f Map) doubtOf(up bool) string {
	end := func(of func(b diffusion.Between) float64, outward bool) string {
		values := make([][]float64, len(f.Ratio))
		for j, row := range f.Ratio {
			for _, b := range row {
				values[j] = append(values[j], of(b))
			}
		}
		_, row := f.row(values)
		if x, _, ok := f.crossing(row, 1); ok {
			return words.Digits(quantity.Outward(x, 2, outward), 2)
		}
		first, last := f.X.Values[0], f.X.Values[len(f.X.Values)-1]
		if (row[0] > 1) == up { // nowhere enough going up, or everywhere going down: beyond the last
			return "more than " + words.Digits(last, 2)
		}
		return "less than " + words.Digits(first, 2)
	}
	seldom := end(func(b diffusion.Between) float64 { return b.Low }, up)
	mostly := end(func(b diffusion.Between) float64 { return b.High }, up)
	if f.Reliable > 0 {
		mostly = words.Digits(quantity.Outward(f.Reliable, 3, up), 3)
	}
	unit := ""
	if f.X.Unit != "" {
		unit = words.NBSP + printed(f.X.Unit)
	}
	if up {
		return seldom + " to " + mostly + unit
	}
	return mostly + " to " + seldom + unit
}

// crossing is the one x at which values along it cross a level; up tells that they are below beyond it.
func (f Map) crossing(values []float64, level float64) (x float64, up, ok bool) {
	s, count := f.X.scale(), 0
	for i := 1; i < len(values); i++ {
		if (values[i] <= level) == (values[i-1] <= level) {
			continue
		}
		count++
		up = values[i] <= level
		a, b := s.Norm(f.X.Values[i-1]), s.Norm(f.X.Values[i])
		x = s.Value(a + (b-a)*part(values[i-1], values[i], level))
	}
	return x, up, count == 1
}

// row is values along x at the scenario's own y, or at the middle one.
func (f Map) row(all [][]float64) (y float64, values []float64) {
	s := f.Y.scale()
	if f.Here == nil || !s.Holds(f.Here.Y) {
		middle := len(f.Y.Values) / 2
		return f.Y.Values[middle], all[middle]
	}
	j := field.Cell(f.Y.Values, f.Here.Y)
	a, b := s.Norm(f.Y.Values[j]), s.Norm(f.Y.Values[j+1])
	at := (s.Norm(f.Here.Y) - a) / (b - a)
	for i, low := range all[j] {
		high := all[j+1][i]
		if low > 0 && high > 0 {
			values = append(values, low*math.Pow(high/low, at))
		} else {
			values = append(values, low+(high-low)*at)
		}
	}
	return f.Here.Y, values
}
