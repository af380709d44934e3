package scenarios

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"gonum.org/v1/gonum/interp"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
)

// Courses tell how the numbers of a model go with a few keys, so that it is there at any value of them without reading the scenario anew. Where two keys act on the
// same number, as temperature and humidity of a room do on its vapour pressure, that is a product of what each does or else a sum: what is neither is refused.
type Courses struct {
	Base    *Scenario // with every key in its middle
	keys    []keyCourse
	numbers []shared
}

// keyCourse is what one key does to the numbers that it acts on.
type keyCourse struct {
	span Span
	on   []int                  // the numbers
	by   []interp.NotAKnotCubic // over the share of the greatest value
}

// shared is a number of a model on which keys act.
type shared struct {
	path  []int
	base  float64
	scale float64 // the largest that it comes to along a key, whatever its sign
	sum   bool    // of what several keys do, else a product
}

// Span is a key with the ends between which it is varied, rising [SI].
type Span struct {
	Key      Key
	From, To float64
	Middle   float64 // at which the numbers are those of Base
}

// Courses reads the scenario at some values of each key. The error tells of a key that does more than change numbers of the path, the feed, the room or the strand as it
// sets off, or that cannot be brought to its ends.
func (s *Scenario) Courses(spans []Span) (*Courses, error) {
	var set []Setting
	for _, span := range spans {
		set = append(set, span.InTheMiddle())
	}
	base, err := s.With(set...)
	if err != nil {
		return nil, fmt.Errorf("in the middle of the axes: %w", err)
	}
	c := &Courses{Base: base}
	for _, span := range spans {
		if err := c.add(span); err != nil {
			return nil, fmt.Errorf("%s: %w", span.Key.Name, err)
		}
	}
	if err := c.join(); err != nil {
		return nil, err
	}
	return c, c.undoubted()
}

// InTheMiddle is the setting of the key there.
func (span Span) InTheMiddle() Setting { return span.setting(span.Middle) }

func (span Span) setting(x float64) Setting {
	const digits = 17
	return span.Key.Setting(x, digits)
}

// knots are values at which the key is read: in equal steps on either side of the middle, of its logarithm where it is above zero.
func (span Span) knots() []float64 {
	const half = 6
	between := func(a, b, share float64) float64 {
		if span.From > 0 {
			return a * math.Pow(b/a, share)
		}
		return a + share*(b-a)
	}
	var all []float64
	for i := range half {
		all = append(all, between(span.From, span.Middle, float64(i)/half))
	}
	for i := range half {
		all = append(all, between(span.Middle, span.To, float64(i)/half))
	}
	return append(all, span.To)
}

// add reads the scenario along a key.
func (c *Courses) add(span Span) error {
	places := span.knots()
	models, err := parallel.Each(context.Background(), len(places), func(i int) (reflect.Value, error) {
		varied, err := c.Base.With(span.setting(places[i]))
		if err != nil {
			return reflect.Value{}, err
		}
		return reflect.ValueOf(varied.Model), c.comparable(varied)
	})
	if err != nil {
		return err
	}
	k := keyCourse{span: span}
	var failed error
	shares := make([]float64, len(places))
	for i, x := range places {
		shares[i] = x / span.To
	}
	differing(reflect.ValueOf(c.Base.Model), models, nil, func(n number, values []float64) {
		var by interp.NotAKnotCubic
		if err := by.Fit(shares, values); err != nil {
			failed = err
		}
		k.on, k.by = append(k.on, c.number(n, values)), append(k.by, by)
	})
	if failed == nil && len(k.on) == 0 {
		failed = fmt.Errorf("it does not act on the strand")
	}
	c.keys = append(c.keys, k)
	return failed
}

// number is the index of one on which keys act.
func (c *Courses) number(n number, values []float64) int {
	i := slices.IndexFunc(c.numbers, func(other shared) bool { return slices.Equal(other.path, n.path) })
	if i < 0 {
		i = len(c.numbers)
		c.numbers = append(c.numbers, shared{path: n.path, base: n.value})
	}
	for _, v := range values {
		c.numbers[i].scale = math.Max(c.numbers[i].scale, math.Abs(v))
	}
	return i
}

// comparable refuses a scenario that differs from the base by more than numbers of the path.
func (c *Courses) comparable(varied *Scenario) error {
	own, other := &c.Base.Design, &varied.Design
	switch {
	case own.LimitInDoubt() != other.LimitInDoubt() || own.NozzleTemperature != other.NozzleTemperature:
		return fmt.Errorf("it changes what is asked of the strand, not its way")
	case !reflect.DeepEqual(own.Material, other.Material):
		return fmt.Errorf("it changes the material")
	case c.Base.Settings != varied.Settings:
		return fmt.Errorf("it does not act on the strand")
	case !alike(reflect.ValueOf(own.Model), reflect.ValueOf(other.Model)):
		return fmt.Errorf("it changes more than numbers from one of its values to another")
	}
	return nil
}

// alike tells that two values differ in numbers alone.
func alike(a, b reflect.Value) bool {
	switch a.Kind() {
	case reflect.Float64:
		return true
	case reflect.Struct:
		for i := range a.NumField() {
			if !alike(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Slice:
		for i := range min(a.Len(), b.Len()) {
			if !alike(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return a.Len() == b.Len()
	}
	return a.Equal(b)
}

// join finds by what rule several keys act on the same number, from the scenario at the corners and between them, where all must be as the courses have it.
func (c *Courses) join() error {
	const near = 1e-3
	worst := make([][2]float64, len(c.numbers)) // errors as a product, and as a sum
	for corner := range 1 << (len(c.keys) + 1) {
		var values []float64
		var set []Setting
		for i, k := range c.keys {
			x := k.span.trial(corner&1 == 1, corner>>(i+1)&1 == 1)
			values, set = append(values, x), append(set, k.span.setting(x))
		}
		varied, err := c.Base.With(set...)
		if err != nil {
			continue // the row there says so
		}
		if err := c.comparable(varied); err != nil {
			return fmt.Errorf("%s: %w", c.names(), err)
		}
		c.compare(varied, values, worst)
	}
	for n := range c.numbers {
		c.numbers[n].sum = !(worst[n][0] <= worst[n][1])
		if off := math.Min(worst[n][0], worst[n][1]); !(off <= near) {
			return fmt.Errorf("%s: what they do to the model is neither smooth nor a product nor a sum", c.names())
		}
	}
	return nil
}

// trial is a value at which the courses are held against the scenario: an end of the key, or one between two knots.
func (span Span) trial(end, high bool) float64 {
	places := span.knots()
	i := len(places) / 5
	switch {
	case end && high:
		return span.To
	case end:
		return span.From
	case high:
		i = len(places) - 2 - i
	}
	return (places[i] + places[i+1]) / 2
}

// compare takes the errors of both rules at a scenario into the worst ones.
func (c *Courses) compare(s *Scenario, values []float64, worst [][2]float64) {
	for n := range c.numbers {
		truth := numberAt(reflect.ValueOf(&s.Model).Elem(), c.numbers[n].path).Float()
		product, sum := c.values(n, values)
		scale := math.Max(math.Abs(truth), c.numbers[n].scale)
		worst[n][0] = worse(worst[n][0], math.Abs(product-truth)/scale)
		worst[n][1] = worse(worst[n][1], math.Abs(sum-truth)/scale)
	}
}

// worse is the larger error; infinite for none.
func worse(a, b float64) float64 {
	if math.IsNaN(b) {
		return math.Inf(1)
	}
	return math.Max(a, b)
}

func (c *Courses) names() string {
	var all []string
	for _, k := range c.keys {
		all = append(all, k.span.Key.Name)
	}
	return strings.Join(all, ", ")
}

// values of a number, by either rule.
func (c *Courses) values(n int, at []float64) (product, sum float64) {
	base := c.numbers[n].base
	product, sum = base, base
	for i, k := range c.keys {
		if j := slices.Index(k.on, n); j >= 0 {
			to := k.by[j].Predict(at[i] / k.span.To)
			product, sum = product*to/base, sum+to-base
		}
	}
	return product, sum
}

// undoubted refuses an [[uncertain]] key that acts on a number which is varied: its doubt is that of one value.
func (c *Courses) undoubted() error {
	for _, g := range c.Base.Given {
		m := c.Base.Model
		m.Path, m.Storage = slices.Clone(m.Path), slices.Clone(m.Storage)
		if err := g.Change(&m, 1); err != nil {
			continue // the march says so
		}
		for _, n := range c.numbers {
			if numberAt(reflect.ValueOf(&m).Elem(), n.path).Float() != n.base {
				return fmt.Errorf("%s, which is [[uncertain]], acts on the same numbers as %s", g.Name, c.names())
			}
		}
	}
	return nil
}

// Varied are the keys as a chart goes over them.
func (c *Courses) Varied() []diffusion.Varied {
	var all []diffusion.Varied
	for _, k := range c.keys {
		all = append(all, diffusion.Varied{Name: k.span.Key.Name, From: k.span.From, To: k.span.To, Set: func(m *diffusion.Model, value float64) { c.set(m, &k, value) }})
	}
	return all
}

// set brings a model, in which other keys may have been set, to a value of one.
func (c *Courses) set(m *diffusion.Model, k *keyCourse, value float64) {
	for j, n := range k.on {
		number := &c.numbers[n]
		v, to := numberAt(reflect.ValueOf(m).Elem(), number.path), k.by[j].Predict(value/k.span.To)
		switch own := v.Float(); {
		case own == number.base:
			v.SetFloat(to)
		case number.sum:
			v.SetFloat(own + to - number.base)
		default:
			v.SetFloat(own * to / number.base)
		}
	}
}
