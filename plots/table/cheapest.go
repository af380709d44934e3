package table

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"strandry/scenarios"
	"strandry/scenarios/studies/cheapest"
)

// Cheapest is the answer to a search for the cheapest design.
type Cheapest struct {
	Title    string
	File     string
	Version  string
	Scenario *scenarios.Scenario // of the file
	Answer   *cheapest.Answer
}

// Check refuses figures that are not finite.
func (c *Cheapest) Check() error { return Finite("the cheapest design", c.Answer) }

// text sets the answer on about a screen.
func (c *Cheapest) text(b *strings.Builder) {
	m := &c.Answer.Scenario.Design
	paragraph(b, "", c.Conclusion())
	b.WriteString(shorten(c.Title, width) + "\n")
	b.WriteString(shorten(fmt.Sprintf("%s, %s, fed at %s; water in %% of dry weight", m.Material.Name, Millimetres(2*m.Radius), Speed(m.Speed)), width) + "\n\n")
	c.keys(b)
	b.WriteByte('\n')
	facts(b, c.Lines())
	for _, w := range c.notes() {
		paragraph(b, "  ! ", w)
	}
	apart(b, fmt.Sprintf("strandry %s, %s; seed %d. Prices are yours, the rest estimates. Heat, mains and fumes can hurt: set the values and look at run --full.", c.Version, c.File, c.Scenario.Search.Seed))
}

// keys are those that were chosen, with what they may be.
func (c *Cheapest) keys(b *strings.Builder) {
	shown, wide := make([]string, len(c.Scenario.Free)), 0
	for i := range shown {
		shown[i] = ending(c.Scenario.Free[i].Key.Name)
		wide = max(wide, utf8.RuneCountInString(shown[i]))
	}
	for i := range c.Scenario.Free {
		f := &c.Scenario.Free[i]
		text := fmt.Sprintf("%-*s  %-10s", wide, shown[i], c.Answer.Best.Settings[i].Value)
		if end := c.end(f.Key.Name); end != "" {
			text += "  " + end
		} else if f.Continuous() {
			text += fmt.Sprintf("  of %s to %s", f.Written(f.From).Value, f.Written(f.To).Value)
		} else {
			text += fmt.Sprintf("  of %d values", f.Len())
		}
		if f.Key.Known {
			text += "; now " + f.Key.Setting(f.Key.Value, 4).Value
		}
		b.WriteString(shorten(text, width) + "\n")
	}
}

// ending is a key, or of a long one its end, which says what it is.
func ending(key string) string {
	const most = 36
	r := []rune(key)
	if len(r) <= most {
		return key
	}
	return "…" + string(r[len(r)-most+1:])
}

// end tells that a key stands at the end of what it may be.
func (c *Cheapest) end(key string) string {
	for _, e := range c.Answer.AtEnds {
		if e.Key == key && e.Upper {
			return "the most it may be"
		} else if e.Key == key {
			return "the least it may be"
		}
	}
	return ""
}

// money prints an amount in the user's currency.
func (c *Cheapest) money(x float64) string {
	text := untailed(Significant(x, 3))
	if currency := c.Scenario.Machine.Currency; currency != "" {
		text += " " + currency
	}
	return text
}

// Lines are the figures, each with what it is.
func (c *Cheapest) Lines() [][2]string {
	a := c.Answer
	d, r := &a.Scenario.Design, a.Assessment
	cost := c.money(a.Best.Cost)
	if hours := c.Scenario.Search.Running / 3600; hours > 0 && len(a.Machine.Cost.Parts) > 0 {
		cost += fmt.Sprintf(": parts %s, %s h of running %s", c.money(a.Machine.Cost.Total), Given(hours), c.money(a.Best.Cost-a.Machine.Cost.Total))
	}
	lines := [][2]string{
		{"Cost", cost + c.now()},
		{"At the nozzle", fmt.Sprintf("%s; limit %s, within it %s", arrives(r), Limit(d.Limit), Chance(r.Probability))},
		{"Survives", Survives(d.Material.Name, r.Endurance)},
	}
	if text := c.binding(); text != "" {
		lines = append(lines, [2]string{"Stands in way", text})
	}
	if text := c.trade(); text != "" {
		lines = append(lines, [2]string{"Beside it", text})
	}
	return append(lines, [2]string{"Looked at", c.looked()}, [2]string{"At random", c.random()})
}

// now is what the design of the file costs, and whether it does.
func (c *Cheapest) now() string {
	now := c.Answer.Now
	if now == nil {
		return ""
	}
	does := "meets all demands"
	if !now.Meets() {
		does = "does not meet " + c.wanting(now)
	}
	return fmt.Sprintf(". As the file has it: %s, which %s", c.money(now.Cost), does)
}

// wanting names the demands that a design does not meet.
func (c *Cheapest) wanting(d *cheapest.Design) string {
	var names []string
	for i, v := range d.Violations {
		if v > 0 {
			names = append(names, c.Answer.Demands[i].String())
		}
	}
	return strings.Join(names, ", ")
}

func demandNames(all []cheapest.Demand) string {
	names := make([]string, len(all))
	for i, d := range all {
		names[i] = d.String()
	}
	return strings.Join(names, "; ")
}

// binding tells what keeps it from being cheaper.
func (c *Cheapest) binding() string {
	a := c.Answer
	if !a.Met && len(a.Never) > 0 {
		return "met by no design looked at: " + demandNames(a.Never)
	}
	if !a.Met {
		return "each is met by some design, but not by one that meets the rest: " + c.short()
	}
	if len(a.Binding) == 0 {
		return "no demand: only what the keys may be"
	}
	return demandNames(a.Binding)
}

// trade is what drier and what cheaper would be.
func (c *Cheapest) trade() string {
	a := c.Answer
	var words []string
	const times = 2
	for _, d := range a.Front { // the cheapest first
		if a.Met && d.Mean <= a.Best.Mean/times {
			words = append(words, fmt.Sprintf("half of that water or less, %s, costs %s", Percent(d.Mean), c.money(d.Cost)))
			break
		}
	}
	for _, d := range slices.Backward(a.Front) {
		if a.Met && d.Mean >= a.Best.Mean*times {
			words = append(words, fmt.Sprintf("%s costs %s, and is not dry nine times in ten", Percent(d.Mean), c.money(d.Cost)))
			break
		}
	}
	return strings.Join(words, "; ")
}

// looked tells how far the search went.
func (c *Cheapest) looked() string {
	a := c.Answer
	text := fmt.Sprintf("%d designs", len(a.Looked)+a.Failed)
	if a.Failed > 0 {
		text += fmt.Sprintf(", %d of them without an answer", a.Failed)
	}
	where, better := "at this cost", "a cheaper one"
	if !a.Met {
		where, better = "here", "one that does"
	}
	switch {
	case a.All:
		return text + ": all there are"
	case a.Settled:
		text += fmt.Sprintf("; settled: %d of %d starts ended %s", a.Agreeing, a.Ended, where)
	case a.Stopped:
		text += fmt.Sprintf("; stopped by search.budget before enough starts agreed (%d of %d ended %s): more may find %s", a.Agreeing, a.Ended, where, better)
	default:
		text += fmt.Sprintf("; not settled: %d of %d starts ended %s", a.Agreeing, a.Ended, where)
	}
	if n := len(a.Falls); n > 0 {
		text += fmt.Sprintf("; the last cheaper one was number %d", a.Falls[n-1].Looked)
	}
	return text
}

// random is what designs at random would have given.
func (c *Cheapest) random() string {
	r := &c.Answer.Random
	if r.Meeting == 0 {
		return fmt.Sprintf("of %d designs drawn at random none meets all demands", r.Count)
	}
	return fmt.Sprintf("of %d designs drawn at random %d meet all demands, the cheapest for %s", r.Count, r.Meeting, c.money(r.Cost))
}

// Conclusion says in a sentence or two what was found.
func (c *Cheapest) Conclusion() string {
	a := c.Answer
	if a.Met {
		return fmt.Sprintf("The cheapest design found that is dry nine times in ten and meets all else costs %s.", c.money(a.Best.Cost))
	}
	return fmt.Sprintf("No design of %d looked at meets all demands. The nearest does not meet: %s.", len(a.Looked)+a.Failed, c.short())
}

// short are the demands that the nearest design does not meet; where the search found them met, the full assessment did not find it dry.
func (c *Cheapest) short() string {
	if text := c.wanting(&c.Answer.Best); text != "" {
		return text
	}
	return cheapest.Dry.String()
}

// notes are what could mislead.
func (c *Cheapest) notes() []string {
	a := c.Answer
	var notes []string
	dearest, least := math.Inf(-1), math.Inf(1)
	for _, d := range a.Looked {
		dearest, least = max(dearest, d.Cost), min(least, d.Cost)
	}
	if dearest == least {
		notes = append(notes, "Nothing that may be chosen changes the cost: a part per metre, watt or kilogram would, or running hours.")
	}
	m := Machine{Answer: a.Machine, Stated: &a.Scenario.Machine, Strand: a.Scenario.Design.Material.Name}
	if len(a.Machine.Warnings) > 0 {
		notes = append(notes, m.brief(a.Machine.Warnings[m.gravest()]))
	}
	return notes
}
