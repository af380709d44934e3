package estimation

import (
	"errors"
	"fmt"
	"math"
)

// Problem is what is to be found from what.
type Problem struct {
	Readings     []Reading
	Lower, Upper []float64 // bounds of each parameter, within which nothing is preferred unless there is a prior
	Prior        []Prior   // of each parameter; nil for none
	// Predict fills in the true values that the readings would have. An error ends the estimation.
	Predict func(parameters, predicted []float64) error
}

// Prior is what is known of a parameter beforehand: a normal distribution. The zero value knows nothing.
type Prior struct{ Mean, Deviation float64 }

// known tells whether the prior says anything.
func (p Prior) known() bool { return p.Deviation > 0 }

// ErrTooFew is what becomes of readings that are hardly more than the parameters.
var ErrTooFew = errors.New("too few readings")

// spare is how many readings there must be beyond the parameters.
const spare = 2

// Check tells what makes a problem unfit.
func (p *Problem) Check() error {
	if len(p.Lower) != len(p.Upper) || p.Prior != nil && len(p.Prior) != len(p.Lower) {
		return fmt.Errorf("%d lower bounds, %d upper ones, %d priors: each parameter has one of each", len(p.Lower), len(p.Upper), len(p.Prior))
	}
	for i := range p.Lower {
		if !(p.Lower[i] < p.Upper[i]) || math.IsInf(p.Upper[i]-p.Lower[i], 0) {
			return fmt.Errorf("parameter %d between %g and %g: the bounds must rise, and be finite", i, p.Lower[i], p.Upper[i])
		}
	}
	for i, r := range p.Readings {
		if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) || !(r.Resolution >= 0) || math.IsInf(r.Resolution, 0) {
			return fmt.Errorf("reading %d of %g, shown in steps of %g: both must be finite", i, r.Value, r.Resolution)
		}
	}
	if len(p.Readings) < len(p.Lower)+spare {
		return fmt.Errorf("%w: %d for %d parameters; %d or more are needed", ErrTooFew, len(p.Readings), len(p.Lower), len(p.Lower)+spare)
	}
	return nil
}

// coarsest is the largest step of the readings.
func (p *Problem) coarsest() float64 {
	most := 0.0
	for _, r := range p.Readings {
		most = math.Max(most, r.Resolution)
	}
	return most
}

// logPrior is the logarithm of the prior, -Inf outside the bounds.
func (p *Problem) logPrior(parameters []float64) float64 {
	sum := 0.0
	for i, v := range parameters {
		if !(v >= p.Lower[i] && v <= p.Upper[i]) {
			return math.Inf(-1)
		}
		if p.Prior != nil && p.Prior[i].known() {
			off := (v - p.Prior[i].Mean) / p.Prior[i].Deviation
			sum -= off * off / 2
		}
	}
	return sum
}
