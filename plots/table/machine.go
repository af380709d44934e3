package table

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"strandry/diffusion/machine"
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
	for _, one := range m.matters() {
		if len(one.parts) > 0 {
			out = append(out, joined(fmt.Sprintf("%-15s", one.head), one.parts))
		}
	}
	if len(m.Warnings) > 0 {
		out = append(out, m.warned(machineLines-len(out))...)
	}
	return out
}

// matter is one thing that is told of a machine; of its parts those go first that matter most.
type matter struct {
	head  string
	parts []string
}

// matters are all that is told, in the order of the screen.
func (m *Machine) matters() []matter {
	return []matter{
		{"Fits", m.fits()}, {"Heat", m.heat()}, {"Outside", m.outside()}, {"Air", m.air()}, {"Desiccant", m.bed()}, {"Pull", m.pull()}, {"Pause", m.pause()}, {"Cost", m.cost()},
	}
}

// joined puts together a head and as many parts as there is room for on a line; the first one is cut if it alone is too long.
func joined(head string, parts []string) string {
	line := head + parts[0]
	for _, part := range parts[1:] {
		if longer := line + "; " + part; utf8.RuneCountInString(longer) <= width {
			line = longer
		}
	}
	return shorten(line, width)
}

// warned is the gravest warning in so many lines at most.
func (m *Machine) warned(most int) []string {
	text, more := m.brief(m.Warnings[m.gravest()]), ""
	if n := len(m.Warnings); n > 1 {
		more = fmt.Sprintf(" (%d more: --full)", n-1)
	}
	var b strings.Builder
	paragraph(&b, "  ! ", text+more)
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if len(lines) <= most {
		return lines
	}
	const mark = "  ! "
	room := width - len(mark) - len(more)
	if at := strings.LastIndex(text, ": "); utf8.RuneCountInString(text) > room && at > 0 && utf8.RuneCountInString(text[:at]) <= room && strings.Contains(text[:at], ": ") {
		text = text[:at] // what to do about it stands with --full
	}
	return []string{mark + shorten(text, room) + more}
}

// gravest is the index of the warning that is shown where there is room for one: what cannot be built or burns goes first.
func (m *Machine) gravest() int {
	order := []machine.Concern{
		machine.SoftensAtRest, machine.DoesNotFit, machine.HeaterTooWeak, machine.NeverWarm, machine.PullBeyond, machine.PullsTooHard, machine.BedHoldsLess, machine.BedTurnsLiquid,
		machine.BendsTooTight, machine.BurnsHands, machine.AirTooLittle, machine.StretchesHot, machine.LeakBringsWater, machine.BedIsShort, machine.NoDesiccant,
		machine.HeaterIsSmall, machine.SlowToWarm, machine.AirBringsWater, machine.AirIdle, machine.BedIsHot, machine.NoFlow, machine.NoHousing, machine.StretchUnknown,
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
	return fmt.Sprintf("%.0f × %.0f × %.0f mm", 1000*s[0], 1000*s[1], 1000*s[2])
}

func (m *Machine) fits() []string {
	var no, yes []string
	for _, h := range m.led() {
		text := h.Name + " " + sizes(h.Outer)
		switch {
		case h.Boxed && !h.Fits && h.Most > 0:
			no = append(no, fmt.Sprintf("NO: %s for %s; the box holds %s", text, Length(h.Length), Length(h.Most)))
		case h.Boxed && !h.Fits:
			no = append(no, "NO: "+text+"; no path of this kind fits the box")
		case h.Boxed:
			yes = append(yes, text+" fits the box")
		default:
			yes = append(yes, text)
		}
	}
	return append(no, yes...)
}

// watts prints a power.
func watts(p float64) string { return figure(p) + " W" }

// figure prints a number with two digits and no zeros that say nothing.
func figure(x float64) string { return untailed(Significant(x, 2)) }

// heat tells the power of each heated chamber.
func (m *Machine) heat() []string {
	var words []string
	for i := range m.Chambers {
		if h := &m.Chambers[i]; h.Heated {
			words = append(words, heated(h))
		}
	}
	if len(words) > 0 && m.PerKilo > 0 {
		words = append(words, figure(m.PerKilo/3.6e6)+" kWh/kg")
	}
	return words
}

// heated is the power of one chamber.
func heated(h *machine.Housed) string {
	text := fmt.Sprintf("%s %s", h.Name, watts(math.Max(0, h.Steady.Heater)))
	if low, high := ends(h); h.Walled && low < high {
		text += fmt.Sprintf(" (%s to %s)", figure(low), figure(high))
	}
	switch {
	case h.Heater > 0:
		text += ", has " + figure(h.Heater)
	default:
		text += ", take " + figure(h.Size)
	}
	switch {
	case !h.Walled:
		text += ", its wall not counted"
	case h.Warms && h.WarmUp.Reached:
		text += ", warm in " + Duration(h.WarmUp.Seconds)
	case h.Warms:
		text += ", never warm"
	}
	return text
}

// ends are the power of a chamber at the ends of what its wall may lose [W].
func ends(h *machine.Housed) (low, high float64) {
	rest := h.Steady.Heater - h.Loss.Power
	return math.Max(0, rest+h.Loss.PowerLow), math.Max(0, rest+h.Loss.PowerHigh)
}

// outside tells what a hand meets, of the hottest chamber.
func (m *Machine) outside() []string {
	var hottest *machine.Housed
	for i := range m.Chambers {
		if h := &m.Chambers[i]; h.Walled && (hottest == nil || h.Loss.SurfaceHigh > hottest.Loss.SurfaceHigh) {
			hottest = h
		}
	}
	if hottest == nil {
		return nil
	}
	text := fmt.Sprintf("%.0f °C, at most %.0f °C", hottest.Loss.Surface-zeroCelsius, hottest.Loss.SurfaceHigh-zeroCelsius)
	for _, t := range hottest.Touch {
		if t.Passed {
			return []string{text + ": may burn a hand that stays for " + Duration(t.Seconds)}
		}
	}
	return []string{text + ": no burn by touch is known from there"}
}

// perHour prints a flow of water.
func perHour(kg float64) string { return figure(3.6e6*kg) + " g/h" }

// litres prints a flow of air.
func litres(flow float64) string { return figure(6e4*flow) + " L/min" }

// air tells of the chamber whose strand gives most water.
func (m *Machine) air() []string {
	var most *machine.Housed
	for i := range m.Chambers {
		if h := &m.Chambers[i]; h.Water.Limited && h.Heated && (most == nil || h.Water.Given > most.Water.Given) {
			most = h
		}
	}
	if most == nil {
		return nil
	}
	w := &most.Water
	words := []string{fmt.Sprintf("%s: air brings %s of water, the strand %s", most.Name, perHour(w.Brought()), figure(3.6e6*w.Given))}
	if w.Searched {
		words = append(words, useful(w))
	}
	return words
}

// useful tells which flows are of use.
func useful(w *machine.Water) string {
	switch {
	case w.Least > 0 && w.Enough > 0:
		return fmt.Sprintf("useful %s to %s", figure(6e4*w.Least), litres(w.Enough))
	case w.Enough > 0:
		return "useful up to " + litres(w.Enough)
	case w.Least > 0:
		return "useful from " + litres(w.Least)
	}
	return "a trickle would do"
}

func (m *Machine) bed() []string {
	b := &m.Bed
	if !b.Used {
		return nil
	}
	head := fmt.Sprintf("%s of %s", mass(b.Bed.DryMass), b.Bed.Isotherm.Kind)
	switch {
	case b.Life.Never:
		return []string{head + ": no more water reaches it than it holds for good"}
	case b.Life.Seconds == 0:
		return []string{head + ": " + frost(b.Fresh) + " at best, not " + frost(b.Target)}
	}
	words := []string{fmt.Sprintf("%s: %s for %s (%s to %s)", head, frost(b.Target), Duration(b.Life.Seconds), Duration(b.Low), Duration(b.High))}
	if b.Regenerate.Total > 0 {
		words = append(words, fmt.Sprintf("then %s kWh", figure(b.Regenerate.Total/3.6e6)))
	}
	return words
}

// frost prints the dew or frost point of a vapour pressure [Pa].
func frost(pressure float64) string {
	return fmt.Sprintf("%.0f °C", humidair.DewPoint(pressure)-zeroCelsius)
}

// mass prints one.
func mass(kg float64) string {
	if kg < 1 {
		return untailed(Significant(1000*kg, 3)) + " g"
	}
	return untailed(Significant(kg, 3)) + " kg"
}

func (m *Machine) pull() []string {
	p := &m.Pull
	bent := ""
	if p.Radius > 0 {
		bent = fmt.Sprintf("bent by %s %%", figure(100*p.Bend))
	}
	if !p.Told {
		if bent == "" {
			return nil
		}
		return []string{bent}
	}
	pulled := p.Result.Pull
	words := []string{fmt.Sprintf("%s N (%s to %s)", figure(pulled.Value), figure(pulled.Low), figure(pulled.High))}
	if p.Given > 0 {
		words[0] += " of the feeder's " + Given(p.Given)
	}
	stretch := "stretch not known"
	if i, hot := p.Result.Longest, p.Result.Hottest; i >= 0 && hot >= 0 && p.Result.Points[hot].Stretch.Known { // what is known of the cold strand alone says nothing
		stretch = fmt.Sprintf("stretch %s %% at most", figure(100*p.Result.Points[i].Stretch.Strain.High))
	}
	words = append(words, stretch)
	if bent != "" {
		words = append(words, bent)
	}
	return words
}

func (m *Machine) pause() []string {
	p := &m.Answer.Pause
	if !p.Told {
		return nil
	}
	stands := fmt.Sprintf("%s stand at up to %s", Length(p.Length), Celsius(p.Air))
	if p.Softens() {
		when := "at once"
		if p.Seconds > 1 {
			when = "within " + Duration(p.Seconds)
		}
		return []string{stands + fmt.Sprintf("; %s may soften %s, from %s", m.Strand, when, Celsius(p.Bears))}
	}
	return []string{stands + fmt.Sprintf("; %s holds to %s", m.Strand, Celsius(p.Bears)), "how long: not known"}
}

// money prints an amount in the user's currency.
func (m *Machine) money(x float64) string {
	text := untailed(Significant(x, 3))
	if x < 1 {
		text = figure(x)
	}
	if m.Stated.Currency != "" {
		text += " " + m.Stated.Currency
	}
	return text
}

func (m *Machine) cost() []string {
	c := &m.Answer.Cost
	if !c.Told {
		return nil
	}
	var words []string
	if len(c.Parts) > 0 {
		words = append(words, m.money(c.Total)+" for parts")
	}
	if m.Stated.Energy > 0 {
		words = append(words, fmt.Sprintf("energy %s an hour, %s a kilogram", m.money(c.PerHour), untailed(Significant(c.PerKilo, 2))))
	}
	return words
}
