package fit

import (
	"errors"
	"math"
	"slices"

	"strandry/diffusion/estimation"
)

// ofOutliers looks for weighings that are far off, by what the others scatter; and says what the diffusivity is without the worst of them.
func (o *Outcome) ofOutliers() error {
	p := o.parameters
	const far, steps, most = 5, 1.5, 3
	spread := o.spread()
	told := 0
	for k, at := range p.readings {
		r := o.estimate.Residuals[k]
		if !at.ofRun() || math.Abs(r) < far*spread || math.Abs(r) < steps*o.Weighings.Scale.Resolution || o.besides(k) {
			continue
		}
		if told++; told > most {
			break
		}
		factor, off, spread, err := o.without(k)
		if err != nil {
			return err
		}
		f := Finding{Kind: Outlier, Run: at.run, Line: o.Weighings.Runs[at.run].Points[at.point].Line, Amount: off, Factor: factor}
		if likely, ok := slip(p.problem.Readings[k], off, spread); ok {
			f.Kind, f.Amount = Slip, likely
		}
		o.find(f)
	}
	return nil
}

// besides tells whether the readings on both sides are off the same way and nearly as much: that is no outlier but a shape.
func (o *Outcome) besides(k int) bool {
	p, r := o.parameters, o.estimate.Residuals
	const nearly = 0.5
	for _, n := range [...]int{k - 1, k + 1} {
		if n >= 0 && n < len(r) && p.readings[n].run == p.readings[k].run && r[n]/r[k] > nearly {
			return true
		}
	}
	return false
}

// without leaves a reading out: the factor on the diffusivity then, what the reading is off by, since it no longer draws the curve to itself, and how the others scatter.
func (o *Outcome) without(k int) (factor, off, spread float64, err error) {
	p := o.parameters
	less := p.problem
	less.Readings = slices.Delete(slices.Clone(p.problem.Readings), k, k+1)
	all := make([]float64, len(p.readings))
	less.Predict = func(x, out []float64) error {
		err := p.predict(x, all)
		copy(out[:k], all[:k])
		copy(out[k:], all[k+1:])
		return err
	}
	e, err := less.LeastSquares(o.estimate.Parameters)
	if errors.Is(err, estimation.ErrTooFew) {
		return 1, o.estimate.Residuals[k], o.spread(), nil // too few are left to say
	}
	if err != nil {
		return 0, 0, 0, err
	}
	err = p.predict(e.Parameters, all)
	return math.Exp(e.Parameters[0] - o.estimate.Parameters[0]), p.problem.Readings[k].Value - all[k], p.spreadOf(e.Residuals), err
}

// slip tells whether a reading that is off would fit if one of its digits were another one, or two neighbours of them changed places, and which mass it then was.
// The last digit alone may be off by anything.
func slip(r estimation.Reading, off, spread float64) (mass float64, ok bool) {
	const near = 2.5
	step := r.Resolution
	nearest := math.Min(near*spread+step/2, slipShare*math.Abs(off))
	for _, steps := range misread(int(math.Round(r.Value / step))) {
		change := step * float64(steps)
		if miss := math.Abs(off + change); miss < nearest {
			mass, nearest, ok = step*math.Round((r.Value+change)/step), miss, true
		}
	}
	return mass, ok
}

// slipShare is how near to the prediction another digit must bring a reading, as a share of what it is off by: else nearly any mass would look like a slip.
const slipShare = 0.14

// misread are the changes that make of a number another one that differs in one digit, but for the last, or in two neighbours that changed places.
func misread(number int) (changes []int) {
	before := number % 10
	for place := 10; place <= number; place *= 10 {
		digit := number / place % 10
		for other := range 10 {
			if other != digit {
				changes = append(changes, (other-digit)*place)
			}
		}
		if before != digit {
			changes = append(changes, (digit-before)*place/10+(before-digit)*place)
		}
		before = digit
	}
	return changes
}
