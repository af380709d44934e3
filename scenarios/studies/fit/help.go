package fit

import (
	"math"

	"strandry/materials"
	"strandry/scenarios"
)

// Help is a way to weigh that would tell the diffusivity better.
type Help struct {
	Kind   HelpKind
	Amount float64 // what the kind says, in SI
	Factor float64 // by which the diffusivity would be known either way, nine times in ten, if it is what is most likely now; or where the weighings do not tell it, what the library says, of a strand as wet
	// as the room makes it
}

// HelpKind is what could be done otherwise.
type HelpKind int

const (
	// FinerScale is one with steps of Amount [kg].
	FinerScale HelpKind = iota
	// MoreStrand is a dry mass of Amount in each run [kg].
	MoreStrand
	// Longer is to go on until Amount [s], with as many weighings.
	Longer
	// DriedOut is to dry the strand out and weigh it, so that the dry mass is known.
	DriedOut
	// Hotter is air of Amount [K].
	Hotter
)

// helps are ways to weigh that would tell the diffusivity clearly better, in the order of their kinds.
func (o *Outcome) helps() error {
	now, err := o.expected(o.Weighings, 1)
	if err != nil {
		return err
	}
	w := o.Weighings
	const finest, tenth, times = 1e-6, 0.1, 5
	try := func(kind HelpKind, amount, larger float64, change func(w *scenarios.Weighings)) {
		if err != nil {
			return
		}
		other := *w
		other.Runs = append([]scenarios.Run(nil), w.Runs...)
		change(&other)
		var factor float64
		if factor, err = o.expected(&other, larger); err != nil {
			return
		}
		const clearly = 0.7 // of the width now
		if math.Log(factor) < clearly*math.Log(now) {
			o.Helps = append(o.Helps, Help{kind, amount, factor})
		}
	}
	if finer := w.Scale.Resolution * tenth; finer >= finest*(1-1e-9) {
		try(FinerScale, finer, 1, func(w *scenarios.Weighings) { w.Scale.Resolution = finer })
	}
	dry := 0.0
	for i := range o.Runs {
		dry = math.Max(dry, o.Runs[i].Dry.Value)
	}
	try(MoreStrand, times*dry, times, func(*scenarios.Weighings) {})
	o.tryTimes(try)
	return err
}

// tryTimes tries what can be done with the runs.
func (o *Outcome) tryTimes(try func(kind HelpKind, amount, larger float64, change func(w *scenarios.Weighings))) {
	const longer, warmer = 3, 15
	longest, unknown := 0.0, false
	for i := range o.Weighings.Runs {
		run := &o.Weighings.Runs[i]
		longest = math.Max(longest, run.Zone.Duration)
		unknown = unknown || !run.DryMassKnown
	}
	try(Longer, longer*longest, 1, func(w *scenarios.Weighings) {
		for i := range w.Runs {
			points := append([]scenarios.Weighing(nil), w.Runs[i].Points...)
			for k := range points {
				points[k].Time *= longer
			}
			w.Runs[i].Points = points
		}
	})
	if unknown {
		try(DriedOut, 0, 1, func(w *scenarios.Weighings) {
			for i := range w.Runs {
				w.Runs[i].DryMass, w.Runs[i].DryMassKnown = o.Runs[i].Dry.Value, true
			}
		})
	}
	_, hottest := temperatures(o.Weighings)
	p := &o.Weighings.Model.Material
	if hot := hottest + warmer; hot <= p.GivesWay().Min && hot <= p.DryingTemperature.High {
		try(Hotter, hot, 1, func(w *scenarios.Weighings) {
			for i := range w.Runs {
				w.Runs[i].Zone.Air = w.Runs[i].Zone.Air.At(w.Runs[i].Zone.Air.Temperature + warmer)
			}
		})
	}
}

// expected is the factor by which the diffusivity would be known either way from weighings like these, of so many times as large a strand, if
// what is most likely now is the truth.
func (o *Outcome) expected(w *scenarios.Weighings, larger float64) (float64, error) {
	p, err := newParameters(w, o.parameters.known)
	if err != nil {
		return 0, err
	}
	x := append([]float64(nil), o.estimate.Parameters...)
	if !o.Told { // what is most likely means little
		law := &w.Model.Material.Diffusivity
		x[0] = math.Log(law.Dry(p.middle))
		for _, at := range p.start {
			if at >= 0 { // as wet as the room makes it
				x[at] = w.Model.Material.Sorption.Content(w.Room.Humidity, w.Room.Temperature)
			}
		}
	}
	for _, at := range p.dry {
		x[at] *= larger
		p.problem.Upper[at] *= larger
	}
	if !p.visible(x) {
		return math.Inf(1), nil
	}
	return p.expected(x, o.scaleNoise(w))
}

// visible tells whether the water that can move in some run is more than a few steps of the scale: else no weighing tells anything, whatever the information says
// to first order.
func (p *parameters) visible(x []float64) bool {
	for i := range p.weighings.Runs {
		run := &p.weighings.Runs[i]
		if math.Abs(p.of(i, x).start-equilibrium(p.weighings, run))*x[p.dry[i]] >= fewSteps*p.weighings.Scale.Resolution {
			return true
		}
	}
	return false
}

// scaleNoise of a weighing with the scale of some weighings [kg], rounding included: as many steps as now, unless they scatter by more than a
// scale does: that no finer one takes away.
func (o *Outcome) scaleNoise(w *scenarios.Weighings) float64 {
	now, step := o.parameters.error(o.estimate), o.Weighings.Scale.Resolution
	if o.scatters() {
		return now
	}
	return now * w.Scale.Resolution / step
}

// expected is the factor by which the diffusivity is known either way, nine times in ten, from weighings with an error [kg] if the parameters are these: by the
// information of Fisher, to first order.
func (p *parameters) expected(x []float64, noise float64) (float64, error) {
	jacobian, err := p.problem.Jacobian(x)
	if err != nil {
		return 0, err
	}
	covariance, err := p.problem.Covariance(jacobian, noise)
	if err != nil {
		return 0, err
	}
	return math.Exp(materials.EndDeviate * math.Sqrt(covariance.At(0, 0))), nil
}
