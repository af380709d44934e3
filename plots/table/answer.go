package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
	"strandry/scenarios/studies/checked"
	"strandry/scenarios/validation/measured"
)

// Answer is all that the answer to one scenario shows.
type Answer struct {
	Title      string
	File       string
	Version    string
	Design     *diffusion.Design
	Assessment *diffusion.Assessment
	Diagnosis  advice.Diagnosis
	Advice     advice.Advice
	Assumed    []string // what the scenario left open and how it was taken
	Unused     []string // keys that were read and checked and have no effect yet

	Machine       *Machine              // what the dryer takes; nil where nothing is stated of it
	Untold        string                // why it cannot be told what the dryer takes, where that is so
	Checks        []checked.Check       // what was weighed at the machine
	Contradicting []measured.Comparison // figures of the material that lie outside what the library predicts
}

// Full is an answer with all its notes, sources and cautions.
type Full struct{ *Answer }

func (a Full) text(b *strings.Builder) {
	a.head(b)
	a.path(b)
	a.nozzle(b)
	apart(b, a.Conclusion())
	a.checks(b)
	a.machine(b)
	a.notes(b)
	a.sources(b)
	cautions(b, a.Design)
	a.foot(b)
}

// Check refuses what is not finite of the model, the result, the diagnosis, the advice and the checks.
func (a *Answer) Check() error {
	for _, part := range []struct {
		name  string
		value any
	}{{"the model", a.Design}, {"the result", a.Assessment}, {"the diagnosis", &a.Diagnosis}, {"the advice", &a.Advice}, {"the checks", a.Checks}, {"the machine", a.Machine}} {
		if err := Finite(part.name, part.value); err != nil {
			return err
		}
	}
	return nil
}

func (a *Answer) head(b *strings.Builder) {
	m := a.Design
	paragraph(b, "", a.Title)
	paragraph(b, "", fmt.Sprintf("%s, %s, fed at %s. Moisture is %% of dry weight.",
		m.Material.Name, Millimetres(2*m.Radius), Speed(m.Speed)))
	b.WriteByte('\n')
}

// path prints a row for the start and one for each zone.
func (a *Answer) path(b *strings.Builder) {
	columns := []column{
		{"at the end of", "", -13},
		{"length", "", 8}, {"time", "", 7}, {"air", "°C", 5}, {"strand", "°C", 6},
		{"mean", "%", 6}, {"centre", "%", 6}, {"skin", "%", 6}, {"equil.", "%", 6}, {"Fourier", "number", 7},
	}
	heads(b, columns)
	all := make([]int, len(a.Assessment.Zones))
	for i := range all {
		all[i] = i
	}
	for k, cells := range a.places(all, 13) {
		if k == 0 {
			row(b, columns, append(cells, "", ""))
			continue
		}
		z := &a.Assessment.Zones[k-1]
		row(b, columns, append(cells, Cell(z.Equilibrium), short(z.Fourier, 2)))
	}
	paragraph(b, "equil.: ", "what the strand would hold if left for ever in the air at its exit.")
}

// places are the cells of the start and of the ends of some zones, whose names are cut to so many letters.
func (a *Answer) places(zones []int, most int) [][]string {
	cells := func(name, length, time, air string, s diffusion.State) []string {
		return []string{name, length, time, air, trim(s.Temperature-zeroCelsius, 1), Cell(s.Mean), Cell(s.Centre), Cell(s.Skin)}
	}
	var names []string
	for _, i := range zones {
		names = append(names, a.Assessment.Zones[i].Name)
	}
	names = shortened(names, most)
	rows := [][]string{cells("(start)", "", "", "", a.Assessment.Start)}
	for k, i := range zones {
		z := &a.Assessment.Zones[i]
		rows = append(rows, cells(names[k], Length(z.Length), Duration(z.Residence), trim(z.AirTemperature-zeroCelsius, 1), z.Exit))
	}
	return rows
}

func (a *Answer) nozzle(b *strings.Builder) {
	m, r := a.Design, a.Assessment
	fmt.Fprintf(b, "\nAt the nozzle  %s (numerical error)%s\n", Bounded(r.Nozzle.Mean, r.NumericalError), shut(r))
	fmt.Fprintf(b, "               centre %s, skin %s\n", Bounded(r.Nozzle.Centre, r.Errors.Centre), Bounded(r.Nozzle.Skin, r.Errors.Skin))
	paragraph(b, "               ", EightInTen(&r.Odds))
	paragraph(b, "Limit          ", Limits(m))
	paragraph(b, "Verdict        ", Meaning(a.Design, r))
	paragraph(b, "Means          ", BothLimits(&m.Material, &r.Odds))
	paragraph(b, "Survives       ", Survives(m.Material.Name, r.Endurance))
	fmt.Fprintf(b, "Removed        %s\n", Removed(r))
	paragraph(b, "Steam          ", steam(m, r))
}

// shut tells that nothing comes in at the mouths of a bore, where there is one.
func shut(r *diffusion.Assessment) string {
	if r.Mouths > 0 {
		return ", the bore's mouths shut"
	}
	return ""
}

// Removed tells what became of the water at the start.
func Removed(r *diffusion.Assessment) string {
	switch {
	case r.Start.Mean <= 0:
		return "nothing: it set off dry"
	case r.Removed < 0:
		return fmt.Sprintf("nothing: it gained %s %% on its start", Significant(-100*r.Removed, 3))
	}
	return fmt.Sprintf("%s %% of the water at the start", trim(100*r.Removed, 1))
}

func (a *Answer) notes(b *strings.Builder) {
	notes := Covers(&a.Assessment.Result)
	for _, w := range a.Assessment.Warnings {
		if w.Concern == diffusion.AirSetsFloor && (a.Diagnosis.Cause == advice.Air || a.Diagnosis.Cause == advice.Flow) {
			continue // the conclusion has said it
		}
		notes = append(notes, say(w, a.Design))
	}
	if doubts := a.Design.Material.Doubts; len(doubts) > 0 {
		notes = append(notes, a.doubts(doubts))
	}
	notes = append(notes, Contradictions(a.Contradicting)...)
	for _, key := range hot(a.Design) {
		notes = append(notes, fmt.Sprintf("Survives takes %s as given: that it is uncertain is not in it. Leave that much below what the strand bears.", key))
	}
	notes = append(notes, taken(a.Design, a.Assumed)...)
	if len(a.Unused) > 0 {
		notes = append(notes, "Read and checked, without effect here: "+strings.Join(a.Unused, ", ")+".")
	}
	list(b, "Notes", notes)
}

// taken are the notes on what was taken as it stands: humidities that are held, and what the file left open.
func taken(m *diffusion.Design, assumed []string) (notes []string) {
	if held := m.Held(); len(held) > 0 {
		notes = append(notes, AirRule(held))
	}
	if len(assumed) > 0 {
		notes = append(notes, notGiven(assumed))
	}
	return notes
}

// doubts gives the first doubt about the data and where the others are.
func (a *Answer) doubts(doubts []materials.Note) string {
	text := fmt.Sprintf("Doubtful in the data of %s: %s", a.Design.Material.Name, doubts[0].Text)
	if len(doubts) == 1 {
		return text
	}
	where := ""
	if p := &a.Design.Material; p.Origin == materials.FromLibrary {
		where = ": strandry materials " + p.ID
	}
	return fmt.Sprintf("%s (And %d more%s.)", text, len(doubts)-1, where)
}

// list prints numbered paragraphs under a heading, and nothing for none.
func list(b *strings.Builder, heading string, texts []string) {
	if len(texts) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", heading)
	for i, text := range texts {
		paragraph(b, fmt.Sprintf("%2d. ", i+1), text)
	}
}

func cautions(b *strings.Builder, m *diffusion.Design) {
	b.WriteString("\nCautions\n")
	for _, c := range Cautions(m) {
		paragraph(b, "  - ", c)
	}
}

func (a *Answer) foot(b *strings.Builder) {
	r := a.Assessment
	var heating []string
	for _, z := range r.Zones {
		how := "even"
		if z.Resolved {
			how = "resolved"
		}
		heating = append(heating, fmt.Sprintf("%s %s, %s", z.Name, Significant(z.Biot, 2), how))
	}
	apart(b, fmt.Sprintf("strandry %s, %s; %d nodes along the radius, %d steps, resolution %s, tolerance %s; "+
		"water balance closes to %s. Biot number of heating, and temperature along the radius: %s.",
		a.Version, a.File, r.Nodes, r.Steps, Given(r.Settings.Resolution), Given(r.Settings.Tolerance),
		Significant(math.Abs(r.Balance), 1), strings.Join(heating, "; ")))
}
