package size

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion/root"
)

// steep is the slope of the height at a place of the scale, rough or not.
type steep struct{ u, slope float64 }

// narrow finds the crossing between two points: by rough marches first, if there are any, so that it takes two or three of the others.
func (s *search) narrow(a, b Point) (float64, error) {
	low, high := s.scale(a.X), s.scale(b.X)
	within := root.Tolerance{Value: s.met(), Width: rangeWithin * math.Abs(s.scale(s.to)-s.scale(s.from))}
	bracket := root.Bracket{A: low, B: high, AtA: height(a.Ratio), AtB: height(b.Ratio)}
	if s.rough != nil {
		if u, ok := s.polish(bracket); ok {
			return s.value(u), nil
		}
		for _, p := range []*Point{&a, &b} { // they may be rough
			var err error
			if *p, err = s.at(p.X); err != nil {
				return 0, err
			}
		}
		bracket.AtA, bracket.AtB = height(a.Ratio), height(b.Ratio)
	}
	u, err := root.Find(s.height, bracket, within)
	switch u {
	case low:
		return a.X, err
	case high:
		return b.X, err
	}
	return s.value(u), err
}

// polish finds a crossing by rough marches, and by their slope, then by that of the others, the one that is sought; false where that leads astray.
func (s *search) polish(b root.Bracket) (float64, bool) {
	const tries, roughly, step, alike = 6, 3e-3, 0.01, 2
	var seen []root.Place
	u, err := root.Find(func(u float64) (float64, error) {
		y, err := s.roughHeight(u)
		seen = append(seen, root.Place{X: u, Y: y})
		return y, err
	}, b, root.Tolerance{Value: roughly, Width: roughly * math.Abs(b.B-b.A)})
	if err != nil {
		return 0, false
	}
	s.seen(u, seen)
	slope, err := s.slope(u, step)
	if err != nil || slope == 0 {
		return 0, false
	}
	before, offBefore := math.NaN(), math.NaN()
	for range tries {
		off, err := s.height(u)
		if fine := (off - offBefore) / (u - before); fine/slope > 1./alike && fine/slope < alike {
			slope = fine
		}
		if k := slices.IndexFunc(seen, func(p root.Place) bool { return p.X == u }); k >= 0 {
			s.rougher = math.Abs(off - seen[k].Y)
		}
		before, offBefore = u, off
		switch next := u - off/slope; {
		case err != nil:
			return 0, false
		case math.Abs(off) <= s.met():
			return u, true
		case next < b.A || next > b.B:
			return 0, false
		default:
			u = next
		}
	}
	return 0, false
}

// seen takes the slope at a place from the two of some rough places that are nearest to it, if they are near enough and not too near to one another.
func (s *search) seen(u float64, places []root.Place) {
	const far, apart = 0.25, 2e-3
	slices.SortStableFunc(places, func(a, b root.Place) int { return cmp.Compare(math.Abs(a.X-u), math.Abs(b.X-u)) })
	for k := 1; k < len(places); k++ {
		if d := places[k].X - places[0].X; math.Abs(d) > apart && math.Abs(places[k].X-u) < far && math.Abs(places[0].X-u) < far {
			s.steep = steep{u, (places[k].Y - places[0].Y) / d}
			return
		}
	}
}

// roughHeight is the logarithm of the ratio at a place on the scale by a rough march, where there is one.
func (s *search) roughHeight(u float64) (float64, error) {
	if s.rough == nil {
		return s.height(u)
	}
	s.marches++
	p, err := s.rough(s.value(u))
	return height(p.Ratio), err
}

// slope of the height at a place, by a difference over a step to either side, within the range; from rough marches where there are any, and from those that were made
// next to it.
func (s *search) slope(u, step float64) (float64, error) {
	if s.steep.slope != 0 && math.Abs(u-s.steep.u) < step {
		return s.steep.slope, nil
	}
	a, b := math.Max(s.scale(s.from), u-step), math.Min(s.scale(s.to), u+step)
	atA, err := s.roughHeight(a)
	if err != nil {
		return 0, err
	}
	atB, err := s.roughHeight(b)
	if err != nil {
		return 0, err
	}
	s.steep = steep{u, (atB - atA) / (b - a)}
	return s.steep.slope, nil
}
