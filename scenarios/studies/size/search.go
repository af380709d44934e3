package size

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/root"
)

// Outcome says whether the limit is met in the range.
type Outcome int

const (
	// Met at one end of a stretch of values.
	Met Outcome = iota
	// Everywhere in the range.
	Everywhere
	// Nowhere in the range.
	Nowhere
)

func (o Outcome) String() string { return [...]string{"met", "everywhere", "nowhere"}[o] }

// Point is a value and what it leads to.
type Point struct {
	X     float64 // value [SI]
	Ratio float64 // content at the nozzle over the limit
	// Survives tells whether the strand keeps its shape at the value.
	Survives diffusion.Survival

	guessed bool // by an estimate, without a march
}

// search is one search for the limit.
type search struct {
	from, to float64
	near     float64 // the crossing that is next to it is taken
	even     bool    // scale; else logarithmic
	roughly  bool    // where the limit is met by far, or missed by far and by least at an end, that a rough look says so will do
	within   float64 // how near to the limit the logarithm of the ratio has to come; zero for ratioWithin

	at    func(x float64) (Point, error)
	rough func(x float64) (Point, error)           // the same in fewer steps, to see where to look; nil for none
	guess func(x float64) float64                  // estimates the ratio within a factor of two; nil for none
	many  func(x []float64, use func(Point)) error // as rough, for several at a time; nil where it saves nothing

	marches int
	points  []Point // rising
	steep   steep   // what is known of the slope
	rougher float64 // what a rough march next to the crossing is off by, as a logarithm; zero where that is not known
}

// found is what a search has found.
type found struct {
	outcome  Outcome
	x        float64 // meets the limit, or comes nearest to it
	from, to float64 // the limit is met between these
	inside   bool    // x comes nearest and is not at an end of the range
}

// Values on the grid, and on that of one march for all.
const coarse, fine = 17, 29

// Tolerances of a search, unless it has its own: of the logarithm of the ratio, and of the value as a share of the range.
const ratioWithin, rangeWithin = 2e-6, 1e-10

// met is the tolerance of the logarithm of the ratio.
func (s *search) met() float64 { return cmp.Or(s.within, ratioWithin) }

// least ratio that is told from zero.
const leastRatio = 1e-9

var errNowhere = errors.New("the scenario takes no value of the range")

func (s *search) scale(x float64) float64 {
	if s.even {
		return x
	}
	return math.Log(x)
}

func (s *search) value(u float64) float64 {
	if s.even {
		return u
	}
	return math.Exp(u)
}

// height is the logarithm of the ratio at a place on the scale.
func (s *search) height(u float64) (float64, error) { return s.try(s.value(u)) }

// try is the logarithm of the ratio at a value, which it keeps.
func (s *search) try(x float64) (float64, error) {
	p, err := s.at(x)
	if err != nil {
		return math.NaN(), err
	}
	s.marches++
	s.keep(p)
	return height(p.Ratio), nil
}

func height(ratio float64) float64 { return math.Log(math.Max(ratio, leastRatio)) }

func (s *search) keep(one Point) {
	i, _ := slices.BinarySearchFunc(s.points, one.X, func(p Point, x float64) int { return cmp.Compare(p.X, x) })
	s.points = slices.Insert(s.points, i, one)
}

// grid gives n values from end to end.
func (s *search) grid(n int) []float64 {
	a, b := s.scale(s.from), s.scale(s.to)
	all := make([]float64, n)
	for i := range all {
		all[i] = s.value(a + (b-a)*float64(i)/float64(n-1))
	}
	all[0], all[n-1] = s.from, s.to
	return all
}

// run searches.
func (s *search) run() (found, error) {
	if s.many != nil {
		s.marches++
		grid := s.grid(fine)
		if err := s.many(grid, s.keep); err != nil {
			return found{}, err
		}
		if err := s.sharpen(); err != nil {
			return found{}, err
		}
		return s.conclude()
	}
	look := s.at
	if s.rough != nil {
		look = s.rough
	}
	grid := s.grid(coarse)
	for i, x := range grid {
		if i < coarse-1 && s.guessed(x, i == 0) {
			continue
		}
		p, err := look(x)
		switch {
		case err == nil:
			s.marches++
			s.keep(p)
		case i == 0 || i == coarse-1:
			return found{}, err
		} // else a gap between values that can be marched
	}
	if s.rough != nil {
		if err := s.sharpen(); err != nil {
			return found{}, err
		}
	}
	return s.conclude()
}

// guessed tells whether it is clear without a march on which side of the limit a value leads to, or that it does not meet it, and keeps that.
func (s *search) guessed(x float64, above bool) bool {
	const clear = 1 // as a logarithm
	if s.guess == nil {
		return false
	}
	p := Point{X: x, Ratio: s.guess(x), guessed: true}
	if h := height(p.Ratio); !(h > clear || !above && h < -clear) {
		return false
	}
	s.keep(p)
	return true
}

// sharpen tries again the points of a rough look that the answer rests on: those next to the limit; where it is not crossed, the driest, and, unless that is
// far within the limit, its neighbours and the ends where these are nearly as dry. Those on either side of a crossing that were only guessed are marched roughly; one without an answer is a gap.
func (s *search) sharpen() error {
	sharp := make([]bool, len(s.points))
	for {
		i, fine := s.restsOn(sharp)
		if i < 0 {
			return nil
		}
		look := s.rough
		if fine {
			look = s.at
		}
		p, err := look(s.points[i].X)
		s.marches++
		switch {
		case err == nil:
			s.points[i], sharp[i] = p, fine
		case s.points[i].guessed:
			s.points, sharp = slices.Delete(s.points, i, i+1), slices.Delete(sharp, i, i+1)
		default:
			return err
		}
	}
}

// restsOn finds a point that has to be tried again, and whether roughly will not do; -1 where there is none.
func (s *search) restsOn(sharp []bool) (i int, fine bool) {
	const near = 0.03 // many times what a rough point is off by
	lowest, crossed, last := s.lowest(), s.changes(), len(s.points)-1
	driest := height(s.points[lowest].Ratio)
	clear := s.roughly && (driest < -near || driest > near && (lowest == 0 || lowest == last))
	for i, p := range s.points {
		rests := driest > -near && (i == 0 || i == last || i == lowest-1 || i == lowest+1)
		switch beside := slices.Contains(crossed, i) || slices.Contains(crossed, i-1); {
		case sharp[i]:
		case clear && len(crossed) == 0:
			if p.guessed && rests {
				return i, false
			}
		case math.Abs(height(p.Ratio)) < near, len(crossed) == 0 && (i == lowest || rests && (p.guessed || height(p.Ratio)-driest < near)):
			return i, true
		case beside && p.guessed:
			return i, false
		}
	}
	return -1, false
}

// conclude finds the zero, or says that there is none.
func (s *search) conclude() (found, error) {
	if len(s.changes()) == 0 {
		lowest := s.lowest()
		switch {
		case s.points[lowest].Ratio <= 1:
			return found{outcome: Everywhere, x: s.points[lowest].X, from: s.from, to: s.to}, nil
		case lowest > 0 && lowest < len(s.points)-1:
			var seen root.Walk
			for _, p := range s.points {
				seen = append(seen, root.Place{X: s.scale(p.X), Y: height(p.Ratio)})
			}
			if _, _, _, err := seen.Dip(s.height, root.Tolerance{Value: ratioWithin, Width: 0.01}); err != nil {
				return found{}, err
			}
		}
	}
	changes := s.changes()
	if len(changes) == 0 {
		lowest, last := s.points[s.lowest()], len(s.points)-1
		const worse = 1.001 // a plateau is none
		ends := math.Min(s.points[0].Ratio, s.points[last].Ratio)
		return found{outcome: Nowhere, x: lowest.X, inside: ends > worse*lowest.Ratio}, nil
	}
	best, distance := changes[0], math.Inf(1)
	for _, i := range changes {
		middle := (s.scale(s.points[i].X) + s.scale(s.points[i+1].X)) / 2
		if d := math.Abs(middle - s.scale(s.near)); d < distance {
			best, distance = i, d
		}
	}
	return s.stretch(best)
}

// stretch is the run of values that meet the limit beside the crossing after point i.
func (s *search) stretch(i int) (found, error) {
	points := slices.Clone(s.points)
	x, err := s.narrow(points[i], points[i+1])
	if err != nil {
		return found{}, err
	}
	f := found{outcome: Met, x: x, from: x, to: x}
	step, j, end := 1, i+1, &f.to
	if points[i].Ratio <= 1 {
		step, j, end = -1, i, &f.from
	}
	for inRange(j+step, points) && points[j+step].Ratio <= 1 {
		j += step
	}
	if !inRange(j+step, points) {
		*end = points[j].X
		return f, nil
	}
	*end, err = s.narrow(points[min(j, j+step)], points[max(j, j+step)])
	return f, err
}

func inRange(i int, points []Point) bool { return i >= 0 && i < len(points) }

// changes lists the points after which the limit is crossed.
func (s *search) changes() []int {
	var all []int
	for i := range len(s.points) - 1 {
		if (s.points[i].Ratio <= 1) != (s.points[i+1].Ratio <= 1) {
			all = append(all, i)
		}
	}
	return all
}

func (s *search) lowest() int {
	best := 0
	for i, p := range s.points {
		if p.Ratio < s.points[best].Ratio {
			best = i
		}
	}
	return best
}
