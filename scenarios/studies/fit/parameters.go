package fit

import (
	"math"

	"strandry/diffusion/estimation"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// Known is what is not fitted although it may be, and what is.
type Known struct {
	Beta       scenarios.BetaChoice // [scenarios.Fitted] or [scenarios.Fixed]
	Activation bool                 // it is fitted
	Prior      bool                 // what the library says of what is fitted counts
}

// asked is what is fitted in any case: the activation energy where the temperatures tell it, and beta where the file asks for it.
func asked(w *scenarios.Weighings) Known {
	low, high := temperatures(w)
	known := Known{Beta: scenarios.Fixed, Activation: high-low >= apart}
	if w.Beta == scenarios.Fitted {
		known.Beta = scenarios.Fitted
	}
	return known
}

// apart is how far two temperatures must lie from each other for an activation energy to be told from them [K].
const apart = 5

// temperatures of the runs, the lowest and the highest [K].
func temperatures(w *scenarios.Weighings) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range w.Runs {
		T := w.Runs[i].Zone.Air.Temperature
		low, high = math.Min(low, T), math.Max(high, T)
	}
	return low, high
}

// equilibrium is the content that a run tends to [kg/kg dry].
func equilibrium(w *scenarios.Weighings, run *scenarios.Run) float64 {
	air := run.Zone.Air
	return w.Model.Material.Sorption.Content(air.VapourPressure/humidair.SaturationPressure(air.Temperature), air.Temperature)
}

// guess is about how much of a run's strand is polymer [kg], and how wet it was [kg/kg dry].
func guess(w *scenarios.Weighings, run *scenarios.Run) (dry, start float64) {
	first, last := run.Points[0].Mass, run.Points[len(run.Points)-1].Mass
	switch {
	case run.DryMassKnown:
		dry = run.DryMass
	case run.StartKnown:
		dry = first / (1 + run.Start)
	default:
		dry = last / (1 + equilibrium(w, run))
	}
	if run.StartKnown {
		return dry, run.Start
	}
	return dry, math.Min(math.Max(first/dry-1, 0), most(w))
}

// most water that is looked for in a strand [kg/kg dry]: twice what the library says it holds in saturated air.
func most(w *scenarios.Weighings) float64 {
	const wide, ceiling = 2, 0.5
	return math.Min(wide*w.Model.Material.Sorption.Content(1, w.Room.Temperature), ceiling)
}

// wettest content of a run, about [kg/kg dry].
func wettest(w *scenarios.Weighings, run *scenarios.Run) float64 {
	dry, start := guess(w, run)
	return math.Max(math.Max(start, heaviest(run)/dry-1), equilibrium(w, run))
}

// parameters is where each unknown stands in the vector of an estimation; -1 for what is known.
type parameters struct {
	weighings *scenarios.Weighings
	known     Known
	middle    float64 // temperature of the diffusivity that is estimated [K]
	curves    []*curve
	// Places: the logarithm of the diffusivity has the first.
	activation, beta, drift int
	start, dry              []int
	pieces                  []*piece // weighed at the machine
	problem                 estimation.Problem
	begin                   []float64
	readings                []place
}

// place is which weighing a reading is: a point of a run, -1 being its dry mass; or where the run is -1 a mass of a piece, the first, second or third of those of a check.
type place struct{ run, point, piece int }

// ofRun tells that it is a point of a run.
func (at place) ofRun() bool { return at.run >= 0 && at.point >= 0 }

// add gives a parameter its place.
func (p *parameters) add(low, high, begin float64, prior estimation.Prior) int {
	p.problem.Lower, p.problem.Upper = append(p.problem.Lower, low), append(p.problem.Upper, high)
	p.problem.Prior = append(p.problem.Prior, prior)
	const inside = 1e-6
	p.begin = append(p.begin, math.Min(math.Max(begin, low+inside*(high-low)), high-inside*(high-low)))
	return len(p.begin) - 1
}

func newParameters(w *scenarios.Weighings, known Known) (*parameters, error) {
	p := &parameters{weighings: w, known: known, activation: -1, beta: -1, drift: -1}
	inverse := 0.0
	for i := range w.Runs {
		inverse += 1 / w.Runs[i].Zone.Air.Temperature / float64(len(w.Runs))
	}
	p.middle = 1 / inverse
	p.ofMaterial()
	p.ofRuns()
	p.ofScale()
	p.problem.Predict = p.predict
	return p, p.ofMachine()
}

// ofMaterial are the parameters of the diffusivity.
func (p *parameters) ofMaterial() {
	law := &p.weighings.Model.Material.Diffusivity
	prior := func(mean, deviation float64) estimation.Prior {
		if !p.known.Prior {
			return estimation.Prior{}
		}
		return estimation.Prior{Mean: mean, Deviation: deviation}
	}
	const decades, slowest, fastest = 9.3, 1e-18, 1e-7 // of ln: four powers of ten either way
	expected := math.Log(law.Dry(p.middle))
	p.add(math.Max(expected-decades, math.Log(slowest)), math.Min(expected+decades, math.Log(fastest)), expected,
		prior(expected, math.Log(law.Scatter.Value)/materials.EndDeviate))
	if p.known.Activation {
		e := p.pieceAt(p.middle)
		p.activation = p.add(0, 2.5e5, e.Value, prior(e.Value, (e.High-e.Low)/2/materials.EndDeviate))
	}
	if p.known.Beta == scenarios.Fitted {
		b := law.Beta
		const steep, steepest = 5, 10 // of ln D between the dry strand and the wettest, and the wettest that is looked for
		wet := 0.0
		for i := range p.weighings.Runs {
			wet = math.Max(wet, wettest(p.weighings, &p.weighings.Runs[i]))
		}
		reach := math.Min(steep/wet, steepest/most(p.weighings))
		p.beta = p.add(math.Max(b.Value-reach, -200), math.Min(b.Value+reach, 500), b.Value, prior(b.Value, (b.High-b.Low)/2/materials.EndDeviate))
	}
}

// pieceAt is the activation energy of the library at a temperature.
func (p *parameters) pieceAt(T float64) materials.Value {
	pieces := p.weighings.Model.Material.Diffusivity.Pieces
	found := pieces[0].Activation
	for _, piece := range pieces {
		if piece.From <= T {
			found = piece.Activation
		}
	}
	return found
}

// ofRuns are those of each strand.
func (p *parameters) ofRuns() {
	w := p.weighings
	step := w.Scale.Resolution
	for i := range w.Runs {
		run := &w.Runs[i]
		p.curves = append(p.curves, newCurve(w, run, p.known))
		dry, start := guess(w, run)
		for k, point := range run.Points {
			p.readings = append(p.readings, place{run: i, point: k})
			p.problem.Readings = append(p.problem.Readings, estimation.Reading{Value: point.Mass, Resolution: step})
		}
		startAt, dryAt := -1, -1
		if !run.StartKnown {
			startAt = p.add(0, most(w), start, estimation.Prior{})
		}
		all := heaviest(run) + 2*step
		dryAt = p.add(all/(1+most(w)), all, dry, estimation.Prior{})
		if run.DryMassKnown { // it was read from the scale as well
			p.readings = append(p.readings, place{run: i, point: -1})
			p.problem.Readings = append(p.problem.Readings, estimation.Reading{Value: run.DryMass, Resolution: step})
		}
		p.start, p.dry = append(p.start, startAt), append(p.dry, dryAt)
	}
}

// ofScale is the drift, where there may be one.
func (p *parameters) ofScale() {
	scale := &p.weighings.Scale
	if scale.Drift == 0 {
		return
	}
	longest, most := 0.0, 0.0
	for i := range p.weighings.Runs {
		run := &p.weighings.Runs[i]
		longest = math.Max(longest, run.Zone.Duration)
		most = math.Max(most, math.Abs(heaviest(run)-lightest(run)))
	}
	bound, prior := most/longest, estimation.Prior{}
	if !math.IsInf(scale.Drift, 1) {
		const wide = 5
		bound, prior = wide*scale.Drift, estimation.Prior{Deviation: scale.Drift / materials.EndDeviate}
	}
	p.drift = p.add(-bound, bound, 0, prior)
}

// of gives the properties of a run's strand.
func (p *parameters) of(run int, x []float64) properties {
	r := &p.weighings.Runs[run]
	law := &p.weighings.Model.Material.Diffusivity
	out := properties{logDiffusivity: p.logDiffusivity(x, r.Zone.Air.Temperature), start: r.Start, beta: law.Beta.Value}
	if at := p.start[run]; at >= 0 {
		out.start = x[at]
	}
	if p.beta >= 0 {
		out.beta = x[p.beta]
	}
	return out
}

// logDiffusivity at a temperature [K], without water [ln m2/s].
func (p *parameters) logDiffusivity(x []float64, T float64) float64 {
	if p.activation >= 0 {
		return x[0] - x[p.activation]/materials.GasConstant*(1/T-1/p.middle)
	}
	law := &p.weighings.Model.Material.Diffusivity
	return x[0] + math.Log(law.Dry(T)/law.Dry(p.middle))
}

// predict fills in the masses that the scale would be given.
func (p *parameters) predict(x, out []float64) error {
	run, contents := -1, []float64(nil)
	for i, at := range p.readings {
		if at.run < 0 {
			var err error
			if out[i], err = p.weighed(p.pieces[at.piece], at.point, x); err != nil {
				return err
			}
			continue
		}
		if at.run != run {
			var err error
			if contents, err = p.curves[at.run].at(p.of(at.run, x).all()); err != nil {
				return err
			}
			run = at.run
		}
		out[i] = x[p.dry[run]]
		if at.point < 0 {
			continue
		}
		out[i] *= 1 + contents[p.curves[run].of[at.point]]
		if p.drift >= 0 {
			out[i] += x[p.drift] * p.weighings.Runs[run].Points[at.point].Time
		}
	}
	return nil
}
