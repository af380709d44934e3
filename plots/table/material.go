package table

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"strandry/materials"
)

// widestName is how much of a long name the list shows [columns].
const widestName = 22

// Polymers is a list of polymers, one line each.
type Polymers []materials.Polymer

// Check refuses figures that are not finite.
func (all Polymers) Check() error { return Finite("the materials", []materials.Polymer(all)) }

func (all Polymers) text(b *strings.Builder) {
	name := utf8.RuneCountInString("material")
	for i := range all {
		name = max(name, min(widestName, utf8.RuneCountInString(all[i].ID)))
	}
	columns := []column{
		{"material", "", -name}, {"print", "%", 6}, {"mould", "%", 6}, {"room", "%", 6}, {"dry at", "°C", 6},
		{"D then", "m²/s", 8}, {"scatter", "factor", 7},
	}
	family := width
	for _, c := range columns {
		family -= max(c.width, -c.width) + 1
	}
	family -= len(" ") // keep it off the numbers
	columns = append(columns, column{" what it is", "", -family - 1})
	heads(b, columns)
	for i := range all {
		p := &all[i]
		d, dryAt := &p.Diffusivity, p.DryingTemperature.Value
		what, _, _ := strings.Cut(p.Family, ", ")
		mark := ""
		if k := d.ReferenceValue.Kind; k == materials.Memory || k == materials.PublishedWeak || k == materials.Practice {
			mark = "~"
		}
		row(b, columns, []string{shorten(p.ID, name), Given(100 * p.PrintingLimit.Value), Given(100 * p.MouldingLimit.Value),
			Significant(100*p.Sorption.Content(0.5, roomTemperature), 2), trim(dryAt-zeroCelsius, 0),
			mark + Significant(d.Dry(dryAt), 2), Given(d.Scatter.Value), " " + shorten(what, family)})
	}
	b.WriteByte('\n')
	legend(b, [][2]string{
		{"print:   ", "wettest strand that prints without bubbles, strings or rough skin, % of dry weight; common practice"},
		{"mould:   ", "wettest that moulders melt, so that no chain is cut and no streak shows, % of dry weight"},
		{"room:    ", "content in equilibrium with air of 23 °C and 50 %, % of dry weight"},
		{"dry at:  ", "usual highest drying temperature"},
		{"D then:  ", "diffusivity of the dry polymer at that temperature; ~ where it rests on no reviewed measurement that was read"},
		{"scatter: ", "the diffusivity may be this many times larger or smaller"},
	})
	b.WriteString("\nstrandry materials NAME shows one whole: ranges, sources, doubts, cautions.\n")
}

// roomTemperature is that of the standard atmosphere 23/50 of ISO 291 [K].
const roomTemperature = 296.15

// Polymer is one polymer with all its values, their ranges, kinds and sources.
type Polymer struct{ materials.Polymer }

// Check refuses figures that are not finite.
func (one Polymer) Check() error { return Finite("the material", one.Polymer) }

func (one Polymer) text(b *strings.Builder) {
	p := &one.Polymer
	paragraph(b, "", p.Name+": "+p.Family)
	paragraph(b, "", p.Summary)
	paragraph(b, "", structure(p))
	b.WriteByte('\n')
	for _, l := range lines(p) {
		value := l.text
		if l.reach != "" {
			value += " (" + l.reach + ")"
		}
		fmt.Fprintf(b, "%-42s %s\n", l.name, value)
		paragraph(b, "    ", origin(l.value.Kind, l.value.Source))
	}
	d, s := &p.Diffusivity, &p.Sorption
	apart(b, fmt.Sprintf("Data hold from %s to %s (diffusivity) and from %s to %s at activities of %s to %s (sorption).",
		Celsius(d.Temperature.Min), Celsius(d.Temperature.Max), Celsius(s.Temperature.Min), Celsius(s.Temperature.Max),
		trim(s.ActivityRange.Min, 3), trim(s.ActivityRange.Max, 3)))
	if text := together(d); text != "" {
		apart(b, text)
	}
	list(b, "Doubts", remarks(p.Doubts))
	list(b, "Cautions", remarks(p.Cautions))
}

func remarks(notes []materials.Note) []string {
	var all []string
	for _, n := range notes {
		all = append(all, fmt.Sprintf("%s (%s)", n.Text, origin(n.Kind, n.Source)))
	}
	return all
}

func (one Polymer) json() any { return polymerOf(&one.Polymer) }

func (all Polymers) json() any { return each(all, polymerOf) }

func polymerOf(p *materials.Polymer) object {
	return object{
		{"id", p.ID},
		{"name", p.Name},
		{"family", p.Family},
		{"structure", p.Structure.String()}, // amorphous, semicrystalline
		{"summary", p.Summary},
		{"isotherm", p.Sorption.Form.String()},
		{"properties", each(lines(p), func(l *line) object {
			v := l.value
			return object{{"name", l.name}, {"unit", l.si}, {"value", v.Value}, {"low", v.Low}, {"high", v.High}, {"kind", v.Kind.String()}, {"source", v.Source}}
		})},
		{"", correlationOf(&p.Diffusivity)},
		{"modulus", each(p.Moduli, modulusOf)}, // of elasticity, dry; log E straight over T between the points, not known above the last
		{"doubts", each(p.Doubts, remarkOf)},
		{"cautions", each(p.Cautions, remarkOf)},
	}
}

func modulusOf(m *materials.ModulusAt) object {
	v := m.Modulus
	return object{{"temperature", m.Temperature}, {"value", v.Value}, {"low", v.Low}, {"high", v.High}, {"kind", v.Kind.String()}, {"source", v.Source}}
}

func remarkOf(n *materials.Note) object {
	return object{{"text", n.Text}, {"kind", n.Kind.String()}, {"source", n.Source}}
}

// correlationOf is a member where doubts of the diffusivity go together: of the deviates of the value at the reference, the activation energy there, and beta.
func correlationOf(d *materials.Diffusivity) object {
	if !d.Correlated() {
		return nil
	}
	c := d.Correlation
	return object{{"correlation", object{{"activation", c.Activation}, {"beta", c.Beta}, {"activation_beta", c.ActivationBeta}}}}
}
