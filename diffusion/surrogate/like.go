package surrogate

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/stat"
)

// Like is the surrogate of a function that is similar: it has a drift of its own, nil where this one has none, and is known at the centre and on [Surrogate.Line], where values that are not
// known are NaN. What its drift leaves is what that of this one leaves, times a factor that fits on the line, and what is left on the line then, which counts wherever
// a point is as far along. Three values must be known.
func (s *Surrogate) Like(drift Drift, centre float64, onLine []float64) (*Surrogate, error) {
	if (drift == nil) != (s.drift == nil) {
		return nil, ErrTooFew
	}
	points, values := [][]float64{make([]float64, len(s.plane)-1)}, []float64{centre}
	c := curve{places: []float64{0}}
	if s.alpha != nil {
		middle := len(likeKnots()) / 2
		c.places = slices.Insert(likeKnots(), middle, 0)
		points, values = slices.Insert(s.Line(), middle, points[0]), slices.Insert(slices.Clone(onLine), middle, centre)
	}
	values = drift.leaves(points, values)
	for i := len(values) - 1; i >= 0; i-- {
		if math.IsNaN(values[i]) {
			c.places, points, values = slices.Delete(c.places, i, i+1), slices.Delete(points, i, i+1), slices.Delete(values, i, i+1)
		}
	}
	if len(values) < min(3, 1+len(onLine)) {
		return nil, ErrTooFew
	}
	out := *s
	out.drift, out.scale = drift, s.scales(points, values)
	for i, p := range points {
		c.values = append(c.values, values[i]-out.scale*s.rest(p))
	}
	if len(values) > 1 {
		if err := c.inside.Fit(c.places, c.values); err != nil {
			return nil, err
		}
	}
	out.along = &c
	return &out, nil
}

// scales is by how much what is left changes more than that of this surrogate, by least squares.
func (s *Surrogate) scales(points [][]float64, values []float64) float64 {
	const most = 3
	rest := make([]float64, len(points))
	for i, p := range points {
		rest[i] = s.rest(p)
	}
	if len(rest) < 2 || stat.Variance(rest, nil) < flat*flat {
		return 1
	}
	return min(max(stat.Covariance(rest, values, nil)/stat.Variance(rest, nil), 0), most)
}

// Shifted is the surrogate of a function that is similar, has a drift of its own and is known at the centre alone.
func (s *Surrogate) Shifted(drift Drift, centre float64) (*Surrogate, error) {
	if (drift == nil) != (s.drift == nil) || math.IsNaN(centre) {
		return nil, ErrTooFew
	}
	out := s.With(drift)
	out.along, out.scale = nil, 0
	out.plane = slices.Clone(s.plane)
	out.plane[0] += centre - out.At(make([]float64, len(s.plane)-1))
	return out, nil
}

// With is a surrogate like this one with another drift, of a function that differs from it by little else.
func (s *Surrogate) With(drift Drift) *Surrogate {
	out := *s
	out.drift = drift
	return &out
}

// curve is a monotone cubic between values at rising places (Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5:300-304 (1984)), and the values at the ends outside.
type curve struct {
	places, values []float64
	inside         interp.FritschButland
}

func (c *curve) at(t float64) float64 {
	last := len(c.places) - 1
	switch {
	case t <= c.places[0]:
		return c.values[0]
	case t >= c.places[last]:
		return c.values[last]
	}
	return c.inside.Predict(t)
}

// Line is the points on the line of steepest change at which a similar function is to be known, see [Surrogate.Like]; none where the function does not change.
func (s *Surrogate) Line() [][]float64 { return along(s.alpha, likeKnots()) }

// likeKnots are fewer than those of a surrogate of its own: what is left has the shape of what is left of the other.
func likeKnots() []float64 { return []float64{-2, -1, 1, 2} }

// OnLine is the point that lies so many deviates along the line of steepest change.
func (s *Surrogate) OnLine(t float64) []float64 {
	point := make([]float64, len(s.alpha))
	for i, a := range s.alpha {
		point[i] = t * a
	}
	return point
}

// Steepest is the point on the line of steepest change at which the surrogate has a value; nil where it has none there.
func (s *Surrogate) Steepest(value float64) []float64 {
	if s.alpha == nil {
		return nil
	}
	const reach, halvings = 4, 40
	low, high := -float64(reach), float64(reach) // it falls from the one to the other
	if s.At(s.OnLine(low)) < value || s.At(s.OnLine(high)) > value {
		return nil
	}
	for range halvings {
		if middle := (low + high) / 2; s.At(s.OnLine(middle)) > value {
			low = middle
		} else {
			high = middle
		}
	}
	return s.OnLine((low + high) / 2)
}
