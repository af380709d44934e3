package surrogate

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// Carried turns the values of one function into those of another of the same unknowns, where the two rise and fall together.
type Carried struct {
	cubic       interp.FritschButland
	first, last end
}

// end is where a curve begins or ends, and how it goes on.
type end struct{ from, to, slope float64 }

// Carry finds how the values of the surrogate turn into those of a function that is known at the centre and on [Surrogate.Line], where values that are not
// known are NaN: by a monotone cubic between them (Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5:300-304 (1984)), straight outside. What the unknowns do to one
// another is taken for the same. Three values must be known, and the surrogate must rise or fall along the line.
func (s *Surrogate) Carry(centre float64, onLine []float64) (*Carried, error) {
	type pair struct{ from, to float64 }
	var pairs []pair
	add := func(point []float64, to float64) {
		if !math.IsNaN(to) {
			pairs = append(pairs, pair{s.At(point), to})
		}
	}
	line := s.Line()
	for i, p := range line {
		if i == len(line)/2 {
			add(make([]float64, len(p)), centre)
		}
		add(p, onLine[i])
	}
	if len(pairs) < 3 {
		return nil, ErrTooFew
	}
	if pairs[0].from > pairs[1].from {
		slices.Reverse(pairs)
	}
	const apart = 1e-9
	if !slices.IsSortedFunc(pairs, func(a, b pair) int { return cmp.Compare(a.from, b.from+apart) }) {
		return nil, ErrTooFew
	}
	n := len(pairs)
	from, to := make([]float64, n), make([]float64, n)
	for i, p := range pairs {
		from[i], to[i] = p.from, p.to
	}
	c := &Carried{
		first: end{from[0], to[0], (to[1] - to[0]) / (from[1] - from[0])},
		last:  end{from[n-1], to[n-1], (to[n-1] - to[n-2]) / (from[n-1] - from[n-2])},
	}
	return c, c.cubic.Fit(from, to)
}

// At is the value of the other function where the surrogate has this one.
func (c *Carried) At(value float64) float64 {
	switch {
	case value < c.first.from:
		return c.first.to + c.first.slope*(value-c.first.from)
	case value > c.last.from:
		return c.last.to + c.last.slope*(value-c.last.from)
	}
	return c.cubic.Predict(value)
}

// Line is the points on the line of steepest change; none where the function does not change.
func (s *Surrogate) Line() [][]float64 { return along(s.alpha) }

// Steepest is the point on the line of steepest change at which the surrogate has a value; nil where it has none there.
func (s *Surrogate) Steepest(value float64) []float64 {
	if s.alpha == nil {
		return nil
	}
	const reach, halvings = 4, 40
	point := make([]float64, len(s.alpha))
	at := func(t float64) float64 {
		for i, a := range s.alpha {
			point[i] = t * a
		}
		return s.At(point)
	}
	low, high := -float64(reach), float64(reach) // it falls from the one to the other
	if at(low) < value || at(high) > value {
		return nil
	}
	for range halvings {
		if middle := (low + high) / 2; at(middle) > value {
			low = middle
		} else {
			high = middle
		}
	}
	at((low + high) / 2)
	return point
}
