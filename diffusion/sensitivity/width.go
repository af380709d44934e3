package sensitivity

import (
	"slices"

	"gonum.org/v1/gonum/stat"

	"strandry/diffusion/surrogate"
)

// Range is where a function lies eight times in ten: its 10 and 90 % points.
type Range struct{ Low, High float64 }

// Width is that of the range.
func (r Range) Width() float64 { return r.High - r.Low }

// Spread is the range of a function of which nothing is known. Of a function of degree one its width and its middle were within 1.5 % of the exact width.
func Spread(f Function) Range {
	var r Range
	ranges(f, nil, func(one Range) { r = one })
	return r
}

// Left is the share of the width of a function that is left, on average, when some of the unknowns are known.
func Left(f Function, known ...int) float64 {
	whole := Spread(f).Width()
	if len(known) == f.Unknowns || !(whole > 0) {
		return 0
	}
	sum, count := 0.0, 0.0
	ranges(f, known, func(one Range) {
		sum += one.Width()
		count++
	})
	return sum / count / whole
}

// ranges are those of the function at places where the known unknowns may be.
func ranges(f Function, known []int, use func(Range)) {
	const places, inner, seed = 32, 2048, 3
	outer := surrogate.Draws(places, len(known), seed)
	if len(known) == 0 {
		outer = outer[:1]
	}
	others := surrogate.Draws(inner, f.Unknowns, seed+1)
	values, z := make([]float64, inner), make([]float64, f.Unknowns)
	for _, place := range outer {
		for k, row := range others {
			copy(z, row)
			for j, i := range known {
				z[i] = place[j]
			}
			values[k] = f.At(z)
		}
		slices.Sort(values)
		use(Range{stat.Quantile(0.1, stat.LinInterp, values, nil), stat.Quantile(0.9, stat.LinInterp, values, nil)})
	}
}

// Step is an unknown to make known, and the share of the width that is then left.
type Step struct {
	Unknown int
	Left    float64
}

// Order is the order in which to make unknowns known: at each step that which leaves least, until no more than enough is left [share of the width].
func Order(f Function, enough float64) []Step {
	var steps []Step
	var known []int
	for left := 1.0; left > enough && len(known) < f.Unknowns; {
		best := Step{-1, 0}
		for i := range f.Unknowns {
			if slices.Contains(known, i) {
				continue
			}
			if share := Left(f, append(slices.Clone(known), i)...); best.Unknown < 0 || share < best.Left {
				best = Step{i, share}
			}
		}
		left, known, steps = best.Left, append(known, best.Unknown), append(steps, best)
	}
	return steps
}
