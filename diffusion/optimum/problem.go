package optimum

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
)

// Variable is one that may be chosen.
type Variable struct {
	From, To float64 // bounds of a continuous one, From below To
	Log      bool    // scale of a continuous one; From must then be above zero
	// Values of a discrete one in an order in which what lies near acts alike; nil for a continuous one.
	Values []float64
	// Snap rounds a value to one that can be made; nil for none. It must give a value between From and To, and of what it gave the same again.
	Snap func(x float64) float64
}

// Answer is what is known of a place.
type Answer struct {
	Cost       float64   // finite
	Violations []float64 // one for each constraint, zero or less where it holds, in units that can be compared, finite
}

// Problem is what is to be solved.
type Problem struct {
	Variables   []Variable
	Constraints int // how many
	// At gives the answer at a place, its values in the order of the variables. It is called by several goroutines at once and must not keep x. An error says that there is
	// no answer there, unless the context has ended.
	At func(ctx context.Context, x []float64) (Answer, error)
	// Known are places that are looked at first, such as the design as it stands; they must lie within the bounds.
	Known [][]float64
}

// Point is a place that was looked at.
type Point struct {
	X []float64
	Answer
	Err   error   // why there is no answer; nil where there is one
	Lacks float64 // sum of the violations above zero; infinite without an answer

	unit []float64 // place on the scales, each from 0 to 1
}

// Holds tells whether all constraints hold.
func (p *Point) Holds() bool { return p.Lacks == 0 }

// better tells whether a point is better than another, which may be nil.
func (p *Point) better(q *Point) bool {
	switch {
	case q == nil:
		return true
	case p.Lacks != q.Lacks:
		return p.Lacks < q.Lacks
	}
	return p.Err == nil && p.Cost < q.Cost
}

// lacking is the sum of the violations above zero.
func lacking(violations []float64) float64 {
	sum := 0.0
	for _, v := range violations {
		sum += max(v, 0)
	}
	return sum
}

// check refuses what is no problem.
func (p *Problem) check() error {
	if len(p.Variables) == 0 || p.At == nil || p.Constraints < 0 {
		return errors.New("optimum: no variables, or nothing to ask")
	}
	for i, v := range p.Variables {
		if err := v.check(); err != nil {
			return fmt.Errorf("optimum: variable %d: %w", i+1, err)
		}
	}
	for _, x := range p.Known {
		if len(x) != len(p.Variables) {
			return errors.New("optimum: a known place with other variables")
		}
		for i, v := range p.Variables {
			if !v.takes(x[i]) {
				return fmt.Errorf("optimum: a known place lies outside of variable %d", i+1)
			}
		}
	}
	return nil
}

func (v *Variable) check() error {
	if v.Values != nil {
		for i, x := range v.Values {
			if math.IsNaN(x) || math.IsInf(x, 0) || slices.Index(v.Values, x) != i {
				return errors.New("a value that is no number, or stands there twice")
			}
		}
		if len(v.Values) == 0 {
			return errors.New("no values")
		}
		return nil
	}
	if !(v.From < v.To) || math.IsInf(v.To-v.From, 0) || v.Log && v.From <= 0 {
		return errors.New("bounds that enclose nothing, or a scale that has no room for them")
	}
	return nil
}

// takes tells whether a value is within the bounds, or one of the list.
func (v *Variable) takes(x float64) bool {
	if v.Values != nil {
		return slices.Contains(v.Values, x)
	}
	return x >= v.From && x <= v.To
}

// value is that at a place from 0 to 1 on the scale.
func (v *Variable) value(u float64) float64 {
	u = min(max(u, 0), 1)
	if v.Values != nil {
		return v.Values[v.index(u)]
	}
	x := v.From + (v.To-v.From)*u
	if v.Log {
		x = v.From * math.Pow(v.To/v.From, u)
	}
	switch u { // to the bit
	case 0:
		x = v.From
	case 1:
		x = v.To
	}
	if v.Snap != nil {
		x = v.Snap(x)
	}
	return min(max(x, v.From), v.To)
}

// unit is the place of a value on the scale.
func (v *Variable) unit(x float64) float64 {
	switch {
	case v.Values != nil:
		return float64(slices.Index(v.Values, x)) * v.step()
	case v.Log:
		return math.Log(x/v.From) / math.Log(v.To/v.From)
	}
	return (x - v.From) / (v.To - v.From)
}

// Beside is the value that lies by a share of the scale beside another one, within the bounds; of a continuous variable.
func (v *Variable) Beside(x, share float64) float64 { return v.value(v.unit(x) + share) }

// step is that between two values of a list on the scale.
func (v *Variable) step() float64 { return 1 / float64(max(len(v.Values)-1, 1)) }

func (v *Variable) index(u float64) int {
	return int(math.Round(min(max(u, 0), 1) * float64(len(v.Values)-1)))
}

// near is a place on the scale, that of the value next to it where the variable is discrete.
func (v *Variable) near(u float64) float64 {
	u = min(max(u, 0), 1)
	if v.Values != nil {
		return float64(v.index(u)) * v.step()
	}
	return u
}

// places is how many places a problem of discrete variables has; false where it has more than so many, or continuous variables.
func (p *Problem) places(most int) (int, bool) {
	all := 1
	for _, v := range p.Variables {
		if v.Values == nil || all > most {
			return 0, false
		}
		all *= len(v.Values)
	}
	return all, all <= most
}

// place is the one of [Problem.places] with an index.
func (p *Problem) place(i int) []float64 {
	unit := make([]float64, len(p.Variables))
	for k, v := range p.Variables {
		unit[k] = float64(i%len(v.Values)) * v.step()
		i /= len(v.Values)
	}
	return unit
}
