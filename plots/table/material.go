package table

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"strandry/materials"
)

// Materials lists polymers, one line each.
func Materials(out io.Writer, all []materials.Polymer) error {
	var b strings.Builder
	const row = "%-10s %9s %9s %9s %9s %8s  %-14s %s\n"
	fmt.Fprintf(&b, row, "material", "limit", "room", "dry at", "D then", "scatter", "D rests on", "")
	fmt.Fprintf(&b, row, "", "%", "%", "°C", "m²/s", "factor", "", "")
	b.WriteString(strings.Repeat("─", 100) + "\n")
	for i := range all {
		p := &all[i]
		d := &p.Diffusivity
		at := p.DryingTemperature.Value
		fmt.Fprintf(&b, row, p.ID, significant(100*p.MoistureLimit.Value, 2),
			significant(100*p.Sorption.Content(0.5, roomTemperature), 2), trim(at-zeroCelsius, 0),
			fmt.Sprintf("%.1e", d.Dry(at)), significant(d.Scatter.Value, 2), d.ReferenceValue.Kind, p.Family)
	}
	b.WriteString("\nlimit: wettest strand that prints well, % of dry weight. room: content in air of 23 °C and 50 %.\n" +
		"dry at: usual highest drying temperature; D then: diffusivity of the dry polymer there.\n" +
		"strandry materials NAME shows a material whole, with every source and what is doubtful.\n")
	_, err := io.WriteString(out, b.String())
	return err
}

// roomTemperature is that of the standard atmosphere 23/50 of ISO 291 [K].
const roomTemperature = 296.15

// Material shows one polymer with all its values, their ranges, kinds and sources.
func Material(out io.Writer, p materials.Polymer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n%s\n\n", p.Name, p.Family, wrap(p.Summary, width, ""))
	for _, l := range lines(&p) {
		value := l.text
		if l.reach != "" {
			value += " (" + l.reach + ")"
		}
		fmt.Fprintf(&b, "%-44s %s\n", l.name, value)
		fmt.Fprintf(&b, "    %s\n", wrap(l.value.Kind.String()+": "+l.value.Source, width-4, "    "))
	}
	d, s := &p.Diffusivity, &p.Sorption
	fmt.Fprintf(&b, "\nData hold from %s to %s (diffusivity) and from %s to %s at activities of %s to %s (sorption).\n",
		celsius(d.Temperature.Min), celsius(d.Temperature.Max), celsius(s.Temperature.Min), celsius(s.Temperature.Max),
		trim(s.ActivityRange.Min, 3), trim(s.ActivityRange.Max, 3))
	remarks(&b, "What is doubtful", p.Doubts)
	remarks(&b, "Cautions", p.Cautions)
	_, err := io.WriteString(out, b.String())
	return err
}

func remarks(b *strings.Builder, heading string, notes []materials.Note) {
	var all []string
	for _, n := range notes {
		all = append(all, fmt.Sprintf("%s [%s: %s]", n.Text, n.Kind, n.Source))
	}
	list(b, heading, all)
}

// materialDocument is a polymer as JSON, in SI units.
type materialDocument struct {
	ID         string     `json:"id"`
	Name       string     `json:"name"`
	Family     string     `json:"family"`
	Summary    string     `json:"summary"`
	Isotherm   string     `json:"isotherm"`
	Properties []property `json:"properties"`
	Doubts     []remark   `json:"doubts"`
	Cautions   []remark   `json:"cautions"`
}

type property struct {
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Kind   string  `json:"kind"`
	Source string  `json:"source"`
}

type remark struct {
	Text   string `json:"text"`
	Kind   string `json:"kind"`
	Source string `json:"source"`
}

// MaterialJSON writes one polymer as JSON, values in SI.
func MaterialJSON(out io.Writer, p materials.Polymer) error {
	return encode(out, materialDocumentOf(p))
}

// MaterialsJSON writes polymers as a JSON array, values in SI.
func MaterialsJSON(out io.Writer, all []materials.Polymer) error {
	docs := make([]materialDocument, 0, len(all))
	for _, p := range all {
		docs = append(docs, materialDocumentOf(p))
	}
	return encode(out, docs)
}

func materialDocumentOf(p materials.Polymer) materialDocument {
	d := materialDocument{
		ID: p.ID, Name: p.Name, Family: p.Family, Summary: p.Summary, Isotherm: p.Sorption.Form.String(),
		Doubts: remarksOf(p.Doubts), Cautions: remarksOf(p.Cautions),
	}
	for _, l := range lines(&p) {
		v := l.value
		d.Properties = append(d.Properties, property{l.name, v.Value, v.Low, v.High, v.Kind.String(), v.Source})
	}
	return d
}

func remarksOf(notes []materials.Note) []remark {
	out := make([]remark, 0, len(notes))
	for _, n := range notes {
		out = append(out, remark{n.Text, n.Kind.String(), n.Source})
	}
	return out
}

func encode(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
