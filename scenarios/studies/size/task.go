package size

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
	"strandry/scenarios"
)

// task is one request being answered.
type task struct {
	march    *diffusion.March
	scenario *scenarios.Scenario
	zone     int // whose length is sought; -1 for another key
	answer   *Answer
	last     *search
	marches  int
}

func newTask(w *diffusion.March, s *scenarios.Scenario, r Request) (*task, error) {
	key, err := keyOf(s, r.Key)
	if err != nil {
		return nil, err
	}
	t := &task{march: w, scenario: s, zone: -1, answer: &Answer{Key: key}}
	for i, z := range s.Model.Path {
		if key.Name == "zone."+z.Name+".length" {
			t.zone = i
		}
	}
	return t, t.bounds(r)
}

// bounds sets the range.
func (t *task) bounds(r Request) error {
	a, k := t.answer, t.answer.Key
	low, high, ok := t.scenario.Limits(k)
	if !ok && k.Value > 0 {
		const around = 100
		low, high, ok = k.Value/around, k.Value*around, true
		if k.Dimension.Name() == quantity.Temperature().Name() {
			low, high = k.Value-around, k.Value+around
		}
	}
	a.From, a.To = low, high
	if scenarios.Heats(k) {
		p := &t.scenario.Model.Material
		a.To, a.Bears = p.GivesWay().Min, true
		if strings.HasPrefix(k.Name, "zone.") && p.DryingTemperature.Value <= a.To {
			a.To, a.Usual, a.Bears = p.DryingTemperature.Value, true, false
		}
	}
	for _, end := range []struct {
		name    string
		written *string
		into    *float64
	}{{"from", r.From, &a.From}, {"to", r.To, &a.To}} {
		if end.written == nil {
			if !ok {
				return RequestError{fmt.Errorf("%s has no natural ends: give --from and --to", k.Name)}
			}
			continue
		}
		x, err := k.Parse(*end.written)
		if err != nil {
			return RequestError{fmt.Errorf("--%s: %w", end.name, err)}
		}
		*end.into = x
	}
	a.Usual, a.Bears = a.Usual && r.To == nil, a.Bears && r.To == nil
	if !(a.From < a.To) {
		return RequestError{fmt.Errorf("%s: nothing lies between %s and %s; --from is the lower end, --to the upper one", k.Name,
			k.Setting(a.From, digits).Value, k.Setting(a.To, digits).Value)}
	}
	return t.narrow()
}

func isTemperature(k scenarios.Key) bool { return k.Dimension.Name() == quantity.Temperature().Name() }

// even tells whether values are spread evenly, not by their ratio.
func (t *task) even() bool {
	k, a := t.answer.Key, t.answer
	const decade = 10
	return isTemperature(k) || a.From <= 0 || a.To < decade*a.From && k.Plain()
}

// with is the model with a value of the key.
func (t *task) with(x float64) (*diffusion.Design, diffusion.Settings, error) {
	s, err := t.scenario.With(t.answer.Key.Setting(x, 16))
	if err != nil {
		return nil, diffusion.Settings{}, err
	}
	return &s.Design, s.Settings, nil
}

// point runs the scenario at a value.
func (t *task) point(x float64) (Point, error) {
	m, settings, err := t.with(x)
	if err != nil {
		return Point{}, err
	}
	var result diffusion.Result
	err = t.run(m, settings, &result)
	if err != nil {
		return Point{}, err
	}
	return pointOf(x, m, &result), nil
}

// run marches a design of the scenario.
func (t *task) run(m *diffusion.Design, s diffusion.Settings, result *diffusion.Result) error {
	if err := t.march.Run(&m.Model, s, result); err != nil {
		return err
	}
	if t.ofFlow() && result.Condenses(&m.Model) {
		return diffusion.ErrCondenses
	}
	return nil
}

// narrow moves the ends of the range to values that the scenario takes, which costs no march, and then to values that can be
// marched; those of a flow of air, at whose least a march has an answer by chance, to values that can be assessed.
func (t *task) narrow() error {
	answered := t.marched
	if t.ofFlow() {
		answered = t.assessed
	}
	for _, try := range [...]func(x float64) error{t.taken, answered} {
		if err := t.narrowTo(try); err != nil {
			return fmt.Errorf("%s: %w: %w", t.answer.Key.Name, errNowhere, err)
		}
	}
	return nil
}

// ofFlow tells that the key is a flow of air.
func (t *task) ofFlow() bool { return strings.HasSuffix(t.answer.Key.Name, ".air.flow") }

// narrowTo moves the ends of the range to values that do.
func (t *task) narrowTo(try func(x float64) error) error {
	a, k := t.answer, t.answer.Key
	s := &search{from: a.From, to: a.To, even: t.even()}
	candidates := s.grid(coarse)
	if k.Known {
		candidates = append([]float64{k.Value}, candidates...)
	}
	narrowed, err := t.edges(s, try, candidates)
	if err != nil {
		return err
	}
	a.Usual, a.Bears = a.Usual && a.To == s.to, a.Bears && a.To == s.to
	a.From, a.To, a.Narrowed = s.from, s.to, a.Narrowed || narrowed
	return nil
}

// taken tells why the scenario does not take a value.
func (t *task) taken(x float64) error {
	_, _, err := t.with(x)
	return err
}

// marched tells why a value cannot be marched.
func (t *task) marched(x float64) error {
	t.marches++
	_, err := t.point(x)
	return err
}

// assessed tells why the whole assessment at a value cannot be made, where it cannot.
func (t *task) assessed(x float64) error {
	m, settings, err := t.with(x)
	if err != nil {
		return err
	}
	var coarse, fine diffusion.Result
	if err := t.run(m, settings, &coarse); err != nil {
		return err
	}
	t.marches += checked
	return t.march.RunFrom(&coarse, &m.Model, settings.Refined(), &fine)
}

// retreat moves the ends of the range to values that can be assessed; false where a value is no end, or can be.
func (t *task) retreat(x float64) bool {
	if x != t.answer.From && x != t.answer.To || t.assessed(x) == nil {
		return false
	}
	return t.narrowTo(t.assessed) == nil
}

// checked is how many marches it takes to tell whether there is an answer: at the settings, and finer.
const checked = 2

// edges moves those ends of a search at which the scenario cannot be marched inwards, by
// halves towards the first candidate at which it can.
func (t *task) edges(s *search, try func(x float64) error, candidates []float64) (narrowed bool, err error) {
	atFrom, atTo := try(s.from), try(s.to)
	if atFrom == nil && atTo == nil {
		return false, nil
	}
	anchor, found := 0.0, false
	for _, x := range candidates {
		if x < s.from || x > s.to {
			continue
		}
		if err = try(x); err == nil {
			anchor, found = x, true
			break
		}
	}
	if !found {
		return false, err
	}
	for _, end := range []struct {
		failed error
		x      *float64
	}{{atFrom, &s.from}, {atTo, &s.to}} {
		if end.failed != nil {
			*end.x = s.halve(try, anchor, *end.x)
		}
	}
	return true, nil
}

// halve gives the value next to bad, seen from good, that can be marched. A value that
// the scenario refuses is found out at once; one that fails in the march takes long, and few are
// tried.
func (s *search) halve(try func(float64) error, good, bad float64) float64 {
	const halvings, failures = 14, 4
	a, b := s.scale(good), s.scale(bad)
	for i, failed := 0, 0; i < halvings && failed < failures; i++ {
		middle := (a + b) / 2
		err := try(s.value(middle))
		if err == nil {
			a = middle
			continue
		}
		b = middle
		if refused := (strict.Faults)(nil); !errors.As(err, &refused) {
			failed++
		}
	}
	return s.value(a)
}

// search seeks the limit at the medians; of several crossings, that next to the value in force.
func (t *task) search() (found, error) {
	a := t.answer
	s := &search{at: t.point}
	if t.zone >= 0 {
		s = lengths(t.march, &t.scenario.Design, t.zone, t.scenario.Settings)
	}
	s.from, s.to, s.even = a.From, a.To, t.even()
	s.near = s.value((s.scale(a.From) + s.scale(a.To)) / 2)
	if a.Key.Known {
		s.near = min(max(a.Key.Value, a.From), a.To)
	}
	t.last = s
	f, err := s.run()
	t.marches += s.marches
	return f, err
}

// check runs the scenario at the value, as it is written, and tells what stands in the way.
func (t *task) check(f found) error {
	a, central := t.answer, t.last
	a.Setting = a.Key.Setting(a.Value, digits)
	s, err := t.scenario.With(a.Setting)
	if err == nil {
		a.Check, err = t.march.Assess(&s.Design, s.Settings)
	}
	if err != nil { // rounded past an end
		a.Setting = a.Key.Setting(a.Value, 16)
		if s, err = t.scenario.With(a.Setting); err != nil {
			return err
		}
		if a.Check, err = t.march.Assess(&s.Design, s.Settings); err != nil {
			return err
		}
	}
	if a.Value, err = a.Key.Parse(a.Setting.Value); err != nil {
		return err
	}
	switch f.x {
	case f.from:
		a.DryFrom = a.Value
	case f.to:
		a.DryTo = a.Value
	}
	a.Design = &s.Design
	t.marches += checked
	if a.Outcome == Nowhere {
		a.Diagnosis = advice.Diagnose(t.march, a.Design, a.Check)
	}
	if a.Key.Known {
		if now, err := t.point(a.Key.Value); err == nil {
			a.Now = now
			t.marches++
		}
	}
	if a.Outcome != Met {
		return nil
	}
	before := central.marches
	off := math.Abs(a.Check.Nozzle.Mean-a.Design.Limit) + a.Check.NumericalError
	a.NumericalError, err = central.errorOf(a.Value, off/a.Check.Nozzle.Mean)
	t.marches += central.marches - before
	return err
}
