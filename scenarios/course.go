package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"sync"

	"gonum.org/v1/gonum/interp"

	"strandry/diffusion"
)

// course is how the numbers of a model go with the deviate of a key that is in doubt: to read a scenario anew takes as long as a march, and odds ask
// for some thousands of deviates. It is known at every quarter of a deviate as the scenario itself has it, with monotone curves between, below the median and above it, which leave no limit of the key.
type course struct {
	numbers []number
	ends    [2]float64 // deviates between which it is known
}

// number is one of a model that the key changes.
type number struct {
	path  []int // to it: indices of fields and, where a slice is met, of its elements
	value float64
	below interp.FritschButland // the median of the key, at which a doubt that is wider on one side bends
	above interp.FritschButland
}

func (n *number) at(deviate float64) float64 {
	if deviate < 0 {
		return n.below.Predict(deviate)
	}
	return n.above.Predict(deviate)
}

// course of a key; false where the scenario cannot be read at one of the deviates.
func (s *Scenario) course(at func(deviate float64) (*Scenario, error)) (*course, bool) {
	const farthest, step = 4, 0.25
	c := course{ends: [2]float64{-farthest, farthest}}
	var places []float64
	var models []reflect.Value
	for z := c.ends[0]; z <= c.ends[1]; z += step {
		varied, err := at(z)
		if err != nil {
			return nil, false
		}
		places, models = append(places, z), append(models, reflect.ValueOf(varied.Model))
	}
	ok := true
	differing(reflect.ValueOf(s.Model), models, nil, func(n number, values []float64) {
		middle := len(places) / 2
		ok = ok && n.below.Fit(places[:middle+1], values[:middle+1]) == nil && n.above.Fit(places[middle:], values[middle:]) == nil
		c.numbers = append(c.numbers, n)
	})
	return &c, ok
}

// differing finds the numbers of a model that are not the same in all of some others, and their values there.
func differing(own reflect.Value, models []reflect.Value, path []int, found func(n number, values []float64)) {
	inside := func(count int, part func(v reflect.Value, i int) reflect.Value) {
		for i := range count {
			parts := make([]reflect.Value, len(models))
			for k, m := range models {
				parts[k] = part(m, i)
			}
			differing(part(own, i), parts, append(slices.Clone(path), i), found)
		}
	}
	switch own.Kind() {
	case reflect.Float64:
		values := make([]float64, len(models))
		for k, m := range models {
			values[k] = m.Float()
		}
		if slices.ContainsFunc(values, func(v float64) bool { return v != own.Float() }) {
			found(number{path: path, value: own.Float()}, values)
		}
	case reflect.Struct:
		inside(own.NumField(), reflect.Value.Field)
	case reflect.Slice:
		if !slices.ContainsFunc(models, func(m reflect.Value) bool { return m.Len() != own.Len() }) {
			inside(own.Len(), reflect.Value.Index)
		}
	}
}

// change makes of a model that at the median the one at a deviate; false where that is beyond the ends.
func (c *course) change(m *diffusion.Model, deviate float64) bool {
	if !(deviate >= c.ends[0] && deviate <= c.ends[1]) {
		return false
	}
	for i := range c.numbers {
		c.numbers[i].shift(m, c.numbers[i].at(deviate))
	}
	return true
}

// shift moves the number of a model, which others may have changed before, by what its own value lies from another.
func (n *number) shift(m *diffusion.Model, to float64) {
	v := numberAt(reflect.ValueOf(m).Elem(), n.path)
	if v.Float() == n.value {
		v.SetFloat(to)
		return
	}
	v.SetFloat(v.Float() + to - n.value)
}

// numberAt is the number of a model at a path.
func numberAt(v reflect.Value, path []int) reflect.Value {
	for _, index := range path {
		if v.Kind() == reflect.Slice {
			v = v.Index(index)
		} else {
			v = v.Field(index)
		}
	}
	return v
}

// doubt hands the uncertainties over to the model. Those of the material's own properties and of the limit take the place of what the material says.
func (s *Scenario) doubt() {
	for i := range s.Uncertain {
		u := &s.Uncertain[i]
		if s.own(u) {
			continue
		}
		at := func(deviate float64) (*Scenario, error) {
			const digits = 17
			return s.With(u.Key.Setting(u.At(deviate), digits))
		}
		known := sync.OnceValue(func() *course {
			if c, ok := s.course(at); ok {
				return c
			}
			return nil
		})
		s.Given = append(s.Given, diffusion.Given{Name: u.Key.Name, Change: func(m *diffusion.Model, deviate float64) error {
			if c := known(); c != nil && c.change(m, deviate) {
				return nil
			}
			varied, err := at(deviate)
			if err != nil {
				return fmt.Errorf("%s: %w", u.Key.Name, err)
			}
			differing(reflect.ValueOf(s.Model), []reflect.Value{reflect.ValueOf(varied.Model)}, nil, func(n number, values []float64) { n.shift(m, values[0]) })
			return nil
		}})
	}
}
