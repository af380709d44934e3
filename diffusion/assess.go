package diffusion

import (
	"math"
	"slices"
)

// Verdict says whether the strand is dry enough at the nozzle, and gets there.
type Verdict int

const (
	// Unsure: the limit lies between the wettest and the driest of the marches over
	// the scatter of the diffusivity.
	Unsure Verdict = iota
	// Dry: even the wettest of them meets the limit.
	Dry
	// Wet: even the driest of them does not.
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
	NumericalError float64      // half-width of the band that holds the exact solution of the model, for the mean [kg/kg dry]
	Errors         StateError   // the same for all of the state at the nozzle
	ZoneErrors     []StateError // and at the exit of each zone
	Mouths         float64      // mean content if the bores in which the strand drags its air had air without limit; zero if there are none [kg/kg dry]
	Verdict        Verdict
	Endurance      Endurance
	Warnings       []Warning
	Settings       Settings
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
// ([Span]), and judges.
func (w *March) Assess(m *Model, s Settings) (*Assessment, error) {
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
	a.Endurance = a.Endures(m)
	a.Verdict = Judge(a.Low, a.High, m.Limit, a.Endurance.Survival)
	if a.Mouths, err = w.mouths(m, s); err != nil {
		return nil, err
	}
	a.Warnings = warnings(m, a)
	return a, nil
}

// Unseen is the share of a content that is added to its [Margin] for what one refined run does not show.
func (m *Model) Unseen(s Settings) float64 {
	share := frontError * min(1, 2*math.Abs(m.growth()))
	if slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Contact.Fixed() }) {
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

// Judge compares the driest and the wettest content with the limit. A strand that softens is never dry.
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
