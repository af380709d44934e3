package size

import (
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/scenarios"
)

// Request is what is asked for.
type Request struct {
	Key      string  // such as zone.drum.length
	From, To *string // ends of the range as a user writes them; nil for the usual ones
}

// RequestError is a request that is not understood, whatever the scenario's answer would be.
type RequestError struct{ error }

// Unwrap gives the reason.
func (e RequestError) Unwrap() error { return e.error }

// Answer tells at which value the limit is just met, or what stands in the way.
type Answer struct {
	Key     scenarios.Key
	Setting scenarios.Setting // the value as it is written in a file
	Outcome Outcome
	// Value just meets the limit; where it is met everywhere or nowhere, it is the
	// driest one [SI].
	Value          float64
	NumericalError float64 // half-width of the band that holds the true value; zero unless met [SI]
	// The limit is met between DryFrom and DryTo [SI]; Value is one of them. Zero for Nowhere.
	DryFrom, DryTo float64
	From, To       float64       // range that was searched [SI]
	Usual          bool          // To is the material's usual highest drying temperature
	Bears          bool          // To is the temperature from which on the strand may give way
	Narrowed       bool          // the scenario, or its air, refuses values nearer to the ends asked for
	Inside         bool          // Nowhere: the driest value lies between the ends
	Reliable       ReliableRange // values that meet the limit nine times in ten
	Marches        int           // that the value at the medians took
	Points         []Point       // that were tried at the medians, rising

	Now       Point // the value in force; Ratio is zero where there is none
	Design    *diffusion.Design
	Check     *diffusion.Assessment // a run at the value, as it is written
	Diagnosis advice.Diagnosis      // of that run
}

// ReliableRange are the values that meet the limit nine times in ten, of those that meet it at the medians.
type ReliableRange struct {
	Outcome     Outcome
	Value       float64 // next to that at the medians; where there is none, the likeliest that was looked at [SI]
	From, To    float64 // the limit is met so between these [SI]; zero for Nowhere
	Probability float64 // of meeting the limit at Value
	Survives    diffusion.Survival
	Asked       int // values of which the odds were found
}

// Softening is the range of the values tried that meet the limit at the medians and at which the strand
// softens; ok is false where there is none.
func (a *Answer) Softening() (from, to float64, ok bool) {
	for _, p := range a.Points {
		if p.Ratio > 1 || p.Survives != diffusion.Softens {
			continue
		}
		if !ok {
			from, ok = p.X, true
		}
		to = p.X
	}
	return from, to, ok
}

// digits with which the value is written: a ten-millionth of it is far below any numerical error.
const digits = 7

// Find answers a request.
func Find(w *diffusion.March, s *scenarios.Scenario, r Request) (*Answer, error) {
	t, err := newTask(w, s, r)
	if err != nil {
		return nil, err
	}
	if err := t.find(); err != nil {
		return nil, err
	}
	if t.answer.Reliable, err = t.reliable(); err != nil {
		return nil, err
	}
	t.answer.Marches = t.marches
	return t.answer, nil
}

// find searches and checks what it has found; where that is an end of the range which can be marched and not assessed, again between others.
func (t *task) find() error {
	a := t.answer
	for {
		f, err := t.search()
		if err != nil {
			return err
		}
		a.Outcome, a.Value, a.DryFrom, a.DryTo, a.Inside = f.outcome, f.x, f.from, f.to, f.inside
		a.Points = slices.Clone(t.last.points)
		if still(a.Points) {
			return fmt.Errorf("%s: nothing that it is set to changes the content at the nozzle or the limit", a.Key.Name)
		}
		if err = t.check(f); err == nil || !t.retreat(f.x) {
			return err
		}
	}
}

// still tells that the value acts on nothing: every ratio is the same to the bit.
func still(points []Point) bool {
	return !slices.ContainsFunc(points, func(p Point) bool { return p.Ratio != points[0].Ratio })
}
