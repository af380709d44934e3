package cheapest

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/optimum"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// Design is one that was looked at, its odds told by those of another.
type Design struct {
	Settings    []scenarios.Setting // of the free keys, as a file states them
	Cost        float64             // in the user's currency
	Mean        float64             // content at the nozzle, at the medians [kg/kg dry]
	Low, High   float64             // 10 and 90 % points of it [kg/kg dry]
	Probability float64             // that it is within the limit
	Violations  []float64           // of the demands, in their order, zero or less where they are met
}

// Meets tells that all demands are met, but for those at some indices.
func (d *Design) Meets(but ...int) bool {
	for i, v := range d.Violations {
		if v > 0 && !slices.Contains(but, i) {
			return false
		}
	}
	return true
}

// task is one search.
type task struct {
	scenario *scenarios.Scenario
	demands  []Demand
	like     *diffusion.Odds // of the design that the odds of the others are told by
	marches  chan *diffusion.March
	margin   float64 // of the logarithm of the content over the limit, at first

	mutex sync.Mutex
	known map[string]asked // designs by their settings
}

// spare is kept of the logarithm of the content over the limit, for what the odds of one design differ from those told by another.
const spare = 0.004

type asked struct {
	design Design
	err    error
}

func newTask(s *scenarios.Scenario) *task {
	t := &task{scenario: s, demands: demandsOf(s), margin: spare, known: map[string]asked{}, marches: make(chan *diffusion.March, parallel.Cores(math.MaxInt))}
	for range cap(t.marches) {
		t.marches <- diffusion.NewMarch()
	}
	return t
}

// settings of the free keys at a place; those of names are counted.
func (t *task) settings(x []float64) []scenarios.Setting {
	out := make([]scenarios.Setting, len(x))
	for i := range t.scenario.Free {
		switch f := &t.scenario.Free[i]; {
		case f.Continuous():
			out[i] = f.Written(x[i])
		case f.Names != nil:
			out[i] = f.Setting(int(x[i]))
		default:
			out[i] = f.Setting(slices.Index(f.Values, x[i]))
		}
	}
	return out
}

// variables are the free keys.
func (t *task) variables() []optimum.Variable {
	var all []optimum.Variable
	for i := range t.scenario.Free {
		f := &t.scenario.Free[i]
		v := optimum.Variable{From: f.From, To: f.To, Log: f.Ratio, Snap: f.Snapped}
		if !f.Continuous() {
			v = optimum.Variable{Values: f.Values}
			for k := range f.Names {
				v.Values = append(v.Values, float64(k))
			}
		}
		all = append(all, v)
	}
	return all
}

// variablesAbout are the free keys near a place: the values beside, and a seventh of the scale to either side.
func (t *task) variablesAbout(x []float64) []optimum.Variable {
	const share = 1. / 7
	all := t.variables()
	for i := range all {
		v := &all[i]
		switch {
		case v.Values != nil:
			at := slices.Index(v.Values, x[i])
			v.Values = v.Values[max(0, at-1):min(len(v.Values), at+2)]
		default:
			v.From, v.To = v.Beside(x[i], -share), v.Beside(x[i], share)
		}
		if f := &t.scenario.Free[i]; v.Values == nil && v.From >= v.To { // closer than can be built
			v.From, v.To = f.From, f.To
		}
	}
	return all
}

// problem asks for designs that are drier by a margin, as a logarithm of the content over the limit.
func (t *task) problem(margin float64, known ...[]float64) *optimum.Problem {
	return &optimum.Problem{Variables: t.variables(), Constraints: len(t.demands), Known: known,
		At: func(_ context.Context, x []float64) (optimum.Answer, error) {
			d, err := t.look(t.settings(x))
			if err != nil {
				return optimum.Answer{}, err
			}
			violations := slices.Clone(d.Violations)
			violations[0] += margin // that of Dry
			return optimum.Answer{Cost: d.Cost, Violations: violations}, nil
		}}
}

// look gives the design with some settings.
func (t *task) look(set []scenarios.Setting) (Design, error) {
	key := keyOf(set)
	t.mutex.Lock()
	a, ok := t.known[key]
	t.mutex.Unlock()
	if ok {
		return a.design, a.err
	}
	s, err := t.scenario.With(set...)
	if err == nil {
		march := <-t.marches
		a.design, err = t.judge(march, s)
		t.marches <- march
	}
	a.err, a.design.Settings = err, set
	t.mutex.Lock()
	t.known[key] = a
	t.mutex.Unlock()
	return a.design, a.err
}

func keyOf(set []scenarios.Setting) string {
	var b strings.Builder
	for _, one := range set {
		b.WriteString(one.Value + "\n")
	}
	return b.String()
}

// judge marches a design roughly, with its odds by those of another, and tells what it costs.
func (t *task) judge(march *diffusion.March, s *scenarios.Scenario) (Design, error) {
	settings, rough := s.Settings, diffusion.RoughSettings()
	settings.Resolution, settings.Tolerance = rough.Resolution, rough.Tolerance
	var r diffusion.Result
	if err := s.Design.Check(); err != nil {
		return Design{}, err
	}
	if err := march.Run(&s.Model, settings, &r); err != nil {
		return Design{}, err
	}
	if r.Condenses(&s.Model) {
		return Design{}, diffusion.ErrCondenses
	}
	odds, err := march.OddsLike(t.like, &s.Design, s.Settings)
	if err != nil {
		return Design{}, err
	}
	told, err := machine.Tell(nil, &s.Design, &r, &s.Machine)
	if err != nil {
		return Design{}, err
	}
	d := Design{Cost: costOf(s, told), Mean: r.Nozzle.Mean, Low: odds.Low, High: odds.High, Probability: odds.Probability}
	e := r.Endures(&s.Model)
	for _, demand := range t.demands {
		d.Violations = append(d.Violations, violation(demand, &s.Machine, e, &odds, told))
	}
	return d, nil
}

// costOf is that of the parts and of the running that counts.
func costOf(s *scenarios.Scenario, told *machine.Answer) float64 {
	const hour = 3600
	return told.Cost.Total + told.Cost.PerHour*s.Search.Running/hour
}

// errNothing says why there is nothing to look for.
func errNothing(s *scenarios.Scenario) error {
	m := &s.Machine
	switch {
	case len(s.Free) == 0:
		return fmt.Errorf("%s: nothing may be chosen: state [[free]], a key with what it may be", s.File)
	case len(m.Parts) == 0 && (m.Energy == 0 || s.Search.Running == 0):
		return fmt.Errorf("%s: nothing costs anything: state [[part]] with their prices, or the price of energy in [money] and the running in [search]", s.File)
	}
	return nil
}
