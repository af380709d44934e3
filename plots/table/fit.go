package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// Fit is what weighings tell of a strand.
type Fit struct {
	Version string
	Outcome *fit.Outcome
	Written string // the material file that was written; "" for none
}

// Check refuses figures that are not finite.
func (f *Fit) Check() error {
	o := f.Outcome
	return Finite("the fit", struct {
		Ranges   []fit.Between
		Shares   []float64
		Runs     []fit.RunOutcome
		Findings []fit.Finding
		Helps    []fit.Help
	}{
		[]fit.Between{o.Diffusivity, o.Library, o.Activation, o.Beta, o.Drift, o.Noise},
		append(o.Correlation[:], o.PriorShare, o.Lack.Share, o.Lack.Probability),
		o.Runs, o.Findings, o.Helps,
	})
}

// text says first whether anything is known now, then what.
func (f *Fit) text(b *strings.Builder) {
	o := f.Outcome
	w := o.Weighings
	paragraph(b, "", w.Title)
	paragraph(b, "", f.subject())
	b.WriteByte('\n')
	facts(b, f.Lines())
	b.WriteByte('\n')
	f.runs(b)
	list(b, "What stands out", f.Findings())
	list(b, f.helped(), f.helps())
	list(b, "Notes", f.notes())
	b.WriteByte('\n')
	paragraph(b, "", f.Next())
	apart(b, fmt.Sprintf("strandry %s, %s; %d marches.", f.Version, w.File, o.Marches))
}

// subject is what was weighed.
func (f *Fit) subject() string {
	w := f.Outcome.Weighings
	count := 0
	for i := range w.Runs {
		count += len(w.Runs[i].Points)
	}
	runs := "one run"
	if n := len(w.Runs); n > 1 {
		runs = fmt.Sprintf("%d runs", n)
	}
	return fmt.Sprintf("%s, %s, weighed %d times in %s on a scale that shows %s: how fast does water move in it?", w.Model.Material.Name,
		Millimetres(2*w.Model.Radius), count, runs, Grams(w.Scale.Resolution))
}

// Grams prints a mass [kg].
func Grams(kg float64) string { return Given(1e3*kg) + " g" }

// diffusivity prints one [m2/s].
func diffusivity(d float64) string { return Significant(d, 3) + " m²/s" }

// Lines are what was found, each with what it is.
func (f *Fit) Lines() [][2]string {
	o := f.Outcome
	lines := [][2]string{{"Answer", f.Answer()}}
	if !o.Told {
		return lines
	}
	lines = append(lines, [2]string{"Compared", f.compared()},
		[2]string{"Diffusivity", fmt.Sprintf("%s at %s without water; nine times in ten from %s to %s", diffusivity(o.Diffusivity.Value), Celsius(o.Temperature),
			Significant(o.Diffusivity.Low, 3), diffusivity(o.Diffusivity.High))})
	if o.Known.Activation {
		lines = append(lines, [2]string{"Activation", ranged(o.Activation, 1e-3, "kJ/mol")})
	}
	if o.Known.Beta == scenarios.Fitted {
		lines = append(lines, [2]string{"Beta", ranged(o.Beta, 1, "per kg/kg") + ": by so much the logarithm of the diffusivity grows with the content"})
	}
	if said := f.together(); said != "" {
		lines = append(lines, [2]string{"Together", said})
	}
	if o.Drift != (fit.Between{}) {
		lines = append(lines, [2]string{"Drift", ranged(o.Drift, 3600*1e6, "mg/h of the scale")})
	}
	return lines
}

// together tells which of the numbers hang together, so that one cannot be changed without the other; "" where none do.
func (f *Fit) together() string {
	const worth = 0.3
	var said []string
	for i, pair := range [...]string{"diffusivity and activation energy", "diffusivity and beta", "activation energy and beta"} {
		if c := f.Outcome.Correlation[i]; math.Abs(c) >= worth {
			said = append(said, fmt.Sprintf("%s (correlation %s)", pair, trim(c, 2)))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return strings.Join(said, "; ") + ": what makes the one larger makes the other larger too, or smaller where the sign is minus"
}

// ranged prints a number with its ends.
func ranged(b fit.Between, factor float64, unit string) string {
	return fmt.Sprintf("%s %s; nine times in ten from %s to %s", Significant(factor*b.Value, 3), unit, Significant(factor*b.Low, 3), Significant(factor*b.High, 3))
}

// Answer says in a sentence whether the weighings tell how fast water moves.
func (f *Fit) Answer() string {
	o := f.Outcome
	grave := slices.ContainsFunc(o.Findings, func(found fit.Finding) bool { return found.Grave() })
	within := "known " + either(o.Diffusivity.Factor())
	switch {
	case !o.Told && grave:
		return "these weighings cannot tell it: see what stands out"
	case !o.Told:
		return "these weighings do not tell it: it may be anything from " + diffusivity(o.Diffusivity.Low) + " to " + diffusivity(o.Diffusivity.High)
	case grave:
		return "doubtful: " + within + " if the weighings are sound, but see what stands out before you rely on it"
	}
	for _, found := range o.Findings {
		if found.Kind == fit.BetaMatters {
			within += fmt.Sprintf(" (but %s as large if beta lies at the far end of what is known of it)", Times(found.Factor))
		}
	}
	return within + ", nine times in ten, if the strand takes up and gives off water as the model says"
}

// either prints a factor by which something is known.
func either(factor float64) string {
	if factor < 1.3 {
		return "within " + Significant(100*(factor-1), 2) + " % either way"
	}
	return "within a factor of " + Significant(factor, 2) + " either way"
}

// compared sets the strand against the library.
func (f *Fit) compared() string {
	o := f.Outcome
	ratio := o.Diffusivity.Value / o.Library.Value
	than := "the middle value of " + inLibrary(o.Weighings)
	how := fmt.Sprintf("water moves %s as fast as by %s", Times(ratio), than)
	if ratio < 1 {
		how = fmt.Sprintf("water moves at %s %% of the pace of %s", Significant(100*ratio, 2), than)
	}
	out := fmt.Sprintf("%s, which itself is known within a factor of %s", how, Significant(o.Library.Factor(), 2))
	if o.Diffusivity.Value < o.Library.Low || o.Diffusivity.Value > o.Library.High {
		outside := "outside of that, which happens one time in ten"
		if off, far := math.Abs(math.Log(ratio)), 2*math.Log(o.Library.Factor()); off > far { // 3.3 deviations
			outside = "far outside of that, which happens hardly one time in 1000"
		}
		out += "; the strand lies " + outside + ": look once more at diameter, temperature and material"
	}
	return out
}

func inLibrary(w *scenarios.Weighings) string { return w.Model.Material.ID }

// runs are set as a table.
func (f *Fit) runs(b *strings.Builder) {
	o := f.Outcome
	const name = 15
	columns := []column{{"run", "", -name}, {"at", "°C", 5}, {"weighed", "times", 7}, {"water at start", "%", 16}, {"dry mass", "g", 9}, {"at the end", "%", 10}, {"in that air", "%", 11}}
	heads(b, columns)
	var names []string
	for i := range o.Weighings.Runs {
		names = append(names, o.Weighings.Runs[i].Zone.Name)
	}
	for i, short := range shortened(names, name) {
		run, r := &o.Weighings.Runs[i], &o.Runs[i]
		start := Cell(r.Start.Value)
		if r.Start.Low < r.Start.High {
			start = Cell(r.Start.Low) + "–" + Cell(r.Start.High)
		}
		row(b, columns, []string{short, trim(run.Zone.Air.Temperature-zeroCelsius, 1), fmt.Sprint(len(run.Points)), start,
			Significant(1e3*r.Dry.Value, 5), Cell(r.End), Cell(r.Equilibrium)})
	}
	cutLabels(b, names, name)
	legend(b, [][2]string{
		{"water at start: ", "of dry weight, before any storage; a range holds it nine times in ten"},
		{"at the end:     ", "at the last weighing, by the most likely diffusivity"},
		{"in that air:    ", "what the strand comes to if it stays, by the isotherm of the material; it is not fitted"},
	})
}

// notes are what an answer rests on.
func (f *Fit) notes() []string {
	o := f.Outcome
	notes := []string{"The isotherm, the density and what else was not fitted are those of " + inLibrary(o.Weighings) + "; the diameter and the air are as stated. An error in one of them is in no range here: a diameter that is 1 % off moves the diffusivity by 2 %."}
	if o.Known.Prior {
		notes = append(notes, fmt.Sprintf("What the library says was counted: of what is known of the diffusivity now, %s %% comes from it.", Significant(100*o.PriorShare, 2)))
	}
	notes = append(notes, f.noise())
	if o.Checks > 0 {
		notes = append(notes, fmt.Sprintf("%s of %s, weighed at the machine, counted too: its temperatures, air and feed and the water that the strand set off with are believed as they are stated there, and that what was dried out was dry, unless left says otherwise.",
			counted(o.Checks, "piece", "pieces"), o.Weighings.Machine.File))
	}
	if o.Restated() {
		notes = append(notes, "What [strand.properties] states is not in the material file that -o writes: state it there, or in the scenario, once more.")
	}
	notes = append(notes, o.Weighings.Noted...)
	if len(o.Weighings.Assumed) > 0 {
		notes = append(notes, notGiven(o.Weighings.Assumed))
	}
	return notes
}

// noise tells how sure a weighing was taken to be.
func (f *Fit) noise() string {
	o := f.Outcome
	step := o.Weighings.Scale.Resolution
	const seen = 0.1 // of a step: what is estimated below it stands for none
	if o.Noise.Value < seen*step {
		return fmt.Sprintf("A weighing was taken as rounded to %s, with next to no noise besides, since none shows in the weighings.", Grams(step))
	}
	return fmt.Sprintf("A weighing was taken as rounded to %s, with a noise besides of some %s g, which the weighings tell themselves.", Grams(step), Significant(1e3*o.Noise.Value, 2))
}

// Next is what to do with the answer.
func (f *Fit) Next() string {
	o := f.Outcome
	if !o.Told {
		return "Nothing is written from weighings that do not tell. Ovens and coils are hot: gloves, air in the room, nobody leaves a hot oven alone, and its own instructions come first."
	}
	if f.Written != "" {
		return "Ask again with it: strandry run and doubt say what is left in doubt."
	}
	return fmt.Sprintf("To go on with this strand: strandry fit %s -o my-%s.toml writes it as a material, which every command takes.", o.Weighings.File, inLibrary(o.Weighings))
}

// helped is the strand for which the helps are told: where little is known of it, one such as fit.Help supposes.
func (f *Fit) helped() string {
	if f.Outcome.Told {
		return "What would tell more, for a strand like this"
	}
	return "What would tell more of a usual strand of this material, wet from the room"
}

// helps are ways to weigh that tell more.
func (f *Fit) helps() []string {
	var out []string
	for _, h := range f.Outcome.Helps {
		what := ""
		switch h.Kind {
		case fit.FinerScale:
			what = "a scale that shows " + Grams(h.Amount)
		case fit.MoreStrand:
			what = "a larger coil, of some " + Grams(roundMass(h.Amount))
		case fit.Longer:
			what = "weighing until " + Duration(h.Amount)
		case fit.DriedOut:
			what = "drying the strand out afterwards and weighing it dry (dry_mass)"
		case fit.Hotter:
			what = "air of " + Celsius(h.Amount) + ", if the material and the oven bear it"
		}
		out = append(out, what+": "+either(h.Factor))
	}
	return out
}

// roundMass rounds to one digit.
func roundMass(kg float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(kg)))
	return power * math.Round(kg/power)
}

// counted prints how many there are of something.
func counted(n int, one, many string) string { return fmt.Sprintf("%d %s", n, plural(n, one, many)) }
