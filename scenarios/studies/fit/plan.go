package fit

import (
	"math"
	"math/rand/v2"

	"strandry/diffusion"
	"strandry/diffusion/estimation"
	"strandry/scenarios"
)

// Plan is what weighings that are still to be made would tell.
type Plan struct {
	Weighings *scenarios.Weighings // with the times of each run, and the masses that it would show if the strand is what the library says
	Known     Known
	Runs      []PlannedRun
	Scales    []float64   // steps [kg], the coarsest first
	Strands   []float64   // dry masses of what is weighed in each run [kg], the least first
	Factors   [][]float64 // of a scale and a strand: by which the diffusivity would be known either way, nine times in ten
	Library   float64     // the factor by which it is known now
	Chosen    Option      // with the scale that there is: the least strand that tells as much as is wanted, else the largest
	Enough    bool        // it does
	Scale     Option      // where it does not, the coarsest finer scale that does with some strand, to first order; zero where none does
	Design    *DesignPlan // of the design that the answer serves; nil for none
}

// Option is a way to weigh.
type Option struct {
	Scale, Strand float64 // [kg]
	Factor        float64 // expected, if the strand is what the library says
	// Tried are the factors that came out of weighings made up for strands whose diffusivity lies at some places of what the library says, slow ones first.
	Tried []Trial
}

// Trial is a made-up strand and what its weighings told.
type Trial struct {
	Faster float64 // than the middle of the library
	Factor float64
	Told   bool
}

// PlannedRun is when to weigh.
type PlannedRun struct {
	Times []float64 // [s]
	Left  float64   // share of the water that is then still to move [-]
	Water float64   // that moves till then [kg/kg dry]
}

// scaleSteps are those of the scales that people have [kg], and of the one that is stated.
func scaleSteps(own float64) []float64 {
	steps := []float64{1e-3, 1e-4, 1e-5, 1e-6}
	for i, s := range steps {
		if math.Abs(own/s-1) < alike {
			return steps
		}
		if own > s {
			return append(append(append([]float64(nil), steps[:i]...), own), steps[i:]...)
		}
	}
	return append(steps, own)
}

// strands are the masses that are tried [kg].
func strands(w *scenarios.Weighings) []float64 {
	if w.Plan.Strand > 0 {
		return []float64{w.Plan.Strand}
	}
	return []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.5}
}

// repeats is the noise of a scale besides its rounding, in steps (common practice, no source: a display that is steady but for its last digit).
const repeats = 0.3

// errorOf a weighing with a scale of some step [kg].
func errorOf(step float64) float64 { return step * math.Sqrt(repeats*repeats+1.0/12) }

// MakePlan finds out what weighings would tell; design is the one that the answer serves, nil for none.
func MakePlan(w *scenarios.Weighings, design *scenarios.Scenario) (*Plan, error) {
	p := &Plan{Weighings: w, Known: asked(w), Scales: scaleSteps(w.Scale.Resolution), Strands: strands(w)}
	p.Library = w.Model.Material.Diffusivity.Scatter.Value
	for i := range w.Runs {
		run, err := p.schedule(&w.Runs[i])
		if err != nil {
			return nil, err
		}
		p.Runs = append(p.Runs, run)
	}
	if err := p.grid(); err != nil {
		return nil, err
	}
	if err := p.choose(); err != nil {
		return nil, err
	}
	if design != nil {
		var err error
		if p.Design, err = p.serve(design); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// schedule finds when to weigh: until nineteen twentieths of the water have moved, or as long as there is time; closer together in the beginning, as the root of time.
func (p *Plan) schedule(run *scenarios.Run) (PlannedRun, error) {
	w := p.Weighings
	m := w.Model
	zone := run.Zone
	zone.Duration = w.Plan.Longest
	m.Path = []diffusion.Zone{zone}
	m.Start, m.StartActivity = run.Start, 0
	const steps, shortest, moved, nothing = 80, 300, 0.95, 1e-9
	var times []float64
	for i := range steps {
		times = append(times, shortest*math.Pow(w.Plan.Longest/shortest, float64(i)/(steps-1)))
	}
	all := run.Start - equilibrium(w, run)
	out := PlannedRun{}
	end := w.Plan.Longest
	found := false
	err := diffusion.NewMarch().RunLengths(&m, 0, times, diffusion.CoarseSettings(), func(i int, r *diffusion.Result) error {
		share := 1.0
		if math.Abs(all) > nothing {
			share = (run.Start - r.Nozzle.Mean) / all
		}
		if !found {
			out.Left, out.Water = 1-share, run.Start-r.Nozzle.Mean
			end, found = times[i], share >= moved
		}
		return nil
	})
	for i := range w.Plan.Count {
		x := float64(i) / float64(w.Plan.Count-1)
		t := roundTime(end * x * x)
		if n := len(out.Times); n == 0 || t > out.Times[n-1] {
			out.Times = append(out.Times, t)
		}
	}
	return out, err
}

// roundTime is one that a person can keep [s].
func roundTime(t float64) float64 {
	to := 60.0
	switch {
	case t >= 4*3600:
		to = 900
	case t >= 1800:
		to = 300
	}
	return to * math.Round(t/to)
}

// imagined are the weighings as they would be with a scale, a strand [kg] and water that moves so many times as fast as the library says; exact without a
// source of noise.
func (p *Plan) imagined(scale, strand, faster float64, noise func() float64) (*scenarios.Weighings, error) {
	w := *p.Weighings
	w.Scale.Resolution, w.Scale.Stated = scale, true
	w.Runs = append([]scenarios.Run(nil), w.Runs...)
	for i := range w.Runs {
		run := &w.Runs[i]
		run.Points = nil
		for k, t := range p.Runs[i].Times {
			run.Points = append(run.Points, scenarios.Weighing{Time: t, Mass: strand, Line: k + 2})
		}
		run.Zone.Duration = p.Runs[i].Times[len(p.Runs[i].Times)-1]
		c := newCurve(&w, run, Known{})
		law := math.Log(w.Model.Material.Diffusivity.Dry(run.Zone.Air.Temperature) * faster)
		exact := axis{origin: run.Start}
		c.lattice[1] = exact
		contents, err := c.at([3]float64{law, run.Start, w.Model.Material.Diffusivity.Beta.Value})
		if err != nil {
			return nil, err
		}
		for k := range run.Points {
			mass := strand * (1 + contents[c.of[k]])
			if noise != nil {
				mass = scale * math.Round((mass+noise())/scale)
			}
			run.Points[k].Mass = mass
		}
	}
	return &w, nil
}

// grid finds what each scale tells of each strand. What is told goes with the mass over the step, so that one march serves all.
func (p *Plan) grid() error {
	const unit = 0.02
	w, err := p.imagined(1e-9, unit, 1, nil)
	if err != nil {
		return err
	}
	par, err := newParameters(w, p.Known)
	if err != nil {
		return err
	}
	x := append([]float64(nil), par.begin...)
	for i := range w.Runs {
		x[par.dry[i]] = unit
		if at := par.start[i]; at >= 0 {
			x[at] = w.Runs[i].Start
		}
	}
	for _, scale := range p.Scales {
		var row []float64
		for _, strand := range p.Strands {
			factor, err := par.expected(x, errorOf(scale)*unit/strand)
			if err != nil {
				return err
			}
			row = append(row, p.seen(factor, scale, strand))
		}
		p.Factors = append(p.Factors, row)
	}
	return nil
}

// seen is infinite where the water that moves is hardly a step of the scale: then no weighing tells anything, whatever the information says to first order.
func (p *Plan) seen(factor, scale, strand float64) float64 {
	most := 0.0
	for _, r := range p.Runs {
		most = math.Max(most, math.Abs(r.Water)*strand/scale)
	}
	if most < fewSteps {
		return math.Inf(1)
	}
	return factor
}

// choose takes the least strand that tells what is wanted with the scale that there is, both to first order and in fits of weighings that are made up; or the largest.
func (p *Plan) choose() error {
	wanted := p.Weighings.Plan.Factor
	for s, scale := range p.Scales {
		own := math.Abs(scale/p.Weighings.Scale.Resolution-1) < alike
		for k, strand := range p.Strands {
			option := Option{Scale: scale, Strand: strand, Factor: p.Factors[s][k]}
			if finer := scale < p.Weighings.Scale.Resolution*(1-alike); finer && option.Factor <= wanted && p.Scale.Scale == 0 {
				p.Scale = option
			}
			if !own || p.Enough {
				continue
			}
			p.Chosen = option
			if last := k == len(p.Strands)-1; option.Factor > wanted && !last {
				continue
			}
			if err := p.try(); err != nil {
				return err
			}
			p.Enough = option.Factor <= wanted && p.Chosen.holds(wanted)
		}
	}
	if p.Enough {
		p.Scale = Option{}
	}
	return nil
}

// alike is how near two steps of scales are that are the same.
const alike = 0.01

// holds tells whether four of five made-up strands were known as well as is wanted, or nearly so.
func (o *Option) holds(wanted float64) bool {
	const nearly, share = 1.1, 0.8 // on the logarithm
	good := 0
	for _, t := range o.Tried {
		if t.Told && math.Log(t.Factor) <= nearly*math.Log(wanted) {
			good++
		}
	}
	return float64(good) >= share*float64(len(o.Tried))
}

// try makes up some weighings as chosen and fits them.
func (p *Plan) try() error {
	if math.IsInf(p.Chosen.Factor, 1) {
		return nil
	}
	trials, err := tryAll(places(), func(i int, deviate float64) (Trial, error) {
		faster := p.Weighings.Model.Material.Diffusivity.Factor(deviate)
		random := rand.New(rand.NewPCG(uint64(i), 0x2545f4914f6cdd1d))
		w, err := p.imagined(p.Chosen.Scale, p.Chosen.Strand, faster, func() float64 { return repeats * p.Chosen.Scale * random.NormFloat64() })
		if err != nil {
			return Trial{}, err
		}
		w.Beta = p.Known.Beta
		o, err := find(w, p.Known, estimation.Effort{Seed: 1, Effective: 300, Most: 40_000})
		if err != nil {
			return Trial{}, err
		}
		return Trial{faster, o.Diffusivity.Factor(), o.Told}, nil
	})
	p.Chosen.Tried = trials
	return err
}
