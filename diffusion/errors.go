package diffusion

import (
	"errors"
	"fmt"
)

// RangeError is a value of a model, a target or settings that is not finite or not in its range. [errors.As] finds it in what [March.Run] and all
// that judges return; the zone that it belongs to is named in the text around it.
type RangeError struct {
	Quantity         string // with its unit in brackets
	Value, Low, High float64
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s = %g: allowed %g to %g", e.Quantity, e.Value, e.Low, e.High)
}

// ErrBelowZero is what becomes of a march whose mean content falls below zero by more than any of its steps may err. A finer resolution
// or tolerance may have an answer.
var ErrBelowZero = errors.New("the mean content came out below zero by more than the numbers allow: refine [numerics]")

// ErrCondenses is for those who compare designs: it is what becomes of one whose air is too little to hold the water ([Result.Condenses]). It has
// an answer, but one that rests on water that is not followed.
var ErrCondenses = errors.New("so little air that water would condense")
