package fit

import (
	"math"

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
		factor, err := o.without(k)
		if err != nil {
			return err
		}
		f := Finding{Kind: Outlier, Run: at.run, Line: o.Weighings.Runs[at.run].Points[at.point].Line, Amount: r, Factor: factor}
		if likely, ok := o.slip(k); ok {
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

// without is the factor on the diffusivity when a reading is left out.
func (o *Outcome) without(k int) (float64, error) {
	p := o.parameters
	less := p.problem
	less.Readings = append(append([]estimation.Reading(nil), p.problem.Readings[:k]...), p.problem.Readings[k+1:]...)
	all := make([]float64, len(p.readings))
	less.Predict = func(x, out []float64) error {
		err := p.predict(x, all)
		copy(out[:k], all[:k])
		copy(out[k:], all[k+1:])
		return err
	}
	e, err := less.LeastSquares(o.estimate.Parameters)
	if err != nil {
		return 1, nil // too few are left to say
	}
	return math.Exp(e.Parameters[0] - o.estimate.Parameters[0]), nil
}

// slip tells whether a reading that is off would fit if one of its digits were another one, and which mass it then was.
func (o *Outcome) slip(k int) (mass float64, ok bool) {
	p := o.parameters
	step, spread := o.Weighings.Scale.Resolution, o.spread()
	shown := p.problem.Readings[k].Value
	off := o.estimate.Residuals[k]
	const near = 2.5
	within := func(change float64) bool {
		return math.Abs(off-change) < near*spread+step/2
	}
	for place := 10 * step; place < shown; place *= 10 { // one digit, but for the last, in which anything may hide
		for digit := 1.0; digit <= 9; digit++ {
			change := math.Copysign(digit*place, off)
			if math.Abs(change) > 20*spread && within(change) {
				return shown - change, true
			}
		}
	}
	return 0, false
}
