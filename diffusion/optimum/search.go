package optimum

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"

	"strandry/diffusion/parallel"
)

// Settings say how far a search goes. Zero values are replaced.
type Settings struct {
	Seed   uint64
	Budget int     // places that are looked at at most; 400 by default
	Finest float64 // share of the scale of a variable below which a difference does not matter, up to 0.01; 1e-5 by default
	Agree  float64 // costs that differ by less are the same, relative; 1e-3 by default
}

func (s Settings) filled() Settings {
	const budget, finest, coarsest, agree = 400, 1e-5, 0.01, 1e-3
	if s.Budget == 0 {
		s.Budget = budget
	}
	if !(s.Finest > 0) {
		s.Finest = finest
	}
	if !(s.Agree > 0) {
		s.Agree = agree
	}
	s.Finest = min(s.Finest, coarsest)
	return s
}

// ErrNoAnswer says that no place that was looked at has an answer.
var ErrNoAnswer = errors.New("no place that was looked at has an answer")

// Search looks for the cheapest place at which all constraints hold. The error is that of a problem which is none, of the context, or [ErrNoAnswer], joined with that of the first place.
func Search(ctx context.Context, p *Problem, s Settings) (*Found, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	s = s.filled()
	if s.Budget < 1 {
		return nil, errors.New("optimum: a budget of less than one place")
	}
	m := &memory{problem: p, budget: s.Budget, seen: map[string]*Point{}}
	all, few := p.places(s.Budget)
	var starts []*start
	var err error
	if few {
		err = m.lookAtAll(ctx, all)
	} else {
		starts, err = m.search(ctx, s)
	}
	switch {
	case err != nil:
		return nil, err
	case m.best.Err != nil:
		return nil, errors.Join(ErrNoAnswer, m.points[0].Err)
	}
	return m.found(starts, few, s), nil
}

func (m *memory) lookAtAll(ctx context.Context, places int) error {
	units := make([][]float64, places)
	for i := range units {
		units[i] = m.problem.place(i)
	}
	_, err := m.look(ctx, units)
	return err
}

// Starts that go on at the same time, how many must have ended, and how many of those must agree on the least cost, for a search to be settled.
const together, fewest, enough = 3, 8, 3

// mostStarts ends a search in which starts find nothing new to look at.
const mostStarts = 40

// search looks at the first places, lets starts go on and compares the best with its neighbours.
func (m *memory) search(ctx context.Context, s Settings) ([]*start, error) {
	n := len(m.problem.Variables)
	first := max(min(10*(n+1), s.Budget/4), min(n+2, s.Budget))
	units := slices.Concat(m.known(), spread(n, first, s.Seed))
	if _, err := m.look(ctx, units); err != nil {
		return nil, err
	}
	last := min(12*n, s.Budget/5) // kept for the neighbours
	m.budget -= last
	starts, err := m.goOn(ctx, s)
	if err != nil {
		return nil, err
	}
	m.budget += last
	return starts, m.polish(ctx, s.Finest)
}

func (m *memory) known() [][]float64 {
	var units [][]float64
	for _, x := range m.problem.Known {
		units = append(units, m.unit(x))
	}
	return units
}

// spread gives places that lie evenly in so many dimensions.
func spread(n, count int, seed uint64) [][]float64 {
	const stream = 1 << 32 // beside those of the starts
	batch := mat.NewDense(count, n, nil)
	source := rand.NewPCG(seed, stream)
	samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(n, source), Src: source}.Sample(batch)
	units := make([][]float64, count)
	for i := range units {
		units[i] = mat.Row(nil, i, batch)
	}
	return units
}

// goOn lets starts go on until enough of them agree, or the budget ends.
func (m *memory) goOn(ctx context.Context, s Settings) ([]*start, error) {
	var all, active []*start
	for {
		for len(active) < together && len(all) < mostStarts {
			from, err := m.setOff(ctx, s.Seed, all)
			if err != nil {
				return nil, err
			}
			if from == nil {
				break
			}
			one := newStart(from, s.Seed, uint64(len(all)), m.problem)
			all, active = append(all, one), append(active, one)
		}
		if m.spent = m.left() <= 0; m.spent || len(active) == 0 {
			return all, nil
		}
		if err := m.round(ctx, active, s.Finest); err != nil {
			return nil, err
		}
		active = slices.DeleteFunc(active, func(one *start) bool { return one.ended })
		if settled(all, m.best, s.Agree) {
			return all, nil
		}
	}
}

// round lets each start look at what it proposes.
func (m *memory) round(ctx context.Context, active []*start, finest float64) error {
	proposals, err := parallel.Each(ctx, len(active), func(i int) ([][]float64, error) { return active[i].propose(m), nil })
	if err != nil {
		return err
	}
	found, err := m.look(ctx, slices.Concat(proposals...))
	if err != nil {
		return err
	}
	for i, one := range active {
		count := len(proposals[i])
		one.learn(found[:count], finest)
		found = found[count:]
	}
	return nil
}

// settled tells whether enough starts agree.
func settled(all []*start, best *Point, within float64) bool {
	return ended(all) >= fewest && agreeing(all, best, within) >= enough
}

func ended(all []*start) int {
	count := 0
	for _, one := range all {
		if one.ended {
			count++
		}
	}
	return count
}

// agreeing counts the starts that have ended at the cost of the best, or, where at none all constraints hold, at what it lacks.
func agreeing(all []*start, best *Point, within float64) int {
	count := 0
	for _, one := range all {
		if one.ended && same(one.best, best, within) {
			count++
		}
	}
	return count
}

func same(p, best *Point, within float64) bool {
	if best.Holds() {
		return p.Holds() && p.Cost-best.Cost <= within*math.Abs(best.Cost)
	}
	return p.Lacks-best.Lacks <= within*best.Lacks
}
