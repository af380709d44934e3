package diffusion

import (
	"math"
	"slices"
)

// Verdict says whether the strand is dry enough at the nozzle, and gets there.
type Verdict int

const (
	// Unsure: the limit lies between the wettest and the driest of the marches over
	// the scatter of the diffusivity, their numerical errors included.
	Unsure Verdict = iota
	// Dry: even the wettest of them meets the limit, by more than its numerical error.
	Dry
	// Wet: even the driest of them does not, by more than its numerical error.
	Wet
	// TooHot: dry enough, or perhaps, but the strand softens on its way.
	TooHot
)

func (v Verdict) String() string { return [...]string{"unsure", "dry", "wet", "softens"}[v] }

// Assessment is an answer with its two errors: that of the numbers and that of
// the diffusivity.
type Assessment struct {
	Result
	Low, High      float64      // driest and wettest mean content over the scatter of the diffusivity, and of the air in bores whose strand drags it [kg/kg dry]
	LowError       float64      // numerical error of Low: as NumericalError where it could matter to the verdict, else what that makes likely [kg/kg dry]
	HighError      float64      // of High [kg/kg dry]
	NumericalError float64      // half-width of the band that holds the exact solution of the model, for the mean [kg/kg dry]
	Errors         StateError   // the same for all of the state at the nozzle
	ZoneErrors     []StateError // and at the exit of each zone
	Mouths         float64      // mean content if the bores in which the strand drags its air had air without limit; zero if there are none [kg/kg dry]
	Verdict        Verdict
	Numbers        bool // the numerical error alone makes the verdict unsure
	Endurance      Endurance
	Warnings       []Warning
	Settings       Settings // of the marches; finer than was asked for where that decides the verdict
}

// Safety factor and order of the grid convergence index: Roache, Verification and
// Validation in Computational Science and Engineering (1998); ASME V&V 20. The
// order is taken as one, though four is measured, since the step and the
// storage of thin skins may not be in the asymptotic range.
const (
	gridSafety = 1.25
	gridOrder  = 1
	gridRatio  = 2
	// leastError is added for what refining does not show: air and strand that agree to a
	// millionth, chance agreement of two grids. That a strand of small Biot number has one temperature is
	// the model's and is not in it.
	leastError = 1e-5
	// frontError is added at resolution 5 where the diffusivity grows e-fold or more with the content: an error of
	// space that refining once may not show, since the front has moved along the nodes as well. The largest
	// found, in wetted polyamides, was 1.4e-4.
	frontError, frontResolution = 2e-4, 5
	// coverError is added at resolution 5 where a cover keeps its place: an error of the angles of which refining
	// shows the most, but not always. The largest found beyond it, of the content that is left, was 2e-4.
	coverError = 2e-4
)

// Assess runs the model at its central diffusivity, once refined, and over the scatter of it
// ([Span]), and judges. Where the numerical error alone stands between the answer and a verdict, all of it is done again
// with [Settings.Refined] up to two times.
func (w *March) Assess(m *Model, s Settings) (*Assessment, error) {
	a, err := w.assess(m, s)
	if err != nil {
		return nil, err
	}
	const refinements = 2
	for range refinements {
		if !a.Numbers || a.laborious(m) {
			break
		}
		finer, err := w.assess(m, a.Settings.Refined())
		if err != nil {
			break // what is known stands, and says that it is in doubt
		}
		a = finer
	}
	a.Warnings = warnings(m, a)
	return a, nil
}

// laborious tells that the marches of an assessment took so long that four times as much would be felt. Where the air has to agree with
// the strand there are several to each, of which the last alone is counted in the steps.
func (a *Assessment) laborious(m *Model) bool {
	const most = 200_000 // nodes in all steps, of a few hundredths of a microsecond each
	nodes := a.Nodes
	if m.covered() {
		nodes *= anglesFor(a.Settings.Resolution)
	}
	if slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Air.Limited() && z.Air.Direction != With }) {
		const each = 5 // marches, or so
		nodes *= each
	}
	return nodes*a.Steps > most
}

// assess is one round of Assess, without warnings.
func (w *March) assess(m *Model, s Settings) (*Assessment, error) {
	a := &Assessment{Settings: s}
	if err := w.measured(m, s, &a.Result); err != nil {
		return nil, err
	}
	var other Result
	if err := w.Run(m, s.Refined(), &other); err != nil {
		return nil, err
	}
	a.errors(&other, m.Unseen(s))
	var span Span
	span.Add(0, m, &a.Result)
	for _, power := range [...]float64{1, -1} {
		varied := m.Scattered(power)
		if err := w.Run(&varied, s, &other); err != nil {
			return nil, err
		}
		span.Add(power, &varied, &other)
	}
	var err error
	if a.Low, a.High, err = span.Ends(w, m, s); err != nil {
		return nil, err
	}
	if a.Mouths, err = w.mouths(m, s); err != nil {
		return nil, err
	}
	if err := a.bounds(w, m, &span); err != nil {
		return nil, err
	}
	a.Endurance = a.Endures(m)
	a.Verdict = Judge(a.Low-a.LowError, a.High+a.HighError, m.Limit, a.Endurance.Survival)
	a.Numbers = a.Verdict != Judge(a.Low, a.High, m.Limit, a.Endurance.Survival)
	return a, nil
}

// bounds sets the numerical errors of the driest and of the wettest content: that of the central one, absolute or relative,
// whichever is more, or, where many times as much could matter to the verdict, by a refined march, though no less than the central.
func (a *Assessment) bounds(w *March, m *Model, span *Span) error {
	const near, share = 20, 0.01 // times the error, and of the limit
	for _, end := range [...]struct {
		point point
		into  *float64
	}{{span.driest(), &a.LowError}, {span.wettest(), &a.HighError}} {
		*end.into = a.errorAt(end.point.mean)
		if math.Abs(end.point.mean-m.Limit) > max(near**end.into, share*m.Limit) || end.point.power == 0 {
			continue
		}
		varied := m.Scattered(end.point.power)
		_, off, err := w.NumericalError(&varied, a.Settings)
		if err != nil {
			return err
		}
		*end.into = max(off, a.NumericalError) // two marches may agree by chance
	}
	if slack := span.slack(); slack > 0 {
		a.LowError, a.HighError = a.LowError+slack, a.HighError+slack
	}
	return nil
}

// errorAt is what the numerical error of the central content makes likely for another one [kg/kg dry].
func (a *Assessment) errorAt(content float64) float64 {
	if a.Nozzle.Mean <= 0 {
		return a.NumericalError
	}
	return a.NumericalError * max(1, content/a.Nozzle.Mean)
}

// NumericalError runs a model and the same refined: the mean content at the nozzle, and the half-width of the band that holds
// the exact solution of the model [kg/kg dry].
func (w *March) NumericalError(m *Model, s Settings) (mean, off float64, err error) {
	var coarse, fine Result
	if err := w.Run(m, s, &coarse); err != nil {
		return 0, 0, err
	}
	if err := w.Run(m, s.Refined(), &fine); err != nil {
		return 0, 0, err
	}
	return coarse.Nozzle.Mean, stateError(coarse.Nozzle, fine.Nozzle, m.Unseen(s)).Mean, nil
}

// covered tells that a cover keeps its place in a zone of the path.
func (m *Model) covered() bool {
	return slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Contact.Fixed() })
}

// Unseen is the share of a content that is added to its [Margin] for what one refined run does not show.
func (m *Model) Unseen(s Settings) float64 {
	share := frontError * min(1, 2*math.Abs(m.growth()))
	if m.covered() {
		share += coverError
	}
	return leastError + share*min(1, frontResolution/s.Resolution)
}

// Margin is the half-width of the band that holds the exact value, by the grid convergence index, from one
// value and the same with [Settings.Refined].
func Margin(coarse, refined float64) float64 {
	ratio := math.Pow(gridRatio, gridOrder)
	return gridSafety * ratio / (ratio - 1) * math.Abs(coarse-refined)
}

// Judge compares the driest and the wettest content, each with its numerical error taken off or added, with the limit. A
// strand that softens is never dry.
func Judge(low, high, limit float64, s Survival) Verdict {
	switch {
	case low > limit:
		return Wet
	case s == Softens:
		return TooHot
	case high <= limit:
		return Dry
	}
	return Unsure
}
