package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/text/quantity"
	"strandry/scenarios/studies/size"
)

// Size is the answer to a search for the value that just meets the limit.
type Size struct {
	Title   string
	File    string
	Version string
	Answer  *size.Answer
	Assumed []string // what the scenario left open and how it was taken
}

// Check refuses figures that are not finite.
func (s *Size) Check() error { return Finite("the size", s.Answer) }

func (s *Size) text(b *strings.Builder) {
	a := s.Answer
	paragraph(b, "", s.Title)
	paragraph(b, "", fmt.Sprintf("%s, %s: which %s just meets the limit of %s?",
		a.Design.Material.Name, Millimetres(2*a.Design.Radius), a.Key.Name, Limit(a.Design.Limit)))
	b.WriteByte('\n')
	facts(b, s.Lines())
	apart(b, s.Conclusion())
	notes := s.notes()
	switch {
	case a.Usual:
		notes = append(notes, "--to looks beyond the usual highest drying temperature.")
	case a.Bears:
		notes = append(notes, "--to looks beyond the temperature up to which the strand holds.")
	}
	list(b, "Notes", notes)
	cautions(b, a.Design)
	apart(b, fmt.Sprintf("strandry %s, %s; %d marches, and the odds at %d values; resolution %s, tolerance %s.", s.Version, s.File, a.Marches, a.Reliable.Asked,
		Given(a.Check.Settings.Resolution), Given(a.Check.Settings.Tolerance)))
}

// Lines are the figures, each with what it is.
func (s *Size) Lines() [][2]string {
	a := s.Answer
	check := fmt.Sprintf("%s at the nozzle; limit %s; %s; within it %s", Bounded(a.Check.Nozzle.Mean, a.Check.NumericalError),
		Limit(a.Design.Limit), EightInTen(&a.Check.Odds), Chance(a.Check.Probability))
	value, off := s.written()
	lines := [][2]string{{"Nine in ten", s.nineInTen()}}
	switch a.Outcome {
	case size.Met:
		lines = append(lines, [2]string{"Value", fmt.Sprintf("%s ± %s (numerical error), at the medians of what is in doubt", value, s.band(a.NumericalError+off))},
			[2]string{"Run at it", check},
			[2]string{"Limit met", fmt.Sprintf("from %s to %s, at the medians", s.value(a.DryFrom), s.value(a.DryTo))})
	case size.Everywhere:
		lines = append(lines, [2]string{"Value", "every one that was looked at meets the limit, at the medians of what is in doubt"},
			[2]string{"Driest", value}, [2]string{"Run at it", check})
	default:
		lines = append(lines, [2]string{"Value", "none that was looked at meets the limit, at the medians of what is in doubt"},
			[2]string{"Driest", value}, [2]string{"Run at it", check})
	}
	lines = append(lines, [2]string{"Survives", Survives(a.Design.Material.Name, a.Check.Endurance)})
	if from, to, ok := a.Softening(); ok {
		lines = append(lines, [2]string{"Too hot", "of the values tried that meet the limit the strand softens at " + s.span(from, to)})
	}
	if a.Now.Ratio > 0 {
		lines = append(lines, [2]string{"In the file", fmt.Sprintf("%s: %s the limit", s.value(a.Now.X), Times(a.Now.Ratio))})
	}
	return append(lines, [2]string{"Looked at", s.ends()})
}

// span names the values between two, or the one.
func (s *Size) span(from, to float64) string {
	if from == to {
		return s.value(from)
	}
	return s.value(from) + " to " + s.value(to)
}

func (s *Size) value(x float64) string { return s.Answer.Key.Setting(x, 4).Value }

// written is the value that was found, with no more digits than its error leaves it, and how far
// that is off. The driest of values that do not meet the limit lies flat, and has four.
func (s *Size) written() (value string, off float64) {
	a := s.Answer
	if a.Outcome != size.Met {
		return s.value(a.Value), 0
	}
	const fewest, most = 3, 7
	for digits := fewest; digits < most; digits++ {
		value = a.Key.Setting(a.Value, digits).Value
		x, err := a.Key.Parse(value)
		if off = math.Abs(x - a.Value); err == nil && off <= a.NumericalError/2 {
			return value, off
		}
	}
	return a.Setting.Value, 0
}

// band is a difference of the value, in the value's unit.
func (s *Size) band(x float64) string {
	k := s.Answer.Key
	if k.Plain() {
		return Significant(x, 2)
	}
	if k.Dimension.Name() == quantity.Temperature().Name() {
		return Significant(x, 2) + " K"
	}
	_, unit, _ := strings.Cut(s.Answer.Setting.Value, " ")
	inUnit, ok := k.Dimension.In(x, unit)
	if !ok {
		return Significant(x, 2)
	}
	return Significant(inUnit, 2) + " " + unit
}

// nineInTen are the values that meet the limit nine times in ten, in words.
func (s *Size) nineInTen() string {
	a, l := s.Answer, &s.Answer.Reliable
	text := ""
	switch {
	case l.Outcome == size.Nowhere:
		return fmt.Sprintf("no value that was looked at meets the limit nine times in ten; %s meets it %s", s.value(l.Value), Chance(l.Probability))
	case l.Outcome == size.Everywhere:
		text = "every value that was looked at meets the limit nine times in ten"
	case l.From <= a.From:
		text = "at most " + s.outward(l.To, false)
	case l.To >= a.To:
		text = "at least " + s.outward(l.From, true)
	default:
		text = "from " + s.outward(l.From, true) + " to " + s.outward(l.To, false)
	}
	if l.Survives == diffusion.Softens {
		text += ", but the strand softens there"
	}
	return text
}

// outward is a value in three digits, on its safe side.
func (s *Size) outward(x float64, up bool) string {
	const digits = 3
	k := s.Answer.Key
	text := k.Setting(x, digits).Value
	if written, err := k.Parse(text); err == nil && (up && written < x || !up && written > x) {
		return k.Setting(x+2*(x-written), digits).Value
	}
	return text
}

func (s *Size) ends() string {
	a := s.Answer
	text := fmt.Sprintf("%s to %s", s.value(a.From), s.value(a.To))
	if a.Usual {
		text += ", the usual highest drying temperature of " + a.Design.Material.Name
	}
	if a.Bears {
		text += ", up to which a strand of " + a.Design.Material.Name + " holds"
	}
	if a.Narrowed {
		text += "; beyond, the scenario or its air does not allow it"
	}
	return text
}

// Conclusion says in a few sentences what was found and, where nothing was, what stands in
// the way.
func (s *Size) Conclusion() string {
	a := s.Answer
	text := s.outcome()
	if a.Check.Endurance.Survival == diffusion.Softens && a.Outcome != size.Nowhere {
		text += " It is no answer all the same: the strand softens, " + heat(a.Design.Material.Name, a.Check.Endurance) + "."
	} else {
		text += heats(a.Design.Material.Name, a.Check.Endurance)
	}
	if from, to, ok := a.Softening(); ok && a.Check.Endurance.Survival != diffusion.Softens {
		text += " Not every value that meets the limit will do: the strand softens at " + s.span(from, to) + "."
	}
	return text
}

// outcome says what was found of the moisture.
func (s *Size) outcome() string {
	a := s.Answer
	switch a.Outcome {
	case size.Met:
		value, _ := s.written()
		return fmt.Sprintf("%s = %s just meets the limit at the medians: within it %s. To be dry nine times in ten: %s.", a.Key.Name, value, Chance(a.Check.Probability), s.nineInTen())
	case size.Everywhere:
		return fmt.Sprintf("Every %s from %s to %s meets the limit at the medians. To be dry nine times in ten: %s.", a.Key.Name, s.value(a.From), s.value(a.To), s.nineInTen())
	}
	text := fmt.Sprintf("No %s from %s to %s meets the limit at the medians; the best is %s, which leaves %s, %s the limit.", a.Key.Name,
		s.value(a.From), s.value(a.To), s.value(a.Value), Percent(a.Check.Nozzle.Mean), Times(a.Check.Nozzle.Mean/a.Design.Limit))
	if a.Inside {
		text += " On both sides of it the strand is wetter."
	}
	return text + " " + s.obstacle()
}

// obstacle says what stands in the way at the best value.
func (s *Size) obstacle() string {
	a := s.Answer
	d, m := &a.Diagnosis, a.Design
	switch d.Cause {
	case advice.Air:
		return "The air stands in the way: " + hindrance(d, m) + " The question has no answer without drier air."
	case advice.Flow:
		return "The flow of air stands in the way: " + hindrance(d, m) + " The question has no answer without more air or less water."
	case advice.Rewetting:
		return "Rewetting stands in the way: " + hindrance(d, m)
	}
	return fmt.Sprintf("Time stands in the way: the air would do, the strand leaves %s too early.", m.Path[d.Dryer].Name)
}

func (s *Size) notes() []string {
	a := s.Answer
	var notes []string
	for _, w := range a.Check.Warnings {
		if w.Concern != diffusion.NumericalDoubt { // at a value that just meets the limit it says nothing
			notes = append(notes, say(w, a.Design))
		}
	}
	return append(notes, taken(a.Design, s.Assumed)...)
}
