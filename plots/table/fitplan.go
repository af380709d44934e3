package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/scenarios/studies/fit"
)

// FitPlan is what weighings that are still to be made would tell.
type FitPlan struct {
	Version string
	Plan    *fit.Plan
}

// Check refuses figures that are not finite; a factor may be infinite, which is told in words.
func (f *FitPlan) Check() error { return Finite("the plan of weighings", f.Plan.Runs) }

// text says first whether the scale that there is can do it.
func (f *FitPlan) text(b *strings.Builder) {
	p := f.Plan
	w := p.Weighings
	paragraph(b, "", w.Title)
	paragraph(b, "", fmt.Sprintf("%s, %s: what would weighings tell of how fast water moves in it? Wanted: to know it %s.", w.Model.Material.Name, Millimetres(2*w.Model.Radius), either(w.Plan.Factor)))
	b.WriteByte('\n')
	facts(b, f.Lines())
	b.WriteByte('\n')
	f.grid(b)
	b.WriteByte('\n')
	f.runs(b)
	list(b, "Notes", f.notes())
	b.WriteByte('\n')
	paragraph(b, "", fmt.Sprintf("strandry %s, %s.", f.Version, w.File))
}

// Lines are what the plan comes to.
func (f *FitPlan) Lines() [][2]string {
	p := f.Plan
	lines := [][2]string{{"Answer", f.Answer()}, {"Known now", either(p.Library) + ", by " + p.Weighings.Model.Material.ID + " in the library"}}
	if len(p.Chosen.Tried) > 0 {
		lines = append(lines, [2]string{"Tried", f.tried()})
	}
	if p.Design != nil {
		lines = append(lines, [2]string{"The design", f.design()})
	}
	return lines
}

// Answer says whether the scale that there is can do it, and with how much strand.
func (f *FitPlan) Answer() string {
	p := f.Plan
	own, strand := Grams(p.Weighings.Scale.Resolution), f.coil(p.Chosen.Strand)
	if p.Enough {
		return fmt.Sprintf("yes: a scale that shows %s and %s should do: known %s", own, strand, either(p.Chosen.Factor))
	}
	answer := fmt.Sprintf("no: with %s a scale that shows %s leaves it known %s", strand, own, f.known())
	if p.Chosen.Factor <= p.Weighings.Plan.Factor {
		answer += " if the strand is what the library says, and less well too often where it is not"
	}
	const none = 1e-9 // [kg]: no scale of a maker sees it
	switch {
	case f.water() < none:
		return "no, this cannot work: the strand is at rest with this air from the beginning, and no water moves. A wetter strand or drier air is needed"
	case math.IsInf(p.Chosen.Factor, 1):
		answer = fmt.Sprintf("no, this cannot work: of %s no more than %s of water moves, and a scale that shows %s hardly sees it", strand, Significant(1e3*f.water(), 2)+" g", own)
	}
	if p.Scale.Scale == 0 {
		return answer + "; no scale of those below does. Longer runs, a wetter strand or drier air might"
	}
	return answer + fmt.Sprintf("; it takes a scale that shows %s, with %s", Grams(p.Scale.Scale), f.coil(p.Scale.Strand))
}

// known says by which factor it would be known, in digits that tell it from what is wanted.
func (f *FitPlan) known() string {
	said := either(f.Plan.Chosen.Factor)
	if said == either(f.Plan.Weighings.Plan.Factor) {
		return "within a factor of " + Significant(f.Plan.Chosen.Factor, 3) + " either way"
	}
	return said
}

// water that moves in the run in which most does, of the strand that is chosen [kg].
func (f *FitPlan) water() float64 {
	most := 0.0
	for _, r := range f.Plan.Runs {
		most = math.Max(most, math.Abs(r.Water)*f.Plan.Chosen.Strand)
	}
	return most
}

// coil is a mass of strand, with the length that it is.
func (f *FitPlan) coil(kg float64) string {
	m := &f.Plan.Weighings.Model
	return fmt.Sprintf("%s of strand (%s)", Grams(kg), Significant(kg/(m.Material.Density.Value*math.Pi*m.Radius*m.Radius), 2)+" m")
}

// tried tells of the weighings that were made up.
func (f *FitPlan) tried() string {
	told := 0
	var factors []string
	for _, t := range f.Plan.Chosen.Tried {
		if t.Told {
			told++
			factors = append(factors, Significant(t.Factor, 3))
		}
	}
	out := fmt.Sprintf("weighings made up for %d strands, from slow to fast by what the library says: %d told the diffusivity", len(f.Plan.Chosen.Tried), told)
	if told > 0 {
		out += ", within a factor of " + strings.Join(factors, ", ")
	}
	return out
}

// design tells what a verdict would become.
func (f *FitPlan) design() string {
	d := f.Plan.Design
	now := fmt.Sprintf("%s: as far as is known now it meets its limit %s", d.Design.Title, inHundred(d.Probability))
	if len(d.After) < 2 {
		return now + "; these weighings would not change that"
	}
	return now + fmt.Sprintf("; with the strand weighed, the verdict would be sure, one way or the other, for %d of %d strands as the library has them", d.Sure, len(d.After))
}

// inHundred prints a probability.
func inHundred(p float64) string {
	return fmt.Sprintf("%s times in 100", trim(100*p, 0))
}

// grid shows what each scale tells of each strand.
func (f *FitPlan) grid(b *strings.Builder) {
	p := f.Plan
	columns := []column{{"scale shows", "", -12}}
	for _, s := range p.Strands {
		columns = append(columns, column{Grams(s), "factor", 8})
	}
	heads(b, columns)
	for i, scale := range p.Scales {
		cells := []string{Grams(scale)}
		for _, factor := range p.Factors[i] {
			cells = append(cells, f.cell(factor))
		}
		row(b, columns, cells)
	}
	legend(b, [][2]string{{"factor: ", "by which the diffusivity would be known either way, nine times in ten, with that much strand in each run; – where it would be known no better than now"}})
}

// cell prints a factor.
func (f *FitPlan) cell(factor float64) string {
	if !(factor < f.Plan.Library) {
		return "–"
	}
	return Significant(factor, 3)
}

// runs tells when to weigh.
func (f *FitPlan) runs(b *strings.Builder) {
	p := f.Plan
	for i := range p.Runs {
		r, run := &p.Runs[i], &p.Weighings.Runs[i]
		var times []string
		for _, t := range r.Times {
			times = append(times, clock(t))
		}
		paragraph(b, "", fmt.Sprintf("%s, at %s: weigh after (h:min) %s. Then %s %% of the water should be left to move.", run.Zone.Name, Celsius(run.Zone.Air.Temperature),
			strings.Join(times, ", "), share(math.Max(r.Left, 0))))
	}
}

// clock prints a time [s] in hours and minutes.
func clock(t float64) string {
	minutes := int(math.Round(t / 60))
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
}

// notes are what the plan rests on, and how to keep safe.
func (f *FitPlan) notes() []string {
	notes := []string{
		"The factors hold if the strand is what the library says, to first order; those under Tried come from whole fits. A scale is taken to repeat within a third of its step (common practice, no source).",
		"Hold the strand loose, so that air meets every turn, and weigh it within seconds of taking it out. Let it not cool on the scale for minutes: it takes up water, and warm air lifts it.",
		"An oven burns, and hot strand may give off fumes: gloves, air in the room, nobody leaves a hot oven alone. The oven's own instructions and the material's come first.",
	}
	if wet := f.wet(); wet != "" {
		notes = append(notes, wet)
	}
	if len(f.Plan.Weighings.Assumed) > 0 {
		notes = append(notes, notGiven(f.Plan.Weighings.Assumed))
	}
	return notes
}

// wet tells of the water that a strand is supposed to hold at the start where none is stated; "" where it is.
func (f *FitPlan) wet() string {
	w := f.Plan.Weighings
	for i := range w.Runs {
		if !w.Runs[i].StartKnown {
			return fmt.Sprintf("The strand is supposed to begin with %s %% of water, at rest with the room: one that is drier, as from a sealed bag, tells less. Let it lie in the room, loose, or state moisture.",
				Significant(100*w.Runs[i].Start, 2))
		}
	}
	return ""
}

// json is in SI units; a factor that is null is no factor at all.
func (f *FitPlan) json() any {
	p := f.Plan
	return object{
		{"version", f.Version}, {"title", p.Weighings.Title}, {"file", p.Weighings.File}, {"material", p.Weighings.Model.Material.ID},
		{"wanted", p.Weighings.Plan.Factor}, {"enough", p.Enough}, {"answer", f.Answer()}, {"known_now", p.Library},
		{"chosen", optionObject(&p.Chosen)}, {"instead", optionObject(&p.Scale)},
		{"scales", p.Scales}, {"strands", p.Strands}, {"factors", f.factors()},
		{"runs", each(p.Runs, func(r *fit.PlannedRun) object {
			return object{{"times", r.Times}, {"left", r.Left}, {"water", r.Water}}
		})},
		{"design", designObject(p.Design)},
		{"notes", f.notes()},
	}
}

// factors of each scale, for each strand.
func (f *FitPlan) factors() [][]any {
	var out [][]any
	for _, row := range f.Plan.Factors {
		var cells []any
		for _, x := range row {
			cells = append(cells, orNull(x))
		}
		out = append(out, cells)
	}
	return out
}

func optionObject(o *fit.Option) any {
	if o.Scale == 0 {
		return nil
	}
	return object{{"scale", o.Scale}, {"strand", o.Strand}, {"factor", orNull(o.Factor)}, {"tried", each(o.Tried, func(t *fit.Trial) object {
		return object{{"faster", t.Faster}, {"factor", t.Factor}, {"told", t.Told}}
	})}}
}

func designObject(d *fit.DesignPlan) any {
	if d == nil {
		return nil
	}
	return object{{"title", d.Design.Title}, {"file", d.Design.File}, {"probability", d.Probability}, {"after", d.After}, {"sure", d.Sure}}
}
