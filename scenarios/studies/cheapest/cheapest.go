package cheapest

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/optimum"
	"strandry/scenarios"
)

// Answer is what was found.
type Answer struct {
	Demands []Demand
	Met     bool   // a design meets all demands, and the full assessment finds it dry
	Best    Design // the cheapest that does; where none does, that which comes nearest
	Binding []Demand
	AtEnds  []End // of Best
	Never   []Demand

	// Of Best, in full.
	Scenario   *scenarios.Scenario
	Assessment *diffusion.Assessment
	Machine    *machine.Answer

	Now    *Design   // the design of the file; nil where it has no answer
	Front  []*Design // of which none that was looked at is both cheaper and drier, the demand to be dry left aside; the cheapest first
	Looked []*Design // all designs that have an answer, but for those drawn at random
	Failed int       // designs without an answer

	Falls                   []optimum.Fall // how the least cost fell
	Starts, Ended, Agreeing int            // of the search, see [optimum.Found]
	Settled, Stopped, All   bool
	Random                  Random
}

// End is where a free key stands at the end of what it may be.
type End struct {
	Key   string
	Upper bool
}

// Random is what as many designs drawn at random gave.
type Random struct {
	Count, Meeting int
	Cost           float64 // of the cheapest that meets all demands; zero where none does
}

// Find looks for the cheapest design of a scenario. The error says that nothing may be chosen, that nothing costs anything, or that no design has an answer.
func Find(ctx context.Context, s *scenarios.Scenario) (*Answer, error) {
	if err := errNothing(s); err != nil {
		return nil, err
	}
	t := newTask(s)
	if err := t.prepare(ctx); err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	a := &Answer{Demands: t.demands}
	if now, err := t.look(nil); err == nil {
		a.Now = &now
	}
	found, err := t.search(ctx, a)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	if err := t.beside(ctx, a, found); err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	return a, nil
}

// prepare finds a design by whose odds those of others are told: that of the file, or one of the first that has an answer.
func (t *task) prepare(ctx context.Context) error {
	march := <-t.marches
	defer func() { t.marches <- march }()
	odds, own := march.Odds(&t.scenario.Design, t.scenario.Settings)
	if own == nil {
		t.like = &odds
		return nil
	}
	const tried = 30
	p := t.problem(0)
	p.Constraints = 0
	p.At = func(_ context.Context, x []float64) (optimum.Answer, error) {
		s, err := t.scenario.With(t.settings(x)...)
		if err != nil || t.like != nil {
			return optimum.Answer{}, err
		}
		if odds, err := march.Odds(&s.Design, s.Settings); err == nil {
			t.like = &odds
		}
		return optimum.Answer{}, err
	}
	if _, err := optimum.Scatter(ctx, p, uint64(t.scenario.Search.Seed), tried); err != nil {
		return errors.Join(err, own)
	}
	return nil
}

// search looks for the cheapest design until the full assessment agrees that it is dry.
func (t *task) search(ctx context.Context, a *Answer) (*optimum.Found, error) {
	const tries, spare = 4, 0.004
	settings := optimum.Settings{Seed: uint64(t.scenario.Search.Seed), Budget: t.share(0.6), Finest: 1e-3}
	margin, known := spare, t.now()
	var first *optimum.Found
	for try := range tries { // what was looked at before is known, and counts no more
		found, err := optimum.Search(ctx, t.problem(margin, known...), settings)
		if err != nil {
			return nil, err
		}
		a.take(found, try == 0)
		if first == nil {
			first = found
		}
		if a.Best, err = t.look(t.settings(found.Best.X)); err != nil {
			return nil, err
		}
		if err := t.confirm(a); err != nil {
			return nil, err
		}
		a.name(t.scenario, found)
		if a.Met = found.Holds && a.Assessment.Verdict == diffusion.Dry; a.Met || !found.Holds {
			break
		}
		off := math.Log(a.Assessment.Ratio.High) - a.Best.Violations[0]
		margin = max(margin, off) + spare
		known = append([][]float64{found.Best.X}, known...)
		settings.Budget = t.share(0.2 / (tries - 1))
	}
	return first, nil
}

// share of the budget.
func (t *task) share(of float64) int { return max(1, int(of*float64(t.scenario.Search.Budget))) }

// now is the place of the design of the file, where all its free keys have values among those that may be chosen.
func (t *task) now() [][]float64 {
	x := make([]float64, len(t.scenario.Free))
	for i := range t.scenario.Free {
		f := &t.scenario.Free[i]
		x[i] = f.Key.Value
		switch {
		case f.Names != nil, !f.Key.Known:
			return nil
		case f.Continuous():
			if x[i] < f.From || x[i] > f.To {
				return nil
			}
			x[i] = f.Snapped(x[i])
		case !slices.Contains(f.Values, x[i]):
			return nil
		}
	}
	return [][]float64{x}
}

// take keeps what is told of a search.
func (a *Answer) take(f *optimum.Found, first bool) {
	if !first {
		return
	}
	a.Falls, a.Starts, a.Ended, a.Agreeing = f.Falls, f.Starts, f.Ended, f.Agreeing
	a.Settled, a.Stopped, a.All = f.Settled, f.Stopped, f.All
	a.Never = nil
	for j, count := range f.Met {
		if count == 0 {
			a.Never = append(a.Never, a.Demands[j])
		}
	}
}

// name says which demands bind and which keys stand at their ends.
func (a *Answer) name(s *scenarios.Scenario, f *optimum.Found) {
	a.Binding, a.AtEnds = nil, nil
	for _, j := range f.Binding {
		a.Binding = append(a.Binding, a.Demands[j])
	}
	for _, b := range f.AtBounds {
		if s.Free[b.Variable].Names == nil {
			a.AtEnds = append(a.AtEnds, End{s.Free[b.Variable].Key.Name, b.Upper})
		}
	}
}

// confirm assesses the best design in full.
func (t *task) confirm(a *Answer) error {
	s, err := t.scenario.With(a.Best.Settings...)
	if err != nil {
		return err
	}
	march := <-t.marches
	defer func() { t.marches <- march }()
	if a.Assessment, err = march.Assess(&s.Design, s.Settings); err != nil {
		return err
	}
	a.Scenario = s
	if a.Machine, err = machine.Tell(nil, &s.Design, &a.Assessment.Result, &s.Machine); err != nil {
		return err
	}
	a.Best.Cost = costOf(s, a.Machine)
	return nil
}

// beside looks at what lies beside the answer: cheaper and wetter, dearer and drier, and at random.
func (t *task) beside(ctx context.Context, a *Answer, first *optimum.Found) error {
	const times = 3
	settings := optimum.Settings{Seed: uint64(t.scenario.Search.Seed), Budget: t.share(0.1), Finest: 1e-2}
	if !a.All {
		for _, margin := range [...]float64{math.Log(times), -math.Log(times)} {
			if _, err := optimum.Search(ctx, t.problem(margin, first.Best.X), settings); err != nil {
				return err
			}
		}
	}
	t.gather(a)
	random, err := optimum.Scatter(ctx, t.problem(0), uint64(t.scenario.Search.Seed), len(a.Looked)+a.Failed)
	if err != nil {
		return err
	}
	a.Random.Count = len(random.Points)
	for _, p := range random.Points {
		if p.Holds() {
			a.Random.Meeting++
		}
	}
	if random.Holds {
		a.Random.Cost = random.Best.Cost
	}
	return nil
}

// gather takes all designs that were looked at, the cheapest first.
func (t *task) gather(a *Answer) {
	for key, k := range t.known {
		switch {
		case key == "": // the file's own
		case k.err != nil:
			a.Failed++
		default:
			a.Looked = append(a.Looked, &k.design)
		}
	}
	slices.SortFunc(a.Looked, func(x, y *Design) int {
		return cmp.Or(cmp.Compare(x.Cost, y.Cost), cmp.Compare(x.Mean, y.Mean), cmp.Compare(keyOf(x.Settings), keyOf(y.Settings)))
	})
	for _, d := range a.Looked {
		const dry = 0 // its index
		if d.Meets(dry) && (len(a.Front) == 0 || d.Mean < a.Front[len(a.Front)-1].Mean) {
			a.Front = append(a.Front, d)
		}
	}
}
