package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/estimation"
	"strandry/plots/canvas"
	"strandry/plots/words"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// Weighed is a strand that was weighed, and what was fitted to its weighings: what [Masses] and [Residuals] show.
type Weighed struct {
	Step        float64 // of the scale [kg]
	Runs        []WeighedRun
	Told        bool    // how fast water moves
	Factor      float64 // by which the diffusivity is known either way, nine times in ten
	Temperature float64 // at which it is [K]
	Lack        estimation.Lack
	Findings    []fit.Finding
}

// WeighedRun is one run of weighings.
type WeighedRun struct {
	Name        string
	Temperature float64              // of its air [K]
	Points      []scenarios.Weighing // in order of time
	Band        []fit.Between        // of the mass that the scale should show, at each [kg]
	Residuals   []float64            // shown less predicted [kg]
	Dry         fit.Between          // mass [kg]
	Equilibrium float64              // content that the strand tends to [kg/kg dry]
}

// WeighedOf takes over what was fitted.
func WeighedOf(o *fit.Outcome) Weighed {
	w := Weighed{Step: o.Weighings.Scale.Resolution, Told: o.Told, Factor: o.Diffusivity.Factor(), Temperature: o.Temperature, Lack: o.Lack, Findings: o.Findings}
	for i := range o.Runs {
		run, r := &o.Weighings.Runs[i], &o.Runs[i]
		w.Runs = append(w.Runs, WeighedRun{Name: run.Zone.Name, Temperature: run.Zone.Air.Temperature, Points: run.Points, Band: r.Band, Residuals: r.Residuals,
			Dry: r.Dry, Equilibrium: r.Equilibrium})
	}
	return w
}

// FrameOfWeighings is the frame of weighings.
func FrameOfWeighings(w *scenarios.Weighings, version string) Frame {
	strand := w.Model.Material.Name + ", " + words.Digits(2000*w.Model.Radius, 3) + words.NBSP + "mm"
	return Frame{Version: version, Setup: Setup{Strand: strand}, Notes: []string{words.Clipped(w.Title, 60), "a scale that shows " + grams(w.Scale.Resolution)}}
}

func (w Weighed) check() error {
	if len(w.Runs) == 0 {
		return errEmpty
	}
	if err := positive("step of the scale, factor", w.Step, w.Factor); err != nil {
		return err
	}
	for i := range w.Runs {
		r := &w.Runs[i]
		if n := len(r.Points); n < 2 || len(r.Band) != n || len(r.Residuals) != n {
			return fmt.Errorf("figure: %s: %d weighings, %d places of a band and %d residuals; two or more of each are needed", r.Name, n, len(r.Band), len(r.Residuals))
		}
		if err := positive(r.Name+", dry mass and first mass", r.Dry.Value, r.Points[0].Mass); err != nil {
			return err
		}
		byTime := func(a, b scenarios.Weighing) int { return cmp.Compare(a.Time, b.Time) }
		if !slices.IsSortedFunc(r.Points, byTime) || r.Points[0].Time < 0 || r.last() <= r.Points[0].Time {
			return fmt.Errorf("figure: %s: times that do not rise from zero or later", r.Name)
		}
	}
	for _, f := range w.Findings {
		if f.Run >= len(w.Runs) {
			return fmt.Errorf("figure: something that stands out in run %d of %d", f.Run+1, len(w.Runs))
		}
	}
	return nil
}

// last is the time of the last weighing [s].
func (r *WeighedRun) last() float64 { return r.Points[len(r.Points)-1].Time }

// name is the run with its temperature.
func (r *WeighedRun) name() string {
	const most = 20
	return words.Clipped(r.Name, most) + ", " + words.Celsius(r.Temperature)
}

// grave is the reason why nobody should rely on the answer, in words; "" for none.
func (w *Weighed) grave() string {
	for _, f := range w.Findings {
		if !f.Grave() {
			continue
		}
		where := ""
		if f.Run >= 0 && len(w.Runs) > 1 {
			where = " in run " + words.Clipped(w.Runs[f.Run].Name, 16)
		}
		switch f.Kind {
		case fit.FewSteps:
			return fmt.Sprintf("the mass%s changes by %s of the scale", where, steps(math.Round(f.Amount)))
		case fit.NoDrive:
			return "the strand" + where + " began in equilibrium with the air"
		case fit.AirRules:
			return "the air, not the strand, sets the pace" + where
		case fit.Slip:
			return "a weighing" + where + " looks like a slip of one digit"
		case fit.Shape:
			return "the weighings leave a shape that no diffusivity gives"
		}
	}
	return ""
}

// marked is a weighing that stands out, by its number.
type marked struct {
	fit.Finding
	number, point int
}

// mostMarked is how many weighings get a number.
const mostMarked = 6

// marks are the weighings that stand out, by run and line, and how many more there are: what hangs together with the answer most gets a number first.
func (w *Weighed) marks() (all []marked, more int) {
	for _, f := range w.Findings {
		if f.Run < 0 || f.Line == 0 {
			continue
		}
		at := slices.IndexFunc(w.Runs[f.Run].Points, func(p scenarios.Weighing) bool { return p.Line == f.Line })
		if at < 0 {
			continue
		}
		if len(all) == mostMarked {
			more++
			continue
		}
		all = append(all, marked{Finding: f, point: at})
	}
	slices.SortStableFunc(all, func(a, b marked) int { return cmp.Or(a.Run-b.Run, a.Line-b.Line) })
	number := 0
	for i := range all {
		if i == 0 || all[i].Run != all[i-1].Run || all[i].Line != all[i-1].Line {
			number++
		}
		all[i].number = number
	}
	return all, more
}

// far are the weighings of a run that are off, which set no scale.
func (w *Weighed) far(run int) map[int]bool {
	out := map[int]bool{}
	for _, f := range w.Findings {
		if f.Run == run && (f.Kind == fit.Outlier || f.Kind == fit.Slip) {
			out[slices.IndexFunc(w.Runs[run].Points, func(p scenarios.Weighing) bool { return p.Line == f.Line })] = true
		}
	}
	return out
}

// notes says what stands out, a line each.
func (w *Weighed) notes() []string {
	all, more := w.marks()
	var out []string
	for _, m := range all {
		where := fmt.Sprintf("%d  %s, line %d: ", m.number, words.Clipped(w.Runs[m.Run].Name, 24), m.Line)
		switch m.Kind {
		case fit.Outlier:
			out = append(out, where+fmt.Sprintf("%s off; without it water moves %s as fast", signedGrams(m.Amount), words.Times(m.Factor)))
		case fit.Slip:
			out = append(out, where+fmt.Sprintf("far off, and one digit from %s g, which would fit", words.Digits(1e3*m.Amount, 6)))
		default:
			out = append(out, where+fmt.Sprintf("the wrong way by %s since the weighing before", grams(m.Amount)))
		}
	}
	if more > 0 {
		out = append(out, fmt.Sprintf("and %d more", more))
	}
	return out
}

func grams(kg float64) string { return words.Digits(1e3*kg, 2) + words.NBSP + "g" }

func signedGrams(kg float64) string {
	if kg > 0 {
		return "+" + grams(kg)
	}
	return grams(kg)
}

// within says how well the diffusivity is known.
func (w *Weighed) within() string {
	const small = 1.3
	if w.Factor < small {
		return "within " + words.Digits(100*(w.Factor-1), 2) + words.NBSP + "% either way"
	}
	return "within a factor of " + words.Digits(w.Factor, 2) + " either way"
}

// elapsed is an axis of time of a run, in the unit that suits.
func (r *WeighedRun) elapsed(byRoot bool) (axis canvas.Scale, unit string, seconds float64) {
	const minute, hour, day = 60, 3600, 86400
	unit, seconds = "h", hour
	switch last := r.last(); {
	case last < 100*minute:
		unit, seconds = "min", minute
	case last > 100*hour:
		unit, seconds = "days", day
	}
	const beyond = 1.03
	return canvas.Scale{Max: beyond * r.last() / seconds, Root: byRoot}, unit, seconds
}
