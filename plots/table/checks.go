package table

import (
	"fmt"
	"slices"
	"strings"

	"strandry/scenarios/studies/checked"
)

// CheckCaption tells what the table of the checks shows.
const CheckCaption = "Contents are in % of dry weight, what was lost in % of the mass before; each range holds it eight times in ten. Measured, it is what the masses leave open; " +
	"predicted, all that is in doubt about the design. So large a difference or a larger one is met so many times in a hundred if the machine is as the model has it: from ten on it agrees, " +
	"as nine of ten such measurements then do, or more on a coarse scale."

// checks are the masses that were weighed at the machine beside the model, and nothing for none.
func (a *Answer) checks(b *strings.Builder) {
	if len(a.Checks) == 0 {
		return
	}
	b.WriteString("\nChecked on the machine\n")
	columns := []column{{"", "", -14}, {"measured", "%", 9}, {"range", "%", 17}, {"predicted", "%", 9}, {"range", "%", 17}, {"chance", "%", 6}}
	headed := false
	for i := range a.Checks {
		c := &a.Checks[i]
		if len(c.Comparisons) == 0 {
			continue
		}
		if !headed {
			heads(b, columns)
			headed = true
		}
		b.WriteString(shorten(CheckTitle(c), width) + "\n")
		for k := range c.Comparisons {
			row(b, columns, CheckCells(&c.Comparisons[k]))
		}
	}
	if headed {
		paragraph(b, "", CheckCaption)
	}
	for i := range a.Checks {
		c := &a.Checks[i]
		b.WriteString("\n")
		paragraph(b, fmt.Sprintf("%2d. ", i+1), c.Title+": "+strings.Join(CheckSays(c), " "))
	}
}

// checkedLine sums the checks up; "" for none.
func (a *Answer) checkedLine() string {
	if len(a.Checks) == 0 {
		return ""
	}
	n, agree, untold := checked.Count(a.Checks)
	text := fmt.Sprintf("Checked: %d of %d %s %s", agree, n, plural(n, "measurement", "measurements"), plural(agree, "agrees", "agree"))
	if untold > 0 {
		text += fmt.Sprintf(", %d cannot tell", untold)
	}
	if against := n - agree - untold; against > 0 {
		text += fmt.Sprintf(", %d %s not", against, plural(against, "does", "do"))
	}
	if slices.ContainsFunc(a.Checks, func(c checked.Check) bool { return c.Reason != "" }) {
		text += ", not all could be predicted"
	}
	return text + "; see run --full."
}

// CheckTitle names a check, and where and how fast.
func CheckTitle(c *checked.Check) string {
	where := "at the nozzle"
	if c.Zone != "" {
		where = "after " + c.Zone
	}
	if c.OfStart() {
		return c.Title + ", before the path"
	}
	return fmt.Sprintf("%s, %s, fed at %s", c.Title, where, Speed(c.Speed))
}

// CheckHeads are those of [CheckCells].
func CheckHeads() []string {
	return []string{"", "Measured, %", "Range, %", "Predicted, %", "Range, %", "Chance, %"}
}

// CheckCells are what was measured, what was predicted, and how often so large a difference is met.
func CheckCells(c *checked.Comparison) []string {
	name := [...]string{checked.AtStart: "held before", checked.AtExit: "held after", checked.Lost: "lost between"}[c.Of]
	span := func(e checked.Estimate) string { return strings.TrimSuffix(Spanned(e.Low, e.High), " %") }
	return []string{name, Cell(c.Measured.Value), span(c.Measured), Cell(c.Predicted.Value), span(c.Predicted), chance(c.Chance)}
}

// CheckSays are sentences on a check: whether it agrees, what that means, and what it rests on.
func CheckSays(c *checked.Check) []string {
	if c.Reason != "" {
		return []string{"There is no prediction: " + strings.TrimSuffix(c.Reason, ".") + "."}
	}
	var says []string
	for i := range c.Comparisons {
		one := &c.Comparisons[i]
		says = append(says, compared(one))
		if differs := one.Outcome == checked.Wetter || one.Outcome == checked.Drier; differs && one.Of == checked.AtStart && !c.OfStart() {
			says = append(says, "Mend that first: what follows rests on it.")
		}
	}
	if c.Gained {
		says = append(says, "It was heavier after the path than before, where the model has it lose water: another length, damp hands, or a scale that drifts?")
	}
	if text := byDiffusivity(c); text != "" {
		says = append(says, text)
	}
	if !c.Stepped {
		says = append(says, "The step of the scale is taken as "+Grams(c.Step)+", the last digit of the masses.")
	}
	if r := c.Residue; r.Oven > 0 {
		says = append(says, fmt.Sprintf("How much water drying out left is not known: it is taken as 0 to %s, what the strand would hold at rest in air of the room heated to %s (common practice, no source); left states it.",
			Percent(r.Most), Celsius(r.Oven)))
	}
	return says
}

// compared is how a measurement compares, and what that may come from.
func compared(c *checked.Comparison) string {
	what := [...]string{checked.AtStart: "What it held before", checked.AtExit: "What it held after", checked.Lost: "What it lost"}[c.Of]
	met := fmt.Sprintf("so large a difference is met %s if the model is right", Chance(c.Chance))
	switch {
	case c.Outcome == checked.Agrees:
		return what + " agrees: " + met + "."
	case c.Outcome == checked.Untold:
		return what + ": these masses cannot tell, what they leave open is as wide as the prediction. A finer scale or a longer piece would tell more."
	case c.Of == checked.AtStart && c.Outcome == checked.Wetter:
		return what + " is wetter than predicted (" + met + "): the scenario has it set off too dry, or dried was too light."
	case c.Of == checked.AtStart:
		return what + " is drier than predicted (" + met + "): the scenario has it set off too wet, or it was not dried out."
	case c.Outcome == checked.Wetter && c.Of == checked.Lost:
		return what + " is less than predicted, so that it stays wetter (" + met + "): " + slower + "; or it had less to lose."
	case c.Outcome == checked.Wetter:
		return what + " is wetter than predicted (" + met + "): " + slower + "; or it set off wetter."
	case c.Of == checked.Lost:
		return what + " is more than predicted, so that it gets drier (" + met + "): " + faster + "; or it had more to lose."
	}
	return what + " is drier than predicted (" + met + "): " + faster + "; or it set off drier, or was not dried out."
}

const (
	slower = "the strand, or the air, is slower than the model's: water moves less easily in it, the air is cooler or moister than stated or hardly reaches it, or it runs faster or lies closer than stated"
	faster = "the strand, or the air, is faster than the model's: water moves more easily in it, the air is hotter or drier than stated or reaches it better, or it runs slower or lies freer than stated"
)

// byDiffusivity tells which diffusivity would give what was measured; "" where nothing was weighed after the path.
func byDiffusivity(c *checked.Check) string {
	const otherwise = "If all else were as the model has it at its medians, "
	f := c.Diffusivity
	open := ""
	low, high, digits := apartFrom(f.Low, f.High)
	switch {
	case c.OfStart():
		return ""
	case f.Low > 0 && f.High > 0:
		open = low + " to " + high
	case f.Low > 0:
		open = low + " or more"
	case f.High > 0:
		open = high + " or less"
	case f.Value == 0 && c.Told():
		return otherwise + "no diffusivity from a thousandth to a thousand times its own would give what was measured."
	default:
		return "These masses say nothing of the diffusivity."
	}
	if f.Value == 0 {
		return otherwise + "the factor on the diffusivity would be " + open + ", eight times in ten by what the masses leave open."
	}
	return fmt.Sprintf("%sthe diffusivity would be %s times its own (%s, eight times in ten by what the masses leave open).", otherwise, Significant(f.Value, digits), open)
}

// apartFrom are two numbers in so many digits, two to four, that they differ, if they do.
func apartFrom(low, high float64) (a, b string, digits int) {
	const most = 4
	for digits = 2; digits < most && Significant(low, digits) == Significant(high, digits); {
		digits++
	}
	return Significant(low, digits), Significant(high, digits), digits
}
