package surrogate

import (
	"math"

	"strandry/materials/exponential"
)

// Crossed asks a surrogate at each of some points of its first unknowns, with one place of the others after another: what rests on the first alone is found once.
// It is not changed by use.
type Crossed struct {
	of      *Surrogate
	first   int       // unknowns
	planes  []float64 // of each point
	squares []float64 // five times those of the distances from each value, in lengths, one point after another
}

// Crossed takes the points, which all have as many unknowns. The surrogate is none of [Surrogate.Like].
func (s *Surrogate) Crossed(points [][]float64) *Crossed {
	c := &Crossed{of: s, squares: make([]float64, len(points)*len(s.weights))}
	for i, p := range points {
		c.first = len(p)
		c.planes = append(c.planes, s.plane[0]+dot(p, s.plane[1:]))
		s.squares(p, 0, c.squares[i*len(s.weights):])
	}
	return c
}

// squares adds five times those of the distances from each value along some unknowns, from one of them on.
func (s *Surrogate) squares(z []float64, from int, to []float64) {
	n := len(s.weights)
	if n == 0 {
		return
	}
	for i, x := range z {
		rate := s.rates[from+i]
		for k, place := range s.places[(from+i)*n:][:n] {
			d := x*rate - place
			to[k] += 5 * d * d
		}
	}
}

// Rest is what the drift leaves at each point, with these of the other unknowns.
func (c *Crossed) Rest(others []float64) []float64 {
	s, n := c.of, len(c.of.weights)
	plane := dot(others, s.plane[1+c.first:])
	away := make([]float64, n)
	s.squares(others, c.first, away)
	out := make([]float64, len(c.planes))
	for i := range out {
		value := c.planes[i] + plane
		squares := c.squares[i*n:][:n]
		for k, w := range s.weights {
			square := squares[k] + away[k]
			d := math.Sqrt(square)
			value += w * (1 + d + square/3) * exponential.Of(-d)
		}
		out[i] = value
	}
	return out
}
