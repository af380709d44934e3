package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"strandry/diffusion/estimation"
)

// runs tells of each run.
func (o *Outcome) runs() error {
	p, w := o.parameters, o.Weighings
	residuals := o.estimate.Residuals
	for i := range w.Runs {
		run := &w.Runs[i]
		T := run.Zone.Air.Temperature
		r := RunOutcome{Equilibrium: equilibrium(w, run)}
		r.Diffusivity = o.between(func(x []float64) float64 { return math.Exp(p.logDiffusivity(x, T)) })
		r.Start, r.Dry = Between{run.Start, run.Start, run.Start}, o.parameter(p.dry[i])
		if p.start[i] >= 0 {
			r.Start = o.parameter(p.start[i])
		}
		contents, err := p.curves[i].at(p.of(i, o.estimate.Parameters).all())
		if err != nil {
			return err
		}
		r.End = contents[len(contents)-1]
		o.contents = append(o.contents, slices.Clone(contents))
		for k, at := range p.readings {
			if at.run == i && at.ofRun() {
				r.Residuals = append(r.Residuals, residuals[k])
			}
		}
		o.Runs = append(o.Runs, r)
	}
	return o.bands()
}

// bands are those of the mass that the scale should show, besides noise and rounding.
func (o *Outcome) bands() error {
	p := o.parameters
	const most = 400 // draws, which tell the ends of a band to a tenth of its width
	var predicted [][]float64
	for i := 0; i < len(o.posterior.Draws); i += max(1, len(o.posterior.Draws)/most) {
		out := make([]float64, len(p.readings))
		if err := p.predict(o.posterior.Draws[i], out); err != nil {
			return err
		}
		predicted = append(predicted, out)
	}
	all := Outcome{posterior: &estimation.Posterior{Draws: predicted}}
	for k, at := range p.readings {
		if at.ofRun() {
			r := &o.Runs[at.run]
			r.Band = append(r.Band, all.between(func(x []float64) float64 { return x[k] }))
		}
	}
	return nil
}

// lack tests whether the residuals have a shape, in each run by itself: that of a drift, of air that grows moister, of a second stage that is slower or quicker than the first,
// and two that may be of anything.
func (o *Outcome) lack() error {
	p := o.parameters
	shapes := mat.NewDense(len(p.readings), len(smooth(0, 0))*len(o.Weighings.Runs), nil)
	for k, at := range p.readings {
		if !at.ofRun() {
			continue
		}
		points := o.Weighings.Runs[at.run].Points
		values := smooth(float64(at.point)/float64(len(points)-1), points[at.point].Time/points[len(points)-1].Time)
		for d, value := range values {
			shapes.Set(k, len(values)*at.run+d, value)
		}
	}
	var err error
	o.Lack, err = p.problem.LackOfFit(o.estimate, o.posterior, shapes, 1)
	return err
}

// smooth are functions over a run that residuals may look like: the share of the weighings that are done, and of the time, from 0 to 1.
func smooth(done, time float64) []float64 {
	x := 2*done - 1
	const slow, quick = 3, 12 // times within the run that a second stage fades by e
	return []float64{time, time * time, math.Exp(-slow * time), math.Exp(-quick * time), (3*x*x - 1) / 2, (5*x*x*x - 3*x) / 2}
}
