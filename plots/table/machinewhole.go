package table

import (
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion/machine"
	housing "strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/pull"
)

// whole is what the chambers share.
func (m *Machine) whole() MachinePart {
	p := MachinePart{Head: "The whole machine"}
	if m.Power > 0 {
		text := watts(m.Power) + " of heaters in the steady state"
		if m.PerKilo > 0 {
			text += fmt.Sprintf(", %s kWh for each kilogram of strand", figure(m.PerKilo/3.6e6))
		}
		p.row("Power", text)
	}
	m.filled(&p)
	m.drawn(&p)
	p.row("Pause", strings.Join(m.pause(), "; "))
	if dries := m.Answer.Pause.Dries; dries > 0 {
		p.row("At rest", fmt.Sprintf("nine tenths of the water that it can give up there are gone after %s of standing", Duration(dries)))
	}
	m.counted(&p)
	return p
}

// filled tells how long the desiccant lasts and what it takes to dry it.
func (m *Machine) filled(p *MachinePart) {
	b := &m.Bed
	if !b.Used {
		return
	}
	dew := dewed(b.Target)
	head := fmt.Sprintf("%s of %s at %.0f °C", mass(b.Bed.DryMass), b.Bed.Isotherm.Kind, b.Bed.Temperature-zeroCelsius)
	switch {
	case b.Life.Never:
		p.row("Desiccant", head+" holds "+dew+" for good: no water reaches it then")
	case b.Life.Seconds == 0:
		p.row("Desiccant", fmt.Sprintf("%s never holds %s: fresh it holds %s", head, dew, dewed(b.Fresh)))
	default:
		p.row("Desiccant", fmt.Sprintf("%s holds %s for %s (%s to %s, by the doubt of its isotherm alone); it takes up %s by then, %s at the end",
			head, dew, Duration(b.Life.Seconds), Duration(b.Low), Duration(b.High), mass(b.Life.Taken), perHour(b.Rate)))
		if b.ForADay > 0 {
			p.row("For a day", mass(b.ForADay)+" of it would do")
		}
	}
	if e := &b.Regenerate; e.Total > 0 {
		p.row("Regeneration", fmt.Sprintf("at %.0f °C, %s kWh each time: %s for the bed, %s for its water, the rest leaves with the air",
			m.Stated.Bed.Regenerated-zeroCelsius, figure(e.Total/3.6e6), figure((e.Desiccant)/3.6e6), figure((e.Warming+e.Desorbing)/3.6e6)))
	}
	if b.Outside {
		p.row("Isotherm", "asked outside the range of its points: a guess")
	}
}

// drawn tells how hard the strand is pulled.
func (m *Machine) drawn(p *MachinePart) {
	d := &m.Answer.Pull
	if !d.Told {
		if d.Radius > 0 {
			p.row("Pull", "not known: nothing is stated of spool, guides and feeder: [pull]")
		}
		return
	}
	text := newtons(d.Result.Pull)
	if d.Given > 0 {
		verdict := map[pull.Verdict]string{pull.Holds: "enough", pull.Doubtful: "doubtful", pull.Fails: "TOO LITTLE"}[d.Holds]
		text += fmt.Sprintf("; the feeder gives %s N: %s", Given(d.Given), verdict)
	}
	p.row("Pull", text)
	var stages []string
	for _, s := range gathered(d.Result.Points) {
		stages = append(stages, fmt.Sprintf("%s N behind %s", figure(s.Tension.Value), s.Name))
	}
	p.row("On its way", strings.Join(stages, ", "))
	if i := d.Result.Longest; i >= 0 {
		s := &d.Result.Points[i]
		p.row("Stretch", fmt.Sprintf("%s %% (up to %s) at most, in %s at %.0f °C, while it is pulled", figure(100*s.Stretch.Strain.Value), figure(100*s.Stretch.Strain.High), s.Name, s.Temperature-zeroCelsius)+
			fmt.Sprintf("; its diameter falls by %s %% (up to %s)", figure(100*s.Stretch.Thinner.Value), figure(100*s.Stretch.Thinner.High)))
	} else {
		p.row("Stretch", "not known: no modulus of the strand is known")
	}
}

// gathered are the points behind each place, the last of those that follow one another there.
func gathered(all []pull.Point) (out []pull.Point) {
	for _, p := range all {
		if n := len(out); n > 0 && out[n-1].Name == p.Name {
			out[n-1] = p
			continue
		}
		out = append(out, p)
	}
	return out
}

// newtons prints a force with its range.
func newtons(r pull.Range) string {
	return fmt.Sprintf("%s N (%s to %s)", figure(r.Value), figure(r.Low), figure(r.High))
}

// counted tells what parts and running cost.
func (m *Machine) counted(p *MachinePart) {
	c := &m.Answer.Cost
	if !c.Told {
		return
	}
	if len(c.Parts) > 0 {
		p.row("Parts", m.money(c.Total)+", at the prices that are stated")
	}
	if m.Stated.Energy > 0 {
		p.row("Running", fmt.Sprintf("%s kWh an hour, %s; %s for each kilogram of strand", figure(c.Energy/3.6e6), m.money(c.PerHour), m.money(c.PerKilo)))
	}
}

// BoughtHeads are the heads of the columns of [Machine.Bought].
func BoughtHeads() []string { return []string{"Part", "How much", "Price of one", "Cost"} }

// Bought lists the parts with what each costs, and the sum; nothing where none is stated.
func (m *Machine) Bought() [][]string {
	c := &m.Answer.Cost
	if len(c.Parts) == 0 || len(c.Parts) != len(m.Stated.Parts) {
		return nil
	}
	var rows [][]string
	for i := range m.Stated.Parts {
		p := &m.Stated.Parts[i]
		rows = append(rows, []string{p.Name, m.amount(i), m.money(p.Price), m.money(c.Parts[i])})
	}
	return append(rows, []string{"all parts", "", "", m.money(c.Total)})
}

// amount is how much of a part is bought.
func (m *Machine) amount(i int) string {
	p := &m.Stated.Parts[i]
	if p.Per == machine.Each {
		return Given(p.Count)
	}
	text := ""
	if p.Price > 0 {
		text = untailed(Significant(m.Answer.Cost.Parts[i]/p.Price, 3)) + " "
	}
	text += [...]string{machine.Metre: "m", machine.SquareMetre: "m²", machine.Watt: "W", machine.Kilogram: "kg"}[p.Per]
	if p.Zone >= 0 && p.Zone < len(m.Chambers) {
		text += " of " + m.Chambers[p.Zone].Name
	}
	return text
}

// Alerts are all warnings, each with what to change, the gravest first.
func (m *Machine) Alerts() []string {
	var all []string
	for _, w := range m.Warnings {
		all = append(all, m.brief(w))
	}
	if len(all) > 1 {
		at := m.gravest()
		gravest := all[at]
		all = slices.Insert(slices.Delete(all, at, at+1), 0, gravest)
	}
	return all
}

// Cautions tells what can hurt of what is stated: heat and what is touched, the desiccant, a strand that stands in the heat. Those of any dryer are in [Cautions].
func (m *Machine) Cautions() []string {
	var all []string
	if slices.ContainsFunc(m.Chambers, func(h machine.Housed) bool { return h.Walled }) {
		all = append(all, "Touch: "+lowered(housing.Caution))
	}
	if m.Bed.Used {
		all = append(all, m.Bed.Bed.Isotherm.Kind.Cautions()...)
	}
	if m.Answer.Pause.Softens() {
		all = append(all, "A strand that softens where it stands may stick, and be torn or wound up when the feed goes on: let the heaters go off with the feed, by a switch of its own.")
	}
	return all
}

// lowered is a sentence that goes on from what stands before it.
func lowered(s string) string { return strings.ToLower(s[:1]) + s[1:] }
