package diffusion

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/parallel"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/surrogate"
)

// ensemble marches a design at deviates of its unknowns.
type ensemble struct {
	marches         *March
	design          *Design
	unknowns        []Unknown
	settings        Settings
	result          Result
	begun           bool                            // medianBalances and drift are known
	unanswered      bool                            // the medians have no answer in those steps
	similarBalances []airBalance                    // of air and strand in a similar design, from which those at the medians are sought; nil for none
	medianBalances  []airBalance                    // and at the medians, from which those of each draw are sought
	middle          float64                         // logarithm of the content at the medians; no number where it is not known
	by              *estimator                      // by what the medians have met; nil for none
	medianGiven     []float64                       // content given off in each zone at the medians, as that estimates it
	drift           surrogate.Drift                 // what the draws are estimated to give beforehand; nil for none
	failed          error                           // the first march without an answer
	measure         func(m *Model) (float64, error) // of a drawn model; nil for the content at the nozzle
}

func (w *March) ensemble(d *Design, s Settings) (*ensemble, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	w.equip()
	return &ensemble{marches: w, design: d, unknowns: d.Unknowns(), settings: s}, nil
}

// ready begins what has not begun.
func (e *ensemble) ready() {
	if !e.begun {
		e.begin()
	}
}

// begin marches at the medians: where air and strand agree there is where that of the draws is sought from, and what the zones do there is what the content at the
// draws is estimated by.
func (e *ensemble) begin() {
	balanced := e.design.balanced()
	err := e.marches.runFrom(e.similarBalances, &e.design.Model, e.settings.Bounded(), &e.result)
	for _, finer := range finerSteps() { // where there is hardly any air, or a skin is hardly held by the grid, steps may be too coarse for an answer
		if err == nil {
			break
		}
		e.settings = e.settings.as(finer)
		err = e.marches.runFrom(e.similarBalances, &e.design.Model, e.settings.Bounded(), &e.result)
	}
	e.medianBalances, e.by, e.drift, e.begun = nil, nil, nil, true
	switch {
	case balanced && err != nil:
		e.medianBalances = make([]airBalance, len(e.design.Path))
	case balanced:
		e.medianBalances = slices.Clone(e.result.balances)
	}
	e.middle, e.unanswered = math.NaN(), err != nil
	if _, hasBores := e.design.withOpenBores(); err == nil && e.measure == nil && !hasBores {
		e.middle = e.log(e.result.Nozzle.Mean)
	}
	if err == nil && e.measure == nil {
		e.by = e.design.estimator(&e.result, leastTold*e.design.Limit)
		e.drift = e.estimated(e.by)
	}
	if e.medianGiven = nil; e.by != nil && balanced {
		e.medianGiven = e.by.given(&e.design.Model)
	}
}

// balances are those from which the balances of a drawn model are sought: what each zone gives off at the medians, times by how much more the estimate has the draw give off.
func (e *ensemble) balances(m *Model) []airBalance {
	if e.medianGiven == nil {
		return e.medianBalances
	}
	const most = 10
	out := slices.Clone(e.medianBalances)
	for i, given := range e.by.given(m) {
		if share := given / e.medianGiven[i]; share > 1./most && share < most {
			out[i].total *= share
		}
	}
	return out
}

// march is the logarithm of the content at deviates of the unknowns; no number where it cannot be marched.
func (e *ensemble) march(deviates []float64) float64 {
	log, err := e.tried(deviates)
	if err != nil {
		e.fails(err)
		return math.NaN()
	}
	return log
}

func (e *ensemble) tried(deviates []float64) (float64, error) {
	m, open, err := e.design.drawn(e.unknowns, deviates)
	if err != nil {
		return 0, err
	}
	log, err := e.logarithm(&m)
	openBores, hasBores := m.withOpenBores()
	if err != nil || !hasBores {
		return log, err
	}
	most, err := e.logarithm(&openBores)
	return betweenMouths(log, most, open), err
}

// fails keeps an error.
func (e *ensemble) fails(err error) {
	if e.failed == nil {
		e.failed = err // the first
	}
}

// finerSteps are what a march is tried in that has no answer in those of the draws.
func finerSteps() [2]Settings { return [...]Settings{RoughSettings(), DefaultSettings()} }

func (e *ensemble) logarithm(m *Model) (float64, error) {
	if e.measure != nil {
		x, err := e.measure(m)
		return math.Log(x), err
	}
	balances := e.balances(m)
	err := e.marches.run(m, e.settings.Bounded(), balances, &e.result)
	for _, finer := range finerSteps() {
		if errors.Is(err, rosenbrock.ErrStalled) && !e.settings.boundedSteps && e.settings.Resolution < finer.Resolution {
			err = e.marches.run(m, e.settings.as(finer).Bounded(), balances, &e.result)
		}
	}
	if err != nil {
		return 0, err
	}
	return e.log(e.result.Nozzle.Mean), nil
}

// log is the logarithm of a content that the surrogate is fitted to.
func (e *ensemble) log(content float64) float64 {
	return logarithm(content, e.design.Limit)
}

// logarithm of a content, or of a millionth of the limit where it is less.
func logarithm(content, limit float64) float64 {
	return math.Log(max(content, leastTold*limit))
}

// leastTold is the share of a limit below which contents are not told apart.
const leastTold = 1e-6

// fitted is a surrogate of the logarithm of a content, a sample of that logarithm, and the content where the diffusivity alone deviates.
type fitted struct {
	surrogate     *surrogate.Surrogate
	sample        []float64
	byDiffusivity Between
	axes          []float64 // values at the centre and on the axes
	fastIsWetter  bool
}

// learned is the ensemble of a design with what its draws have taught.
func (w *March) learned(d *Design, s Settings) (*ensemble, fitted, error) {
	e, err := w.ensemble(d, drawSettings(s))
	if err != nil {
		return nil, fitted{}, err
	}
	fit, err := e.fit(e.each)
	return e, fit, err
}

// fit makes the marches that a surrogate needs. Marched gives the values at [surrogate.Points] and at further draws.
func (e *ensemble) fit(marched func(points [][]float64) []float64) (fitted, error) {
	f, values, err := e.emulate(0, batches, marched)
	if err != nil {
		return fitted{}, fmt.Errorf("the odds: %w", errors.Join(err, e.failed))
	}
	return e.told(f, values[:1+2*len(e.unknowns)]), nil
}

// told is all that a surrogate tells whose values at the centre and on the axes are given.
func (e *ensemble) told(f *surrogate.Surrogate, axes []float64) fitted {
	out := fitted{surrogate: f, axes: axes, sample: e.marches.at(f, e.marches.drawsFor(f, len(e.unknowns)))}
	out.byDiffusivity, out.fastIsWetter = e.byDiffusivity(axes)
	return out
}

// at are the values of a surrogate, found on several cores.
func (w *March) at(f *surrogate.Surrogate, points [][]float64) []float64 {
	const together = 64
	shares := slices.Collect(slices.Chunk(points, together))
	found := onCores(w.cores(len(shares)), len(shares), func(_ *March, i int) []float64 {
		out := make([]float64, 0, together)
		for _, z := range shares[i] {
			out = append(out, f.At(z))
		}
		return out
	})
	return slices.Concat(found...)
}

// emulate finds a surrogate, from more marches, in so many batches at most, while it is off by more than this, and the values that it rests on.
func (e *ensemble) emulate(off float64, most int, marched func(points [][]float64) []float64) (*surrogate.Surrogate, []float64, error) {
	e.ready()
	if e.unanswered {
		if e.middle = e.centre(); math.IsNaN(e.middle) {
			return nil, nil, surrogate.ErrTooFew
		}
	}
	k := e.sampled(marched)
	f, err := k.fit()
	for i, more := range moreDraws(len(e.unknowns))[:most] {
		if err != nil || f.Error <= max(off, worthwhileError(i)) || len(e.unknowns) < 2 {
			break
		}
		k.add(more, marched(more))
		f, err = k.fit()
	}
	return f, k.values, err
}

// wet is the logarithm of the content that a draw without an answer, which as a rule has too little air, is taken for: the wettest of those with one, or
// that with which it set off. There is none where the medians, the first of the values, have no answer.
func (e *ensemble) wet(values []float64) float64 {
	wettest := values[0]
	for _, x := range values {
		if !math.IsNaN(wettest) && x > wettest {
			wettest = x
		}
	}
	if e.measure == nil {
		wettest = math.Max(wettest, e.log(max(e.design.Start, e.design.Limit)))
	}
	return wettest
}

// fill gives values that are no numbers another one.
func fill(values []float64, another float64) []float64 {
	for i, x := range values {
		if math.IsNaN(x) {
			values[i] = another
		}
	}
	return values
}

// atMedians is the logarithm of the content at the medians, which may be known.
func (e *ensemble) atMedians() float64 {
	if math.IsNaN(e.middle) {
		e.middle = e.centre()
	}
	return e.middle
}

// centre is the same at the usual steps, where those of the draws have no answer.
func (e *ensemble) centre() float64 {
	usual := *e
	usual.settings = e.settings.as(DefaultSettings())
	return usual.march(make([]float64, len(e.unknowns)))
}

// each marches at some points, on several cores; which core marches where changes nothing.
func (e *ensemble) each(points [][]float64) []float64 {
	marches := []*March{e.marches}
	if e.measure == nil { // which marches for itself
		marches = e.marches.cores(len(points))
	}
	workers := make([]*ensemble, len(marches))
	for k, w := range marches {
		own := *e
		own.marches, own.result = w, Result{}
		workers[k] = &own
	}
	type attempt struct {
		value float64
		err   error
	}
	values := make([]float64, len(points))
	for i, a := range onCores(workers, len(points), func(own *ensemble, i int) attempt {
		value, err := own.tried(points[i])
		return attempt{value, err}
	}) {
		if values[i] = a.value; a.err != nil {
			values[i] = math.NaN()
		}
		e.fails(a.err)
	}
	return values
}

// onCores is [parallel.Map] for work that cannot fail or be interrupted.
func onCores[W, T any](workers []W, n int, work func(w W, i int) T) []T {
	out, err := parallel.Map(context.Background(), workers, n, func(w W, i int) (T, error) { return work(w, i), nil })
	if err != nil {
		return make([]T, n) // there is always a worker
	}
	return out
}

// cores are marches for so many tasks at the same time, this one among them: one for each core, up to those that one question of odds may take.
func (w *March) cores(tasks int) []*March {
	const most = 4
	count := min(most, parallel.Cores(tasks))
	for len(w.more) < count-1 {
		w.more = append(w.more, marchOn(w.grids))
	}
	return append([]*March{w}, w.more[:count-1]...)
}
