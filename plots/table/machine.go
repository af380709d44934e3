package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/diffusion/machine"
	"strandry/diffusion/machine/pull"
	"strandry/materials/humidair"
)

// Machine is what a dryer takes, of what is stated of it; Stated is the statement that it answers.
type Machine struct {
	*machine.Answer
	Stated *machine.Machine
	Strand string // the material's name
}

// machineLines is how many lines a machine may have under an answer.
const machineLines = 10

// lines are what is told of the machine, one for each matter, and a heading; the last line is the gravest warning.
func (m *Machine) lines() []string {
	out := []string{"The machine, as far as it is stated (every number an estimate: measure yours)"}
	for _, one := range [...]struct{ head, text string }{
		{"Fits", m.fits()}, {"Heat", m.heat()}, {"Outside", m.outside()}, {"Air", m.air()}, {"Desiccant", m.bed()}, {"Pull", m.pull()}, {"Pause", m.pause()}, {"Cost", m.cost()},
	} {
		if one.text != "" {
			out = append(out, shorten(fmt.Sprintf("%-15s%s", one.head, one.text), width))
		}
	}
	if n := len(m.Warnings); n > 0 {
		more := ""
		if n > 1 {
			more = fmt.Sprintf(" (%d more: --full)", n-1)
		}
		mark := "  ! "
		out = append(out, mark+shorten(m.brief(m.Warnings[m.gravest()]), width-len(mark)-len(more))+more)
	}
	return out
}

// gravest is the index of the warning that is shown where there is room for one: what cannot be built or burns goes first.
func (m *Machine) gravest() int {
	order := []machine.Concern{
		machine.SoftensAtRest, machine.DoesNotFit, machine.HeaterTooWeak, machine.NeverWarm, machine.PullsTooHard, machine.BedHoldsLess, machine.BedTurnsLiquid,
		machine.BendsTooTight, machine.BurnsHands, machine.AirTooLittle, machine.StretchesHot, machine.LeakBringsWater, machine.BedIsShort,
	}
	best, at := len(order), 0
	for i, w := range m.Warnings {
		if k := slices.Index(order, w.Concern); k >= 0 && k < best {
			best, at = k, i
		}
	}
	return at
}

// led are the chambers whose shape is stated.
func (m *Machine) led() (all []*machine.Housed) {
	for i := range m.Chambers {
		if m.Chambers[i].Led {
			all = append(all, &m.Chambers[i])
		}
	}
	return all
}

// sizes are length, width and height in millimetres.
func sizes(s [3]float64) string {
	return fmt.Sprintf("%s × %s × %s mm", Significant(1000*s[0], 3), Significant(1000*s[1], 3), Significant(1000*s[2], 3))
}

func (m *Machine) fits() string {
	var words []string
	for _, h := range m.led() {
		text := h.Name + " " + sizes(h.Outer)
		switch {
		case h.Boxed && h.Fits:
			text = "yes, in the box: " + text
		case h.Boxed:
			text = "NO: " + text
			if h.Most > 0 {
				text += fmt.Sprintf(" for %s; the box holds %s", Length(h.Length), Length(h.Most))
			}
		}
		words = append(words, text)
	}
	slices.SortStableFunc(words, func(a, b string) int { // what does not fit goes first
		return strings.Compare(b[:min(2, len(b))], a[:min(2, len(a))]) * boolSign(strings.HasPrefix(a, "NO") != strings.HasPrefix(b, "NO"))
	})
	return strings.Join(words, "; ")
}

func boolSign(b bool) int {
	if b {
		return -1
	}
	return 0
}

// watts prints a power.
func watts(p float64) string { return Significant(p, 2) + " W" }

func (m *Machine) heat() string {
	var words []string
	for i := range m.Chambers {
		h := &m.Chambers[i]
		if !h.Heated {
			continue
		}
		text := fmt.Sprintf("%s %s", h.Name, watts(math.Max(0, h.Steady.Heater)))
		if !h.Walled {
			text += " without its wall"
		} else if h.Loss.PowerHigh > h.Loss.PowerLow {
			text += fmt.Sprintf(" (%s to %s)", Significant(math.Max(0, h.Steady.Heater-h.Loss.Power+h.Loss.PowerLow), 2), Significant(math.Max(0, h.Steady.Heater-h.Loss.Power+h.Loss.PowerHigh), 2))
		}
		switch {
		case h.Heater > 0:
			text += ", has " + watts(h.Heater)
		default:
			text += ", take " + watts(h.Size)
		}
		switch {
		case h.Warms && h.WarmUp.Reached:
			text += ", warm in " + Duration(h.WarmUp.Seconds)
		case h.Warms:
			text += ", never warm"
		}
		words = append(words, text)
	}
	if len(words) > 0 && m.PerKilo > 0 {
		words = append(words, fmt.Sprintf("%s kWh for each kg", Significant(m.PerKilo/3.6e6, 2)))
	}
	return strings.Join(words, "; ")
}

// outside tells what a hand meets, of the hottest chamber.
func (m *Machine) outside() string {
	var hottest *machine.Housed
	for i := range m.Chambers {
		if h := &m.Chambers[i]; h.Walled && (hottest == nil || h.Loss.SurfaceHigh > hottest.Loss.SurfaceHigh) {
			hottest = h
		}
	}
	if hottest == nil {
		return ""
	}
	text := fmt.Sprintf("%s, at most %s", Celsius(math.Round(hottest.Loss.Surface)), Celsius(math.Round(hottest.Loss.SurfaceHigh)))
	for _, t := range hottest.Touch {
		if t.Passed {
			return text + ": may burn a hand that stays for " + Duration(t.Seconds)
		}
	}
	return text + ": a hand may rest on it (limits from memory)"
}

// perHour prints a flow of water.
func perHour(kg float64) string { return Significant(3.6e6*kg, 2) + " g/h" }

// litres prints a flow of air.
func litres(flow float64) string { return Significant(6e4*flow, 2) + " L/min" }

func (m *Machine) air() string {
	for i := range m.Chambers {
		h := &m.Chambers[i]
		w := &h.Water
		if !w.Limited || !h.Heated {
			continue
		}
		text := fmt.Sprintf("%s: brings %s of water, strand gives %s", h.Name, perHour(w.Brought()), perHour(w.Given))
		if w.Searched {
			text += "; " + useful(w)
		}
		return text
	}
	return ""
}

// useful tells which flows are of use.
func useful(w *machine.Water) string {
	var words []string
	if w.Least > 0 {
		words = append(words, "starved below "+litres(w.Least))
	}
	if w.Enough > 0 {
		words = append(words, "little gain beyond "+litres(w.Enough))
	}
	if len(words) == 0 {
		return "a trickle would do"
	}
	return strings.Join(words, ", ")
}

func (m *Machine) bed() string {
	b := &m.Bed
	if !b.Used {
		return ""
	}
	dew := frost(b.Target)
	head := fmt.Sprintf("%s of %s", mass(b.Bed.DryMass), b.Bed.Isotherm.Kind)
	switch {
	case b.Life.Never:
		return head + " holds " + dew + " for good: no water reaches it then"
	case b.Life.Seconds == 0:
		return head + " never holds " + dew
	}
	text := fmt.Sprintf("%s holds %s for %s (%s to %s)", head, dew, Duration(b.Life.Seconds), Duration(b.Low), Duration(b.High))
	if b.Regenerate.Total > 0 {
		text += fmt.Sprintf(", then %s kWh", Significant(b.Regenerate.Total/3.6e6, 2))
	}
	return text
}

// frost prints the dew or frost point of a vapour pressure [Pa].
func frost(pressure float64) string {
	return fmt.Sprintf("%.0f °C", humidair.DewPoint(pressure)-zeroCelsius)
}

// mass prints one.
func mass(kg float64) string {
	if kg < 1 {
		return Significant(1000*kg, 3) + " g"
	}
	return Significant(kg, 3) + " kg"
}

// newtons prints a force with its range.
func newtons(r pull.Range) string {
	return fmt.Sprintf("%s N (%s to %s)", Significant(r.Value, 2), Significant(r.Low, 2), Significant(r.High, 2))
}

func (m *Machine) pull() string {
	p := &m.Pull
	if !p.Told {
		if p.Radius > 0 {
			return fmt.Sprintf("not stated; bends by %s %% of its length over %s", Significant(100*p.Bend, 2), Millimetres(p.Radius))
		}
		return ""
	}
	text := newtons(p.Result.Pull)
	if p.Given > 0 {
		text += fmt.Sprintf(", the feeder gives %s N", Significant(p.Given, 3))
	}
	if i := p.Result.Longest; i >= 0 {
		text += fmt.Sprintf("; stretches by up to %s %%", Significant(100*p.Result.Points[i].Stretch.Strain.High, 1))
	} else {
		text += "; stretch not known"
	}
	if p.Radius > 0 {
		text += fmt.Sprintf("; bent by %s %%", Significant(100*p.Bend, 2))
	}
	return text
}

func (m *Machine) pause() string {
	p := &m.Answer.Pause
	if !p.Told {
		return ""
	}
	text := fmt.Sprintf("%s stand in up to %s: ", Length(p.Length), Celsius(p.Air))
	if p.Softens() {
		when := "at once"
		if p.Seconds > 1 {
			when = "within " + Duration(p.Seconds)
		}
		return text + fmt.Sprintf("%s may soften %s (from %s)", m.Strand, when, Celsius(p.Bears))
	}
	return text + fmt.Sprintf("%s holds to %s; for how long is not known", m.Strand, Celsius(p.Bears))
}

// money prints an amount in the user's currency.
func (m *Machine) money(x float64) string {
	text := Significant(x, 3)
	if m.Stated.Currency != "" {
		text += " " + m.Stated.Currency
	}
	return text
}

func (m *Machine) cost() string {
	c := &m.Answer.Cost
	if !c.Told {
		return ""
	}
	var words []string
	if len(c.Parts) > 0 {
		words = append(words, m.money(c.Total)+" of parts, at your prices")
	}
	if m.Stated.Energy > 0 {
		words = append(words, fmt.Sprintf("energy %s an hour, %s for each kg", m.money(c.PerHour), m.money(c.PerKilo)))
	}
	return strings.Join(words, "; ")
}
