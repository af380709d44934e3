package surrogate

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// curve is the function along a line: a monotone cubic between the knots (Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5:300-304
// (1984)), straight outside.
type curve struct {
	cubic       interp.FritschButland
	first, last end
	falls       bool // everywhere: it has an inverse
}

// end is where a curve begins or ends, and how it goes on.
type end struct{ t, value, slope float64 }

// knot is a place on the line and the function there.
type knot struct{ t, value float64 }

// newCurve needs two knots at least.
func newCurve(knots []knot) (*curve, error) {
	slices.SortFunc(knots, func(a, b knot) int { return cmp.Compare(a.t, b.t) })
	c, n := &curve{falls: true}, len(knots)
	ts, values := make([]float64, n), make([]float64, n)
	for i, k := range knots {
		ts[i], values[i] = k.t, k.value
		const told = 1e-9
		if i > 0 && k.value > values[i-1]-told*(1+math.Abs(values[i-1])) {
			c.falls = false
		}
	}
	if err := c.cubic.Fit(ts, values); err != nil {
		return nil, err
	}
	c.first = end{ts[0], values[0], (values[1] - values[0]) / (ts[1] - ts[0])}
	c.last = end{ts[n-1], values[n-1], (values[n-1] - values[n-2]) / (ts[n-1] - ts[n-2])}
	return c, nil
}

func (c *curve) at(t float64) float64 {
	switch {
	case t < c.first.t:
		return c.first.value + c.first.slope*(t-c.first.t)
	case t > c.last.t:
		return c.last.value + c.last.slope*(t-c.last.t)
	}
	return c.cubic.Predict(t)
}

func (c *curve) slope(t float64) float64 {
	switch {
	case t < c.first.t:
		return c.first.slope
	case t > c.last.t:
		return c.last.slope
	}
	return c.cubic.PredictDerivative(t)
}

// inverse is where a falling curve has a value, within reach of its ends; where it falls on the whole, mostly.
func (c *curve) inverse(value float64) float64 {
	const beyond, halvings = 3, 50
	low, high := c.first.t-beyond, c.last.t+beyond
	for range halvings {
		middle := (low + high) / 2
		if c.at(middle) < value {
			high = middle
		} else {
			low = middle
		}
	}
	return (low + high) / 2
}
