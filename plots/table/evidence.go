package table

import (
	"fmt"
	"strings"

	"strandry/scenarios/validation/measured"
)

// Evidence is the library beside what was measured, as a page.
type Evidence struct {
	Version  string
	Evidence *measured.Evidence
}

// Check refuses figures that are not finite.
func (e *Evidence) Check() error { return Finite("the evidence", e.Evidence) }

// text has the sums, the figures material by material, and what could not be used.
func (e *Evidence) text(b *strings.Builder) {
	e.sums(b)
	e.figures(b)
	list(b, "NOT SET AGAINST A PREDICTION", e.unusable())
	e.laws(b)
}

// Summary is the one line that says it all.
func (e *Evidence) Summary() string {
	t := e.Evidence.Independent
	return fmt.Sprintf("Of %d independent comparisons %s inside the predicted interval, %d partly, %d outside.",
		t.All(), lie(t.Inside), t.Partly, t.Outside)
}

func lie(n int) string {
	if n == 1 {
		return "1 lies"
	}
	return fmt.Sprintf("%d lie", n)
}

func (e *Evidence) sums(b *strings.Builder) {
	a := e.Evidence.Anchors
	b.WriteString("The library of polymers beside what others have measured\n\n")
	paragraph(b, "", e.Summary())
	paragraph(b, "", fmt.Sprintf("Anchors besides: %d. Some value of the library was made from such a figure, so that it meets them (%d inside, %d partly, %d outside) proves nothing.",
		a.All(), a.Inside, a.Partly, a.Outside))
	b.WriteByte('\n')
	for _, lack := range []struct {
		words string
		names []string
	}{
		{"No measured figure at all: ", e.Evidence.Unmeasured},
		{"Anchors alone: ", e.Evidence.AnchoredOnly},
		{"No independent figure of how fast water moves: ", e.Evidence.DiffusivityUntested},
	} {
		paragraph(b, "", lack.words+listed(lack.names)+".")
	}
}

// listed are names in a row, or the word for none.
func listed(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}

func (e *Evidence) figures(b *strings.Builder) {
	material := ""
	for i := range e.Evidence.Comparisons {
		c := &e.Evidence.Comparisons[i]
		if c.Material != material {
			material = c.Material
			fmt.Fprintf(b, "\n%s\n", strings.ToUpper(material))
		}
		verdict := c.Verdict.String()
		if !c.Independent() {
			verdict += ", anchor"
		}
		fmt.Fprintf(b, "  %s: %s\n", e.What(c), verdict)
		paragraph(b, "    ", fmt.Sprintf("measured %s; predicted %s", e.Measured(c), e.Predicted(c)))
		for _, line := range e.details(c) {
			paragraph(b, "    ", line)
		}
	}
}

// What names the quantity and its conditions.
func (e *Evidence) What(c *measured.Comparison) string {
	words := c.Quantity.String()
	if c.Quantity == measured.Uptake {
		return fmt.Sprintf("%s of a plate of %s in water of %s within %s", words, Millimetres(c.At.Thickness), Celsius(c.At.Temperature), Duration(c.At.Time))
	}
	if c.At.To > 0 {
		words += ", " + Celsius(c.At.Temperature) + " to " + Celsius(c.At.To)
	} else {
		words += " at " + Celsius(c.At.Temperature)
	}
	if c.At.Humidity > 0 {
		words += ", " + Given(100*c.At.Humidity) + " % RH"
	}
	return words
}

// Measured is the value or the range as it was measured.
func (e *Evidence) Measured(c *measured.Comparison) string {
	s := scaleOf(c.Quantity)
	switch {
	case c.Rounded:
		return s.of(c.Middle()) + s.unit + " (one digit)"
	case c.Low == c.High:
		return s.of(c.Low) + s.unit
	}
	return s.of(c.Low) + " to " + s.of(c.High) + s.unit
}

// Predicted is the predicted value with its interval.
func (e *Evidence) Predicted(c *measured.Comparison) string {
	p, s := c.Predicted, scaleOf(c.Quantity)
	text := func(x float64) string { return Significant(x*s.factor, 3) }
	return fmt.Sprintf("%s%s (%s to %s)", text(p.Value), s.unit, text(p.Low), text(p.High))
}

// details are the source and what else is to be known of a figure.
func (e *Evidence) details(c *measured.Comparison) []string {
	lines := []string{fmt.Sprintf("%s [%s; read in the %s]", c.Source, c.Kind, c.Read)}
	for _, one := range []struct{ head, text string }{{"Reckoned: ", c.Reckoned}, {"Anchor: ", c.Anchor}, {"Remark: ", c.Remark}} {
		if one.text != "" {
			lines = append(lines, one.head+one.text)
		}
	}
	if c.Predicted.Extrapolated {
		lines = append(lines, "The conditions lie outside the range that the library states for its data.")
	}
	return lines
}

// scaleOf turns the SI value of a quantity into what is printed: contents into %, energies into kJ/mol.
func scaleOf(q measured.Quantity) scale {
	return map[measured.Quantity]scale{
		measured.Equilibrium: {100, 0, " %", ""}, measured.Uptake: {100, 0, " %", ""}, measured.ActivationEnergy: {1e-3, 0, " kJ/mol", ""}, measured.Diffusivity: {1, 0, " m2/s", ""},
		measured.DiffusivityRatio: {1, 0, "", ""}, measured.EquilibriumRatio: {1, 0, "", ""},
	}[q]
}

// Contradictions are a line for each material with measured figures outside what the library predicts.
func Contradictions(all []measured.Comparison) []string {
	var order []string
	of := map[string][]string{}
	e := &Evidence{}
	for i := range all {
		c := &all[i]
		if of[c.Material] == nil {
			order = append(order, c.Material)
		}
		of[c.Material] = append(of[c.Material], fmt.Sprintf("%s, measured %s, predicted %s", e.What(c), e.Measured(c), e.Predicted(c)))
	}
	for i, id := range order {
		order[i] = fmt.Sprintf("Measured figures contradict the data of %s: %s (strandry evidence).", id, strings.Join(of[id], "; "))
	}
	return order
}

func (e *Evidence) unusable() []string {
	var all []string
	for _, a := range e.Evidence.Unusable {
		text := a.What + ". " + a.Source + ": " + a.Why + "."
		if len(a.Materials) > 0 {
			text = strings.Join(a.Materials, ", ") + ": " + text
		}
		all = append(all, text)
	}
	return all
}

func (e *Evidence) laws(b *strings.Builder) {
	b.WriteString("\nHOW IT IS PREDICTED\n")
	for _, text := range []string{
		"Equilibrium: the isotherm; the interval is what the ranges of its parameters and of the heat of mixing allow.",
		"Diffusivity: with no water, or, where a humidity is given, what sorption to it shows, (5/3) C0^(-5/3) times the integral of C^(2/3) D (Crank, 1975, section 9.4); the interval is D/f to D f, f being the scatter factor.",
		"Uptake: the equilibrium times M/Minf = (4/sqrt(pi)) sqrt(D t/h2), h being the full thickness of a plate exposed on both sides, and beyond D t/h2 = 0.04 the series for the same plate (Crank, The Mathematics of Diffusion, 1975); both intervals together.",
		"Activation energy: R ln(D2/D1)/(1/T1 - 1/T2). It and the ratios take the range of the activation energy or of the heat of mixing.",
		"Contents are by dry weight. A figure is a point where its source states no uncertainty; one printed with one digit is inside where the printed value is, partly where only half a digit more or less reaches. A range counts as inside when all of it is, as partly when some of it is. No property is changed to meet a figure.",
	} {
		paragraph(b, "  ", text)
	}
}
