package reliability

import (
	"errors"
	"math"

	"strandry/diffusion"
	"strandry/diffusion/root"
)

// Search is one search.
type Search struct {
	// At is the probability of meeting the limit at a place. A place without an answer is passed by.
	At func(u float64) (float64, error)
	// From and To are the ends of the stretch in which the limit is met at the medians; To may lie below From.
	From, To float64
	// Crossing tells that the limit is just met at From, so that it is about as likely met as not; else From is an end of what is
	// looked at.
	Crossing bool
	Step     float64 // first one, above zero
	Rough    float64 // length [m] beyond which [Search.Lengths] does not look again; zero for none
}

// Outcome of a search.
type Outcome int

const (
	// Met nine times in ten from a place on.
	Met Outcome = iota
	// Already met nine times in ten at From.
	Already
	// Nowhere that was looked at.
	Nowhere
)

// Found is what a search has found.
type Found struct {
	Outcome     Outcome
	Place       float64 // from which on it is met nine times in ten; where that is nowhere, the likeliest
	Probability float64 // there
}

// within is how near the deviate of a probability is found; a hundredth is a five-hundredth of the probability.
const within = 0.01

// enough is the deviate sought: that of [diffusion.NineInTen] and a little more, for the numerical error, so that a run at the place is
// called dry.
func enough() float64 {
	const more = 0.002
	return deviate(diffusion.NineInTen) + within + more
}

// deviate of a probability, no further out than a sample of a few thousand tells.
func deviate(p float64) float64 {
	const least = 1e-4
	return diffusion.Deviate(p, least)
}

// place is one that was looked at: what the deviate there lacks.
type place struct{ u, lacks float64 }

var errNoPlace = errors.New("no place that was looked at has an answer")

// Find carries the search out.
func (s *Search) Find() (Found, error) {
	target, known := enough(), map[float64]float64{}
	lacks := func(u float64) (float64, error) {
		p, err := s.At(u)
		known[u] = p
		return target - deviate(p), err
	}
	found := func(o Outcome, u float64) (Found, error) { return Found{o, u, known[u]}, nil }
	seen := []place{{s.From, target}}
	if !s.Crossing {
		at, err := lacks(s.From)
		switch {
		case err != nil:
			return Found{}, err
		case at <= within:
			return found(Already, s.From)
		}
		seen[0].lacks = at
	}
	b, best, err := s.walk(lacks, seen)
	switch {
	case err != nil:
		return Found{}, err
	case b == nil && known[best] >= diffusion.NineInTen: // at the very end
		return found(Met, best)
	case b == nil:
		return found(Nowhere, best)
	}
	const narrow = 0.005 // of a first step; the probability goes in steps too
	if _, err := root.Find(lacks, *b, root.Tolerance{Value: within, Width: narrow * s.Step}); err != nil {
		return Found{}, err
	}
	nearest := s.To
	for u, p := range known {
		if p >= diffusion.NineInTen && math.Abs(u-s.From) < math.Abs(nearest-s.From) {
			nearest = u
		}
	}
	return found(Met, nearest)
}

// walk goes from the last place seen towards To until nothing is lacking, and brackets that; else it gives the likeliest place.
func (s *Search) walk(lacks root.Func, seen []place) (*root.Bracket, float64, error) {
	const failures = 4
	step, failed := math.Min(s.Step, math.Abs(s.To-s.From)), 0
	for {
		here := seen[len(seen)-1]
		next := place{u: here.u + math.Copysign(step, s.To-s.From)}
		if end := math.Abs(s.To - here.u); step >= end*(1-1e-9) {
			next.u = s.To
		}
		var err error
		if next.lacks, err = lacks(next.u); err != nil {
			if failed++; failed < failures {
				step /= 2
				continue
			}
			if len(seen) == 1 {
				return nil, 0, errors.Join(errNoPlace, err)
			}
			return nil, likeliest(seen), nil
		}
		seen = append(seen, next)
		switch {
		case next.lacks <= 0:
			return &root.Bracket{A: here.u, B: next.u, AtA: here.lacks, AtB: next.lacks}, 0, nil
		case len(seen) > 2 && next.lacks > here.lacks+worse:
			return s.summit(lacks, seen[len(seen)-3:])
		case next.u == s.To:
			return nil, likeliest(seen), nil
		}
		step = stride(here, next)
	}
}

// worse is by how much more must be lacking than before for the best to lie behind: less is in the sample.
const worse = 0.05

// stride is the next step: to where the line through two places has a little to spare, but no more than twice as far as the last.
func stride(here, next place) float64 {
	const spare, least = 0.1, 0.25
	last := math.Abs(next.u - here.u)
	needed := last * (next.lacks + spare) / (here.lacks - next.lacks)
	if !(needed > 0) {
		return 2 * last
	}
	return math.Min(math.Max(needed, least*last), 2*last)
}

func likeliest(seen []place) float64 {
	best := seen[len(seen)-1]
	for _, p := range seen {
		if p.lacks < best.lacks {
			best = p
		}
	}
	return best.u
}

// summit looks for the likeliest place between three, of which the middle one is the likeliest.
func (s *Search) summit(lacks root.Func, three []place) (*root.Bracket, float64, error) {
	a, m, b := three[0], three[1], three[2]
	if a.u > b.u {
		a, b = b, a
	}
	u, lack, err := root.Least(lacks, root.Valley{A: a.u, M: m.u, B: b.u, AtA: a.lacks, AtM: m.lacks, AtB: b.lacks},
		root.Tolerance{Value: within, Width: 0.02 * (b.u - a.u)})
	if err != nil || lack > 0 {
		return nil, u, err
	}
	return &root.Bracket{A: three[0].u, B: u, AtA: three[0].lacks, AtB: lack}, 0, nil
}
