package table

import (
	"fmt"
	"io"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/levers"
	"strandry/materials/quantity"
	"strandry/scenarios/size"
)

// Size is the answer to a search for the value that just meets the limit.
type Size struct {
	Title   string
	File    string
	Version string
	Answer  *size.Answer
	Assumed []string // what the scenario left open and how it was taken
}

// WriteText sets the answer for a terminal. It writes nothing and returns an error if any
// figure is not finite.
func (s *Size) WriteText(out io.Writer) error {
	if err := finite("the size", s.Answer); err != nil {
		return err
	}
	a := s.Answer
	var b strings.Builder
	paragraph(&b, "", s.Title)
	paragraph(&b, "", fmt.Sprintf("%s, %s: which %s just meets the limit of %s?",
		a.Model.Material.Name, millimetres(2*a.Model.Radius), a.Key.Name, limit(a.Model.Limit)))
	b.WriteByte('\n')
	lines := s.Lines()
	for _, l := range lines {
		paragraph(&b, fmt.Sprintf("%-15s", l[0]), l[1])
	}
	b.WriteByte('\n')
	paragraph(&b, "", s.Conclusion())
	notes := s.notes()
	switch {
	case a.Usual:
		notes = append(notes, "--to looks beyond the usual highest drying temperature.")
	case a.Bears:
		notes = append(notes, "--to looks beyond the temperature up to which the strand holds.")
	}
	list(&b, "Notes", notes)
	b.WriteString("\nCautions\n")
	for _, c := range Cautions(a.Model) {
		paragraph(&b, "  - ", c)
	}
	b.WriteByte('\n')
	paragraph(&b, "", fmt.Sprintf("strandry %s, %s; %d marches, resolution %s, tolerance %s.", s.Version, s.File, a.Marches,
		given(a.Check.Settings.Resolution), given(a.Check.Settings.Tolerance)))
	_, err := io.WriteString(out, b.String())
	return err
}

// Lines are the figures, each with what it is.
func (s *Size) Lines() [][2]string {
	a := s.Answer
	check := fmt.Sprintf("%s at the nozzle; limit %s; by the scatter %s to %s %%", bounded(a.Check.Nozzle.Mean, a.Check.NumericalError),
		limit(a.Model.Limit), significant(100*a.Check.Low, 3), significant(100*a.Check.High, 3))
	value, off := s.written()
	var lines [][2]string
	switch a.Outcome {
	case size.Met:
		lines = append(lines, [2]string{"Value", fmt.Sprintf("%s ± %s (numerical error)", value, s.band(a.NumericalError+off))},
			[2]string{"Run at it", check},
			[2]string{"Limit met", fmt.Sprintf("from %s to %s", s.value(a.DryFrom), s.value(a.DryTo))})
	case size.Everywhere:
		lines = append(lines, [2]string{"Value", "every one that was looked at meets the limit"},
			[2]string{"Driest", value}, [2]string{"Run at it", check})
	default:
		lines = append(lines, [2]string{"Value", "none that was looked at meets the limit"},
			[2]string{"Driest", value}, [2]string{"Run at it", check})
	}
	lines = append(lines, [2]string{"Survives", Survives(a.Model.Material.Name, a.Check.Endurance)})
	if from, to, ok := a.Softening(); ok {
		lines = append(lines, [2]string{"Too hot", "of the values tried that meet the limit the strand softens at " + s.span(from, to)})
	}
	lines = append(lines, [2]string{"Doubt", fmt.Sprintf("least likely diffusivity: %s; greatest: %s (a factor of %s)",
		s.scattered(a.Slow), s.scattered(a.Fast), given(a.Model.Material.Diffusivity.Scatter.Value))})
	if a.Now.Ratio > 0 {
		lines = append(lines, [2]string{"In the file", fmt.Sprintf("%s: %s the limit", s.value(a.Now.X), times(a.Now.Ratio))})
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
		return significant(x, 2)
	}
	if k.Dimension.Name() == quantity.Temperature().Name() {
		return significant(x, 2) + " K"
	}
	_, unit, _ := strings.Cut(s.Answer.Setting.Value, " ")
	inUnit, ok := k.Dimension.In(x, unit)
	if !ok {
		return significant(x, 2)
	}
	return significant(inUnit, 2) + " " + unit
}

func (s *Size) scattered(o size.Scattered) string {
	switch o.Outcome {
	case size.Met:
		if o.Value == o.DryTo && o.DryFrom < o.DryTo {
			return "at most " + s.value(o.Value)
		}
		return s.value(o.Value)
	case size.Everywhere:
		return "any"
	}
	return "none"
}

func (s *Size) ends() string {
	a := s.Answer
	text := fmt.Sprintf("%s to %s", s.value(a.From), s.value(a.To))
	if a.Usual {
		text += ", the usual highest drying temperature of " + a.Model.Material.Name
	}
	if a.Bears {
		text += ", up to which a strand of " + a.Model.Material.Name + " holds"
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
		text += " It is no answer all the same: the strand softens, " + heat(a.Model.Material.Name, a.Check.Endurance) + "."
	} else {
		text += heats(a.Model.Material.Name, a.Check.Endurance)
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
		text := fmt.Sprintf("%s = %s just meets the limit.", a.Key.Name, value)
		return text + " At the least and the greatest likely diffusivity too: " + s.sure() + "."
	case size.Everywhere:
		return fmt.Sprintf("Every %s from %s to %s meets the limit.", a.Key.Name, s.value(a.From), s.value(a.To))
	}
	text := fmt.Sprintf("No %s from %s to %s meets the limit; the best is %s, which leaves %s, %s the limit.", a.Key.Name,
		s.value(a.From), s.value(a.To), s.value(a.Value), percent(a.Check.Nozzle.Mean), times(a.Check.Nozzle.Mean/a.Model.Limit))
	if a.Inside {
		text += " On both sides of it the strand is wetter."
	}
	return text + " " + s.obstacle()
}

// sure is the range that meets the limit at any likely diffusivity, in words.
func (s *Size) sure() string {
	a := s.Answer
	from, to, ok := a.Sure()
	switch {
	case !ok:
		return "none"
	case from <= a.From:
		return "at most " + s.value(to)
	case to >= a.To:
		return "at least " + s.value(from)
	}
	return "from " + s.value(from) + " to " + s.value(to)
}

// obstacle says what stands in the way at the best value.
func (s *Size) obstacle() string {
	a := s.Answer
	d, m := &a.Diagnosis, a.Model
	switch d.Cause {
	case levers.Air:
		return "The air stands in the way: " + hindrance(d, m) + " The question has no answer without drier air."
	case levers.Flow:
		return "The flow of air stands in the way: " + hindrance(d, m) + " The question has no answer without more air or less water."
	case levers.Rewetting:
		return "Rewetting stands in the way: " + hindrance(d, m)
	}
	text := fmt.Sprintf("Time stands in the way: the air would do, the strand leaves %s too early.", m.Path[d.Dryer].Name)
	if len(d.Levers) > 0 && d.Levers[0].Mean < a.Check.Nozzle.Mean {
		text += fmt.Sprintf(" From there, what would help most: %s, which would leave %s.", Describe(d.Levers[0]), percent(d.Levers[0].Mean))
	}
	return text
}

func (s *Size) notes() []string {
	a := s.Answer
	var notes []string
	for _, w := range a.Check.Warnings {
		if text := say(w, a.Model); !marginal(text) {
			notes = append(notes, text)
		}
	}
	if held := a.Model.Held(); len(held) > 0 {
		notes = append(notes, AirRule(held))
	}
	if len(s.Assumed) > 0 {
		notes = append(notes, notGiven(s.Assumed))
	}
	return notes
}

// marginal tells of the warning that the numerical error is larger than the distance to the
// limit, which at a value that just meets it says nothing.
func marginal(text string) bool { return strings.HasPrefix(text, "The numerical error (") }

// sizeDocument is the answer as JSON; values of the key in its SI unit (unit; 1 for a plain
// number or a fraction), contents in kg/kg dry.
type sizeDocument struct {
	Version        string  `json:"version"`
	Title          string  `json:"title"`
	File           string  `json:"file"`
	Material       string  `json:"material"`
	Origin         string  `json:"origin"` // of the material: library, or the file that its values come from
	Key            string  `json:"key"`
	Outcome        string  `json:"outcome"` // met, everywhere, nowhere
	Value          float64 `json:"value"`   // that meets the limit, else the driest
	Written        string  `json:"written"` // the value as a file states it
	NumericalError float64 `json:"numerical_error"`
	DryFrom        float64 `json:"limit_met_from"`
	DryTo          float64 `json:"limit_met_to"`
	From           float64 `json:"searched_from"`
	To             float64 `json:"searched_to"`
	Slow           sizeAt  `json:"at_least_diffusivity"`
	Fast           sizeAt  `json:"at_greatest_diffusivity"`
	Limit          float64 `json:"limit"`
	limitWords
	Check      moisture    `json:"check"` // the run at the value
	Verdict    string      `json:"verdict"`
	Survives   string      `json:"survives"` // at the value: holds, doubtful, softens
	Heat       endurance   `json:"heat"`
	Cause      string      `json:"cause"` // what stands in the way: nothing, air, flow, rewetting, time
	Floor      float64     `json:"air_floor"`
	Conclusion string      `json:"conclusion"`
	Marches    int         `json:"marches"`
	Points     []sizePoint `json:"points"` // that were tried, rising
	Notes      []string    `json:"notes"`
}

type sizeAt struct {
	Outcome string  `json:"outcome"`
	Value   float64 `json:"value"`
}

type sizePoint struct {
	Value    float64 `json:"value"`
	Ratio    float64 `json:"content_over_limit"`
	Survives string  `json:"survives"`
}

// WriteJSON writes the answer as indented JSON in SI units. It writes nothing and returns an
// error if any figure is not finite.
func (s *Size) WriteJSON(out io.Writer) error {
	if err := finite("the size", s.Answer); err != nil {
		return err
	}
	a, r := s.Answer, s.Answer.Check
	d := sizeDocument{
		Version: s.Version, Title: s.Title, File: s.File, Material: a.Model.Material.ID, Origin: a.Model.Material.Origin, Key: a.Key.Name,
		Outcome: a.Outcome.String(), Value: a.Value, Written: a.Setting.Value, NumericalError: a.NumericalError,
		DryFrom: a.DryFrom, DryTo: a.DryTo, From: a.From, To: a.To,
		Slow: sizeAt{a.Slow.Outcome.String(), a.Slow.Value}, Fast: sizeAt{a.Fast.Outcome.String(), a.Fast.Value},
		Limit: a.Model.Limit, limitWords: limitWordsOf(a.Model, r.Nozzle.Mean), Verdict: r.Verdict.String(), Survives: r.Endurance.Survival.String(), Heat: enduranceOf(r.Endurance), Cause: a.Diagnosis.Cause.String(), Floor: a.Diagnosis.Floor,
		Check: moisture{
			Start: r.Start.Mean, Mean: r.Nozzle.Mean, Low: r.Low, High: r.High, Centre: r.Nozzle.Centre, Skin: r.Nozzle.Skin,
			limits: limitsOf(a.Model), Removed: r.Removed, NumericalError: r.NumericalError,
		},
		Conclusion: s.Conclusion(), Marches: a.Marches, Notes: notNil(s.notes()),
	}
	for _, p := range a.Points {
		d.Points = append(d.Points, sizePoint{p.X, p.Ratio, p.Survives.String()})
	}
	return encode(out, d)
}
