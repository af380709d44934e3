package cheapest

import (
	"cmp"
	"context"
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
	t.prepare()
	a := &Answer{Demands: t.demands}
	if now, err := t.look(nil); err == nil {
		a.Now = &now
	}
	found, err := t.search(ctx, a)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	t.bind(a)
	if err := t.beside(ctx, a, found); err != nil {
		return nil, fmt.Errorf("%s: %w", s.File, err)
	}
	return a, nil
}

// prepare finds the odds of the design of the file, by which those of others are told; where it has none, each design has its own, which takes longer.
func (t *task) prepare() {
	march := <-t.marches
	if odds, err := march.Odds(&t.scenario.Design, t.scenario.Settings); err == nil {
		t.like = &odds
	}
	t.marches <- march
}

// search looks for the cheapest design until the full assessment agrees that it is dry: what the odds were off by is kept clear of, and looked for again near by. Else the cheapest of
// all that were looked at is taken that it finds dry.
func (t *task) search(ctx context.Context, a *Answer) (*optimum.Found, error) {
	const again = 2
	settings := optimum.Settings{Seed: uint64(t.scenario.Search.Seed), Budget: t.share(0.55), Finest: 1e-3}
	margin := t.margin
	p := t.problem(margin, t.now()...)
	var first *optimum.Found
	for try := range again + 1 {
		found, err := optimum.Search(ctx, p, settings)
		if err != nil {
			return nil, err
		}
		if first == nil {
			first = found
			a.take(found)
		}
		if err := t.settle(a, found.Best.X); err != nil {
			return nil, err
		}
		if a.Met || !found.Holds || try == again {
			break
		}
		margin = max(margin, a.off()) + spare
		p = t.problem(margin, found.Best.X)
		p.Variables = t.variablesAbout(found.Best.X)
		settings.Budget = t.share(0.1)
	}
	if a.Met || !first.Holds {
		return first, nil
	}
	return first, t.fallBack(a)
}

// off is by how much the logarithm of the content over the limit that is not passed nine times in ten is more by the full assessment.
func (a *Answer) off() float64 { return math.Log(a.Assessment.Ratio.High) - a.Best.Violations[0] }

// settle takes the design at a place for the best and assesses it.
func (t *task) settle(a *Answer, x []float64) (err error) {
	if a.Best, err = t.look(t.settings(x)); err != nil {
		return err
	}
	a.AtEnds = nil
	for i := range t.scenario.Free {
		f := &t.scenario.Free[i]
		low, high := f.From, f.To
		if !f.Continuous() && f.Names == nil {
			low, high = f.Values[0], f.Values[len(f.Values)-1]
		}
		if f.Names == nil && low != high && (x[i] == low || x[i] == high) {
			a.AtEnds = append(a.AtEnds, End{f.Key.Name, x[i] == max(low, high)})
		}
	}
	return t.confirm(a)
}

// fallBack takes the cheapest of the designs looked at that the full assessment finds dry, of some; where it finds none, the best so far stays.
func (t *task) fallBack(a *Answer) error {
	const most = 8
	before, off := *a, a.off()
	all := *a
	t.gather(&all)
	tried := 0
	for _, d := range all.Looked {
		if !d.Meets() || d.Violations[0] > -off || tried == most {
			continue
		}
		tried++
		if err := t.settle(a, t.place(d)); err != nil {
			return err
		}
		if a.Met {
			return nil
		}
	}
	*a = before
	return nil
}

// place is that of a design.
func (t *task) place(d *Design) []float64 {
	x := make([]float64, len(t.scenario.Free))
	for i := range t.scenario.Free {
		f := &t.scenario.Free[i]
		if f.Continuous() {
			x[i] = f.Value(d.Settings[i])
			continue
		}
		for k := range f.Len() {
			if f.Setting(k) != d.Settings[i] {
				continue
			}
			if x[i] = float64(k); f.Names == nil {
				x[i] = f.Values[k]
			}
		}
	}
	return x
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
func (a *Answer) take(f *optimum.Found) {
	a.Falls, a.Starts, a.Ended, a.Agreeing = f.Falls, f.Starts, f.Ended, f.Agreeing
	a.Settled, a.Stopped, a.All = f.Settled, f.Stopped, f.All
	for j, count := range f.Met {
		if count == 0 {
			a.Never = append(a.Never, a.Demands[j])
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
	a.Met = a.Best.Meets() && a.Assessment.Verdict == diffusion.Dry
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
