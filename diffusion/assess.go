package diffusion

import (
	"cmp"
	"slices"

	"golang.org/x/sync/errgroup"
)

// Verdict says whether the strand is dry enough at the nozzle, and gets there.
type Verdict int

const (
	// Unsure: neither dry nor wet nine times in ten.
	Unsure Verdict = iota
	// Dry: it meets the limit nine times in ten or more, the numerical error taken off.
	Dry
	// Wet: it meets the limit one time in ten or less, the numerical error included.
	Wet
	// TooHot: dry enough, or perhaps, but the strand softens on its way.
	TooHot
)

func (v Verdict) String() string { return [...]string{"unsure", "dry", "wet", "softens"}[v] }

// Assessment is an answer with its odds and its numerical error.
type Assessment struct {
	Result
	Odds
	NumericalError    float64      // half-width of the band that holds the exact solution of the model, for the mean at the medians [kg/kg dry]
	Errors            StateError   // the same for all of the state at the nozzle
	ZoneErrors        []StateError // and at the exit of each zone
	Steam             float64      // volume of steam for each volume of polymer at the nozzle's temperature
	Mouths            float64      // mean content if the bores in which the strand drags its air had air without limit; zero if there are none [kg/kg dry]
	Verdict           Verdict
	NumericallyUnsure bool // the numerical error alone makes the verdict unsure
	Endurance         Endurance
	Warnings          []Warning
	Settings          Settings // of the march at the medians; finer than was asked for where that decides the verdict
}

// Assess runs the model at the medians of all that is in doubt, once refined, finds its odds and judges. Where the numerical error
// alone stands between the answer and a verdict, the model is run again with [Settings.Refined] up to two times.
func (w *March) Assess(d *Design, s Settings) (*Assessment, error) {
	return w.AssessLike(nil, d, s)
}

// AssessLike is [March.Assess] with odds by those of a similar design, see [March.OddsLike]; nil for none.
func (w *March) AssessLike(similar *Odds, d *Design, s Settings) (*Assessment, error) {
	return w.assessBy(w.refine, similar, d, s)
}

// AssessBriefly is [March.AssessLike] for one of many designs: its numerical error is told by a coarser march, which takes a small share of the time of a refined one. That
// makes the band up to a few times as wide. Where it is wider than [BriefError], or stands between the answer and a verdict, the refined march is made after all.
func (w *March) AssessBriefly(similar *Odds, d *Design, s Settings) (*Assessment, error) {
	return w.assessBy(w.coarsen, similar, d, s)
}

// BriefError is the numerical error, relative to the content, up to which that of [March.AssessBriefly] is told by a coarser march.
const BriefError = 1e-2

// assessBy assesses with the numerical error of the first march by a function.
func (w *March) assessBy(bound func(a *Assessment, m *Model) (settled bool, err error), similar *Odds, d *Design, s Settings) (*Assessment, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	w.equip()
	m, s := &d.Model, s.filled()
	if w.forOdds == nil {
		w.forOdds = marchOn(w.grids)
	}
	var beside errgroup.Group
	var odds Odds
	beside.Go(func() (err error) {
		odds, err = w.forOdds.OddsLike(similar, d, s)
		return err
	})
	a, settled, err := w.assess(m, s, bound)
	if err == nil {
		a.Mouths, err = w.mouths(m, s)
	}
	if err = cmp.Or(err, beside.Wait()); err != nil {
		return nil, err
	}
	a.Odds = odds
	if a.judge(); a.NumericallyUnsure && !settled {
		if _, err := w.refine(a, m); err != nil {
			return nil, err
		}
		a.judge()
	}
	const refinements = 2
	for range refinements {
		if !a.NumericallyUnsure || a.expensive(m) {
			break
		}
		finer, _, err := w.assess(m, a.Settings.Refined(), w.refine)
		if err != nil {
			break // what is known stands, and says that it is in doubt
		}
		finer.Odds, finer.Mouths = a.Odds, a.Mouths
		a = finer
		a.judge()
	}
	a.Steam = d.SteamPerVolume(a.Nozzle.Mean)
	a.Warnings = warnings(d, a)
	return a, nil
}

// Swamped tells that the numerical error is so far above the content and the limit that nothing is known.
func (a *Assessment) Swamped(d *Design) bool {
	const far = 10
	return a.NumericalError > far*max(a.Nozzle.Mean, d.Limit)
}

// expensive tells that the marches of an assessment took so long that four times as much would be felt. Where the air has to agree with
// the strand there are several to each, of which the last alone is counted in the steps.
func (a *Assessment) expensive(m *Model) bool {
	const most = 200_000 // nodes in all steps, of a few hundredths of a microsecond each
	nodes := a.Nodes
	if m.covered() {
		nodes *= anglesFor(a.Settings.Resolution)
	}
	if m.balanced() {
		const each = 5 // marches, or so
		nodes *= each
	}
	return nodes*a.Steps > most
}

// assess is the march at the medians with its errors; settled tells that no other march would tell them better.
func (w *March) assess(m *Model, s Settings, bound func(a *Assessment, m *Model) (settled bool, err error)) (a *Assessment, settled bool, err error) {
	a = &Assessment{Settings: s}
	if err := w.runWithFourier(m, s, &a.Result); err != nil {
		return nil, false, err
	}
	a.Endurance = a.Endures(m)
	settled, err = bound(a, m)
	return a, settled, err
}

// refine tells the errors by a refined march.
func (w *March) refine(a *Assessment, m *Model) (settled bool, err error) {
	var other Result
	if err := w.RunFrom(&a.Result, m, a.Settings.Refined(), &other); err != nil {
		return false, err
	}
	a.setErrors(bandOf(m, a.Settings), &other)
	return true, nil
}

// coarsen tells the errors by a coarsened march, if that will do; where a cover keeps its place by two, of which one has fewer angles only: what radii and angles are
// off by may have opposite signs.
func (w *March) coarsen(a *Assessment, m *Model) (settled bool, err error) {
	s := a.Settings.coarsened()
	fewer := s.anglesRound()
	s.angles = a.Settings.anglesRound()
	if m.covered() && fewer == s.angles || s.check() != nil {
		return w.refine(a, m)
	}
	var coarse, angular Result
	if err := w.RunFrom(&a.Result, m, s.Bounded(), &coarse); err != nil {
		return w.refine(a, m)
	}
	a.setErrors(bandBelow(m, a.Settings), &coarse)
	if m.covered() {
		s.angles = fewer
		if err := w.RunFrom(&coarse, m, s.Bounded(), &angular); err != nil {
			return w.refine(a, m)
		}
		a.widen(&coarse, &angular)
	}
	if !(a.NumericalError <= BriefError*a.Nozzle.Mean) {
		return w.refine(a, m)
	}
	return false, nil
}

// judge sets the verdict.
func (a *Assessment) judge() {
	off := 0.0
	if a.Nozzle.Mean > 0 {
		off = a.NumericalError / a.Nozzle.Mean
	}
	a.Verdict = a.Odds.Verdict(off, a.Endurance.Survival)
	a.NumericallyUnsure = a.Verdict != a.Odds.Verdict(0, a.Endurance.Survival)
}

// NumericalError runs a model and the same refined: the mean content at the nozzle, and the half-width of the band that holds
// the exact solution of the model [kg/kg dry].
func (w *March) NumericalError(m *Model, s Settings) (mean, off float64, err error) {
	var coarse Result
	if err := w.Run(m, s, &coarse); err != nil {
		return 0, 0, err
	}
	off, err = w.NumericalErrorOf(&coarse, m, s)
	return coarse.Nozzle.Mean, off, err
}

// NumericalErrorOf is the half-width of that band for what a run of the model has found [kg/kg dry].
func (w *March) NumericalErrorOf(found *Result, m *Model, s Settings) (float64, error) {
	var fine Result
	if err := w.RunFrom(found, m, s.Refined(), &fine); err != nil {
		return 0, err
	}
	return bandOf(m, s).state(found.Nozzle, fine.Nozzle).Mean, nil
}

// covered tells that a cover keeps its place in a zone of the path.
func (m *Model) covered() bool {
	return slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Contact.Fixed() })
}

// balanced tells that the air of a zone of the path has to agree with what the strand gives off on all of it.
func (m *Model) balanced() bool {
	return slices.ContainsFunc(m.Path, func(z Zone) bool { return z.Air.Balanced() })
}
