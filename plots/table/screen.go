package table

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
)

// screen is how many lines an answer may have.
const screen = 24

// shape is what there is room for on a screen.
type shape struct {
	zones, notes  int
	spaced, steam bool // an empty line before the last; what the water becomes in the nozzle
	cut           bool // a line and no more for each change
}

// shapes are tried in turn until one fits.
func shapes() []shape {
	return []shape{
		{5, 3, true, true, false}, {5, 2, true, true, false}, {5, 1, true, true, false}, {5, 1, false, true, false}, {4, 1, false, true, false},
		{3, 1, false, true, false}, {3, 1, false, false, false}, {2, 1, false, false, false}, {2, 0, false, false, false}, {1, 0, false, false, false},
		{1, 0, false, false, true},
	}
}

// text sets the answer on one screen of 24 lines and 79 columns: the verdict, the numbers, the zones, what holds the design back and what
// would do, and the notes that could change the verdict. [Full] has the rest.
func (a *Answer) text(b *strings.Builder) {
	notes := a.weighty()
	for _, s := range shapes() {
		b.Reset()
		a.verdict(b, s.steam)
		a.briefPath(b, s.zones)
		b.WriteString(a.reasons(s.cut))
		if line := a.checkedLine(); line != "" {
			paragraph(b, "", line)
		}
		for _, note := range notes[:min(s.notes, len(notes))] {
			paragraph(b, "  ! ", note)
		}
		if s.spaced {
			b.WriteByte('\n')
		}
		more := "all notes"
		if n := len(notes) - s.notes; n > 0 {
			more = fmt.Sprintf("%d more %s", n, plural(n, "note", "notes"))
		}
		paragraph(b, "", "Heat, mains and fumes can hurt. Cautions, "+more+", sources: run --full.")
		if strings.Count(b.String(), "\n") <= screen {
			break
		}
	}
	a.untold(b)
	if a.Machine != nil {
		b.WriteString("\n" + strings.Join(a.Machine.lines(), "\n") + "\n")
	}
}

// verdict is the first lines: they alone must not mislead.
func (a *Answer) verdict(b *strings.Builder, withSteam bool) {
	m, r := a.Design, a.Assessment
	paragraph(b, "", Meaning(a.Design, r)+".")
	b.WriteString(shorten(a.Title, width) + "\n")
	b.WriteString(shorten(fmt.Sprintf("%s, %s, fed at %s; water in %% of dry weight", m.Material.Name, Millimetres(2*m.Radius), Speed(m.Speed)), width) + "\n")
	b.WriteByte('\n')
	paragraph(b, "At the nozzle  ", arrives(r))
	paragraph(b, "Limit          ", a.briefLimit())
	paragraph(b, "Survives       ", Survives(m.Material.Name, r.Endurance))
	if withSteam {
		paragraph(b, "Steam          ", steam(m, r))
	}
}

// arrives is what reaches the nozzle: at the medians of what is in doubt, and eight times in ten.
func arrives(r *diffusion.Assessment) string {
	mean := Bounded(r.Nozzle.Mean, r.NumericalError)
	switch {
	case len(r.Unknowns) == 0:
		return mean
	case r.Mouths > 0: // the odds draw what comes in there, the medians know nothing of it
		return fmt.Sprintf("%s, eight times in ten; %s if no air came in at the mouths of the bore", Spanned(r.Low, r.High), Percent(r.Nozzle.Mean))
	}
	return mean + "; eight times in ten " + Spanned(r.Low, r.High)
}

// briefLimit is the limit, how well it is known, and how often the other one is met.
func (a *Answer) briefLimit() string {
	m, o := a.Design, &a.Assessment.Odds
	own := Limit(m.Limit)
	if l := m.LimitInDoubt(); l.Low < l.High {
		own = fmt.Sprintf("%s (%s to %s)", own, Given(100*l.Low), Given(100*l.High))
	}
	printing, moulding := Limit(m.Material.PrintingLimit.Value), Limit(m.Material.MouldingLimit.Value)
	switch {
	case m.LimitStated:
		return fmt.Sprintf("%s as stated; printing: %s, moulding: %s", own, printing, moulding)
	case m.Purpose == materials.Moulding:
		return fmt.Sprintf("%s for moulding; printing %s: %s in 100", own, printing, chance(o.Printing))
	}
	return fmt.Sprintf("%s for printing; moulding %s: %s in 100", own, moulding, chance(o.Moulding))
}

// steam is what the water becomes in the nozzle, beside what it may.
func steam(m *diffusion.Design, r *diffusion.Assessment) string {
	return fmt.Sprintf("%s litres for each litre of melt at %s (at the limit: %s)",
		Significant(r.Steam, 2), Celsius(m.NozzleTemperature), Significant(m.SteamPerVolume(m.Limit), 2))
}

// briefPath is the table of the zones; of many, those in which the content changes most.
func (a *Answer) briefPath(b *strings.Builder, most int) {
	columns := []column{{"after", "", -18}, {"length", "", 8}, {"time", "", 7}, {"air °C", "", 6}, {"strand °C", "", 9},
		{"mean %", "", 7}, {"centre %", "", 8}, {"skin %", "", 7}}
	b.WriteByte('\n')
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.head
	}
	row(b, columns, names)
	shown := a.busiest(most)
	for _, cells := range a.places(shown, 18) {
		row(b, columns, cells)
	}
	if left := len(a.Assessment.Zones) - len(shown); left > 0 {
		fmt.Fprintf(b, "(and %d more: --full)\n", left)
	}
}

// busiest are so many zones, in their order, in which the content changes most; one less where some are left out, for the line that says so.
func (a *Answer) busiest(most int) []int {
	zones, before := a.Assessment.Zones, a.Assessment.Start.Mean
	order, moved := make([]int, len(zones)), make([]float64, len(zones))
	for i := range zones {
		order[i], moved[i] = i, max(zones[i].Exit.Mean-before, before-zones[i].Exit.Mean)
		before = zones[i].Exit.Mean
	}
	if len(zones) <= most {
		return order
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(moved[k], moved[i]) })
	order = order[:max(1, most-1)]
	slices.Sort(order)
	return order
}

// reasons are what holds the design back and what would do, each change in a line with the key that makes it.
func (a *Answer) reasons(cut bool) string {
	var b strings.Builder
	b.WriteByte('\n')
	paragraph(&b, "", a.hindered())
	v, head, tail := &a.Advice, "", ""
	var set *advice.Set
	switch {
	case a.Assessment.Verdict == diffusion.Dry:
		return b.String()
	case len(v.Sets) > 0:
		set = &v.Sets[0]
		head = fmt.Sprintf("%s (%s):", would(len(set.Changes)), dryOdds(set))
		if n := len(v.Sets) - 1; n > 0 {
			tail = fmt.Sprintf("%d other %s would do too: --full.", n, plural(n, "way", "ways"))
		}
	case v.Nearest != nil:
		set = v.Nearest
		head = fmt.Sprintf("Nothing within [build]%s would do. Nearest (%s):", a.presumed(), dryOdds(set))
		tail = strings.TrimSpace(a.wanting())
	default:
		paragraph(&b, "", strings.TrimSpace(strings.TrimSuffix(a.advised(), elsewhere)))
		return b.String()
	}
	paragraph(&b, "", head)
	for i := range set.Changes {
		if text := a.change(&set.Changes[i]); cut {
			b.WriteString(shorten("  - "+text, width) + "\n")
		} else {
			paragraph(&b, "  - ", text)
		}
	}
	if tail != "" && !cut {
		paragraph(&b, "", tail)
	}
	return b.String()
}

// presumed tells that what can be built was taken as usual.
func (a *Answer) presumed() string {
	if slices.ContainsFunc(a.Assumed, func(text string) bool { return strings.HasPrefix(text, "build.") }) {
		return " (as assumed)"
	}
	return ""
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
