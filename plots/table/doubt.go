package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/sensitivity"
	"strandry/scenarios/studies/doubt"
)

// Doubt is the answer to what decides how sure an answer is, and what to measure first.
type Doubt struct {
	Title   string
	File    string
	Version string
	Answer  *doubt.Answer
	Assumed []string // what the scenario left open and how it was taken
}

// Check refuses figures that are not finite.
func (d *Doubt) Check() error { return Finite("the answer about the doubt", d.Answer) }

// text sets the shares as a table, and the order in which to measure.
func (d *Doubt) text(b *strings.Builder) {
	t, m := d.Answer, d.Answer.Design
	paragraph(b, "", d.Title)
	paragraph(b, "", fmt.Sprintf("%s, %s, fed at %s: what makes the answer doubtful, and what to measure first?", m.Material.Name, Millimetres(2*m.Radius), Speed(m.Speed)))
	b.WriteByte('\n')
	facts(b, d.Lines())
	b.WriteByte('\n')
	if len(t.Rows) > 0 {
		d.shares(b)
		b.WriteByte('\n')
	}
	paragraph(b, "", d.Conclusion())
	list(b, "What to measure, in this order", d.steps())
	list(b, "Notes", d.notes())
	cautions(b, m)
	b.WriteByte('\n')
	s := t.Assessment.Settings
	paragraph(b, "", fmt.Sprintf("strandry %s, %s; resolution %s, tolerance %s.", d.Version, d.File, Given(s.Resolution), Given(s.Tolerance)))
}

// Lines are what the doubt is about, each with what it is.
func (d *Doubt) Lines() [][2]string {
	t, a := d.Answer, d.Answer.Assessment
	limits := Limits(t.Design)
	if t.Limit.Low < t.Limit.High {
		limits += fmt.Sprintf("; nine times in ten from %s to %s", Limit(t.Limit.Low), Limit(t.Limit.High))
	}
	lines := [][2]string{
		{"At the nozzle", Bounded(a.Nozzle.Mean, a.NumericalError) + "; " + EightInTen(&a.Odds)},
		{"Limit", limits},
		{"Verdict", Meaning(t.Design, a)},
	}
	if t.Variance > 0 {
		lines = append(lines, [2]string{"Doubt", fmt.Sprintf("the content is %s to %s times the limit, eight times in ten: a factor of %s",
			Significant(math.Exp(t.Spread.Low), 2), Significant(math.Exp(t.Spread.High), 2), d.factor(1))})
	}
	return lines
}

// factor is that between the ends of the doubt, when a share of its width is left.
func (d *Doubt) factor(left float64) string {
	return Significant(math.Exp(left*d.Answer.Spread.Width()), 2)
}

// share prints a share of the doubt in per cent.
func share(x float64) string {
	switch {
	case x == 0:
		return "0"
	case x < 0.005:
		return "<1"
	}
	return trim(100*x, 0)
}

// shareRange prints an interval; where both ends print alike, one.
func shareRange(x sensitivity.Index) string {
	low, high := share(x.Low), share(x.High)
	if low == high || high == "<1" {
		return high
	}
	return low + "–" + high
}

func (d *Doubt) shares(b *strings.Builder) {
	const name = 38
	columns := []column{
		{"what is not known", "", -name}, {"alone", "%", 5}, {"between", "%", -7}, {"others", "%", 6}, {"between", "%", -7}, {"known", "factor", 7},
	}
	heads(b, columns)
	var names []string
	for _, r := range d.Answer.Rows {
		names = append(names, r.Unknown)
	}
	for i, short := range shortened(names, name) {
		r := &d.Answer.Rows[i]
		row(b, columns, []string{short, share(r.First.Value), shareRange(r.First), share(r.Total.Value), shareRange(r.Total), d.factor(r.Left)})
	}
	cutLabels(b, names, name)
	legend(b, [][2]string{
		{"alone:   ", "its share of the doubt (of the variance of the logarithm of the content over the limit) by itself"},
		{"others:  ", "the same with all that it does together with others; " + d.together()},
		{"between: ", "where the share before lies, nine times in ten"},
		{"known:   ", fmt.Sprintf("what the factor of %s would come down to if this one were known exactly and nothing else", d.factor(1))},
	})
}

func (d *Doubt) together() string {
	if x := d.Answer.Together; x >= 0.005 {
		return share(x) + " % of the doubt is of that kind"
	}
	return "hardly any of the doubt is of that kind"
}

// Conclusion says which unknown decides, and what it is worth to know it.
func (d *Doubt) Conclusion() string {
	t := d.Answer
	if t.Variance == 0 {
		return "Nothing that is in doubt about this scenario acts on its answer: there is nothing to measure."
	}
	text := d.decides()
	switch p := t.Assessment.Probability; {
	case p >= diffusion.NineInTen:
		text += " The limit is likely to be met as it is: to measure would make that surer."
	case p <= diffusion.OneInTen:
		text += " The limit is not likely to be met as it is: to measure dries nothing, but tells by how much the design falls short."
	}
	return text
}

func (d *Doubt) decides() string {
	lead, best := d.Answer.Decides(), d.Answer.Narrows()
	first := &lead[0]
	text := fmt.Sprintf("What decides: %s. %s %% of the doubt is its own, %s %% with what it does beside others.", first.Unknown, share(first.First.Value), share(first.Total.Value))
	if len(lead) > 1 {
		var names []string
		for _, r := range lead {
			names = append(names, r.Unknown)
		}
		text = fmt.Sprintf("It cannot be told which of these decides: %s.", strings.Join(names, ", "))
	}
	but := ""
	if len(lead) == 1 && best.Unknown != first.Unknown {
		but = ", though not the greatest share (which counts rare extremes too)"
	}
	return text + fmt.Sprintf(" To know the %s narrows the doubt most%s: from a factor of %s to %s.", best.Unknown, but, d.factor(1), d.factor(best.Left))
}

// steps are the unknowns in the order in which to measure them, each with what is left and how it is measured.
func (d *Doubt) steps() []string {
	var all []string
	for i, s := range d.Answer.Order {
		left := fmt.Sprintf("leaves a factor of %s", d.factor(s.Left))
		if i > 0 {
			left += ", those before being known"
		}
		all = append(all, fmt.Sprintf("%s: %s. %s", s.Unknown, left, measuring(s.Unknown, d.Answer.Design)))
	}
	return all
}

func (d *Doubt) notes() []string {
	t := d.Answer
	var notes []string
	if t.Variance > 0 {
		notes = append(notes, "To be known is to be known exactly: what is measured keeps the error of its measurement.")
		if t.Assessment.Correlated {
			notes = append(notes, "Diffusivity, activation energy and growth with content were fitted together: here the activation energy stands for what the diffusivity does not tell of it, the growth for what these two do not.")
		}
		for _, r := range t.Rows {
			if e := r.First.Estimate; e < 0 {
				notes = append(notes, fmt.Sprintf("%s, alone: 0 (the estimate is %s %%, below zero within its error).", r.Unknown, short(100*e, 2)))
			}
		}
		notes = append(notes, fmt.Sprintf("The shares are those of a stand-in for the marches, off by some %s %% of the content where it was tried; the ranges cover that.", Significant(100*t.Fit, 2)))
		const rough = 0.3 // of the deviation
		if t.Fit > rough*math.Sqrt(t.Variance) {
			notes = append(notes, "That is much beside the doubt itself: take the shares as rough.")
		}
	}
	if len(d.Assumed) > 0 {
		notes = append(notes, notGiven(d.Assumed))
	}
	return notes
}
