package checked

import (
	"context"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/scenarios"
)

// Check is one of the scenario beside the model.
type Check struct {
	Title   string
	Zone    string  // behind whose exit the strand left the machine; "" at the nozzle
	Speed   float64 // of the feed [m/s]
	Step    float64 // of the scale [kg]
	Stepped bool    // as given; else as the digits of the masses tell

	Comparisons []Comparison // none where Reason is one
	Diffusivity Factor       // if all else is as the model has it; zero where nothing was weighed after the path
	Residue     Residue      // of drying out; zero where nothing was dried
	Gained      bool         // it was heavier after the path than before, by more than rounding, where the model has it lose water
	Reason      string       // why there is no prediction; "" where there is one
}

// OfStart tells that nothing was weighed after the path.
func (c *Check) OfStart() bool {
	return !slices.ContainsFunc(c.Comparisons, func(c Comparison) bool { return c.Of != AtStart })
}

// Told tells that a comparison of what was weighed after the path can tell something.
func (c *Check) Told() bool {
	return slices.ContainsFunc(c.Comparisons, func(c Comparison) bool { return c.Of != AtStart && c.Outcome != Untold })
}

// Comparison is one quantity, measured and predicted.
type Comparison struct {
	Of        Quantity
	Measured  Estimate
	Predicted Estimate // its Value is that at the medians of all that is in doubt
	Off       float64  // error of the computation, in the same unit
	Chance    float64  // of so large a difference or a larger one, either way, if the model is right [-]
	Outcome   Outcome
}

// Estimate is a value with the 10 and 90 % points of where it lies: contents [kg/kg dry], or a share of the mass before.
type Estimate struct {
	Value float64
	diffusion.Between
}

// Width is that from the 10 to the 90 % point.
func (e Estimate) Width() float64 { return e.High - e.Low }

// Residue is what drying out may have left in the strand [kg/kg dry].
type Residue struct {
	Known bool    // the scenario states it, and Most is it
	Most  float64 // else what the strand holds in air of the room at Oven
	Oven  float64 // [K]; zero where it is known
}

// Quantity is what two masses tell.
type Quantity int

const (
	// AtStart is the content with which the strand set off.
	AtStart Quantity = iota
	// AtExit is that with which it left the machine.
	AtExit
	// Lost is the water that it lost between, over its mass before.
	Lost
)

func (q Quantity) String() string { return [...]string{"start", "exit", "lost"}[q] }

// Outcome is how a measurement compares.
type Outcome int

const (
	// Agrees: so large a difference is met in one of ten checks or more, if the model is right.
	Agrees Outcome = iota
	// Wetter: it holds more water than predicted, or lost less.
	Wetter
	// Drier: it holds less, or lost more.
	Drier
	// Untold: no difference is seen, but the masses are so rough that they would hardly show one.
	Untold
)

func (o Outcome) String() string {
	return [...]string{"agrees", "wetter", "drier", "cannot tell"}[o]
}

// Find sets each check of the scenario beside its prediction, in their order. The error is that of the context.
func Find(ctx context.Context, s *scenarios.Scenario) ([]Check, error) {
	n := len(s.Checks)
	return parallel.Map(ctx, diffusion.Marches(n), n, func(w *diffusion.March, i int) (Check, error) {
		return find(w, s, &s.Checks[i]), nil
	})
}

func find(w *diffusion.March, s *scenarios.Scenario, c *scenarios.Check) Check {
	out := Check{Title: c.Title, Step: c.Step, Stepped: c.Stepped}
	then, err := s.At(c)
	if err != nil {
		out.Reason = err.Error()
		return out
	}
	d := then.Design
	d.Path = d.Path[:c.Zone+1]
	out.Speed = d.Speed
	if c.Cut {
		out.Zone = d.Path[c.Zone].Name
	}
	p, err := predicted(w, &d, then.Settings)
	if err != nil {
		out.Reason = err.Error()
		return out
	}
	if c.Dried > 0 {
		out.Residue = Residue{Known: true, Most: c.Left}
		if !c.LeftKnown {
			out.Residue.Known = false
			out.Residue.Most, out.Residue.Oven = oven(then)
		}
	}
	for _, of := range [...]Quantity{AtStart, AtExit, Lost} {
		if r, ok := reads(c, of, out.Residue); ok {
			out.Comparisons = append(out.Comparisons, p.compare(of, r))
		}
	}
	out.Gained = c.Before > 0 && c.After-c.Before > c.Step && p.end < p.start
	for _, of := range [...]Quantity{Lost, AtExit} { // the last that there is: a start that is off spoils what was lost no less
		for i := range out.Comparisons {
			if out.Comparisons[i].Of == of {
				out.Diffusivity = factor(w, &d, then.Settings, of, out.Comparisons[i].Measured)
			}
		}
	}
	return out
}

// reads is a quantity as the masses of a check tell it; false where they do not.
func reads(c *scenarios.Check, of Quantity, left Residue) (reading, bool) {
	r := reading{pair: pair{wetter: c.Before, drier: c.Dried, step: c.Step, display: shown}}
	switch of {
	case AtExit:
		r.wetter = c.After
	case Lost:
		r.drier, r.lost = c.After, true
	}
	switch {
	case r.lost:
	case left.Known:
		r.least = left.Most
	default:
		r.spare = left.Most
	}
	return r, r.wetter > 0 && r.drier > 0
}

// prediction is what the model has of a design: at the medians, and drawn.
type prediction struct {
	start, end       float64 // at the medians [kg/kg dry]
	startOff, endOff float64 // errors of the computation [kg/kg dry]
	draws            []diffusion.Passage
}

func predicted(w *diffusion.March, d *diffusion.Design, s diffusion.Settings) (p prediction, err error) {
	const drawn = 1e-3 // by which the marches of draws are off, relative to the content: see [diffusion.DrawSettings]
	if p.end, p.endOff, err = w.NumericalError(&d.Model, s); err != nil {
		return p, err
	}
	var r diffusion.Result
	if err = w.Run(&d.Model, s, &r); err != nil {
		return p, err
	}
	p.start, p.endOff = r.Start.Mean, max(p.endOff, drawn*p.end)
	if len(d.Storage) > 0 {
		p.startOff = drawn * p.start
	}
	p.draws, err = w.Passages(d, s)
	return p, err
}

// value is a quantity of a passage.
func value(of Quantity, start, end float64) float64 {
	switch of {
	case AtStart:
		return start
	case AtExit:
		return end
	}
	return (start - end) / (1 + start)
}

// compare sets a quantity that was weighed beside its prediction.
func (p *prediction) compare(of Quantity, r reading) Comparison {
	c := Comparison{Of: of, Measured: r.estimate(), Predicted: Estimate{Value: value(of, p.start, p.end)}}
	switch of {
	case AtStart:
		c.Off = p.startOff
	case AtExit:
		c.Off = p.endOff
	case Lost:
		c.Off = (p.endOff + p.startOff) / (1 + p.start)
	}
	sample := make([]float64, len(p.draws))
	for i, d := range p.draws {
		sample[i] = value(of, d.Start, d.End)
	}
	c.Predicted.Between = deciles(of, sample)
	c.judge(&r, sample)
	return c
}

// deciles are the 10 and 90 % points of a sample; of contents those of the odds of a run, which are found in logarithms.
func deciles(of Quantity, sample []float64) diffusion.Between {
	own := slices.Clone(sample)
	if of == Lost {
		return diffusion.Deciles(own)
	}
	for i, x := range own {
		own[i] = math.Log(x)
	}
	b := diffusion.Deciles(own)
	return diffusion.Between{Low: math.Exp(b.Low), High: math.Exp(b.High)}
}

// judge tells how likely the difference is. How often the model would show this display or one that is drier, and how often this or a wetter one, are both found
// from the draws and from where the masses may lie within their steps; twice the smaller is the chance of so large a difference, either way. Of machines
// that are as the model has them a chance of up to p comes out at most so often, and just so often where the step is small against what is in doubt. The error of the
// computation counts for the model: the chance is the greatest within it.
func (c *Comparison) judge(r *reading, predicted []float64) {
	share := func(d display, shift float64) (above float64) {
		one := *r
		one.display = d
		for _, y := range predicted {
			above += 1 - one.notMore(y+shift)
		}
		return above / float64(len(predicted))
	}
	more := false
	for _, shift := range [...]float64{0, -c.Off, c.Off} {
		upTo, from := share(orLess, shift), 1-share(orMore, shift) // what is predicted shows as no more than this, and as no less
		if shift == 0 {
			more = upTo > from
		}
		c.Chance = max(c.Chance, min(1, 2*min(upTo, from)))
	}
	switch {
	case c.Chance < diffusion.OneInTen && more == (c.Of != Lost):
		c.Outcome = Wetter
	case c.Chance < diffusion.OneInTen:
		c.Outcome = Drier
	case c.rough():
		c.Outcome = Untold
	}
}

// rough tells that a measurement lies in so wide a range that it would hardly show a difference: as wide as that of the prediction, and a fifth of what is predicted
// (what one would call a difference; a judgement, no source), which a prediction without doubt is measured by.
func (c *Comparison) rough() bool {
	const clearly = 0.2
	return c.Measured.Width() >= max(c.Predicted.Width(), clearly*math.Abs(c.Predicted.Value))
}

// Count is how many comparisons there are, and how many of them agree and cannot tell.
func Count(all []Check) (of, agree, untold int) {
	for i := range all {
		for _, c := range all[i].Comparisons {
			of++
			switch c.Outcome {
			case Agrees:
				agree++
			case Untold:
				untold++
			}
		}
	}
	return of, agree, untold
}
