package table

import (
	"fmt"
	"io"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/levers"
	"strandry/materials"
)

// Answer is all that the answer to one scenario shows.
type Answer struct {
	Title      string
	File       string
	Version    string
	Model      *diffusion.Model
	Assessment *diffusion.Assessment
	Diagnosis  levers.Diagnosis
	Assumed    []string // what the scenario left open and how it was taken
	Unused     []string // keys that were read and checked and have no effect yet
}

const width = 79

// WriteText sets the answer as a table with its notes.
func (a *Answer) WriteText(out io.Writer) error {
	var b strings.Builder
	a.head(&b)
	a.path(&b)
	a.nozzle(&b)
	b.WriteString("\n" + wrap(a.conclusion(), width, "") + "\n")
	a.notes(&b)
	a.sources(&b)
	a.cautions(&b)
	a.foot(&b)
	_, err := io.WriteString(out, b.String())
	return err
}

func (a *Answer) head(b *strings.Builder) {
	m := a.Model
	fmt.Fprintf(b, "%s\n", a.Title)
	fmt.Fprintf(b, "%s, %s, fed at %s. Moisture is %% of dry weight.\n\n",
		m.Material.Name, millimetres(2*m.Radius), speed(m.Speed))
}

// path prints a row for the start and one for each zone.
func (a *Answer) path(b *strings.Builder) {
	const row = "%-16s %8s %9s %8s %7s %7s %7s %8s %7s\n"
	fmt.Fprintf(b, row, "", "length", "time", "strand", "mean", "centre", "skin", "air's", "Fourier")
	fmt.Fprintf(b, row, "", "", "", "°C", "%", "%", "%", "floor %", "number")
	b.WriteString(strings.Repeat("─", 85) + "\n")
	state := func(s diffusion.State) [4]string {
		return [4]string{trim(s.Temperature-zeroCelsius, 1), cell(s.Mean), cell(s.Centre), cell(s.Skin)}
	}
	s := state(a.Assessment.Start)
	fmt.Fprintf(b, row, "start", "", "", s[0], s[1], s[2], s[3], "", "")
	for _, z := range a.Assessment.Zones {
		s := state(z.Exit)
		fmt.Fprintf(b, row, shorten(z.Name, 16), length(z.Length), duration(z.Residence), s[0], s[1], s[2], s[3],
			significant(100*z.Equilibrium, 2), significant(z.Fourier, 2))
	}
}

func shorten(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return string(r[:n-1]) + "…"
}

func (a *Answer) nozzle(b *strings.Builder) {
	m, r := a.Model, a.Assessment
	fmt.Fprintf(b, "\nAt the nozzle  %s ± %s %% numerical error\n",
		significant(100*r.Nozzle.Mean, 4), significant(100*r.NumericalError, 1))
	fmt.Fprintf(b, "               %s to %s %% as the diffusivity is known within a factor of %s\n",
		significant(100*r.Low, 3), significant(100*r.High, 3), trim(m.Material.Diffusivity.Scatter.Value, 1))
	fmt.Fprintf(b, "Limit          %s   verdict: %s\n", percent(m.Limit), strings.ToUpper(r.Verdict.String()))
	change := fmt.Sprintf("%s %% of the water it started with", trim(100*r.Removed, 1))
	if r.Removed < 0 {
		change = fmt.Sprintf("none: it gained %s %% on its start", trim(-100*r.Removed, 1))
	}
	fmt.Fprintf(b, "Removed        %s\n", change)
	fmt.Fprintf(b, "Steam          %s volumes for each volume of melt at %s\n",
		significant(r.Steam, 2), celsius(m.NozzleTemperature))
}

func (a *Answer) notes(b *strings.Builder) {
	var notes []string
	for _, w := range a.Assessment.Warnings {
		notes = append(notes, say(w, a.Model))
	}
	notes = append(notes, a.heating())
	if n := len(a.Model.Material.Doubts); n > 0 {
		name := a.Model.Material.ID
		notes = append(notes, fmt.Sprintf("%d doubts about the data of %s (strandry materials %s lists them); the first: %s",
			n, a.Model.Material.Name, name, a.Model.Material.Doubts[0].Text))
	}
	if len(a.Assumed) > 0 {
		notes = append(notes, "Not given and assumed: "+strings.Join(a.Assumed, "; ")+".")
	}
	if len(a.Unused) > 0 {
		notes = append(notes, "Read and checked, without effect here: "+strings.Join(a.Unused, ", ")+".")
	}
	list(b, "Notes", notes)
}

// heating tells how the temperature of the strand was modelled.
func (a *Answer) heating() string {
	var parts []string
	for _, z := range a.Assessment.Zones {
		model := "lumped"
		if z.Resolved {
			model = "resolved along the radius"
		}
		parts = append(parts, fmt.Sprintf("%s %s, %s", z.Name, significant(z.Biot, 2), model))
	}
	return "Biot number of heating, and the strand's temperature: " + strings.Join(parts, "; ") + "."
}

// list prints numbered lines under a heading, and nothing for none.
func list(b *strings.Builder, heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", heading)
	for i, line := range lines {
		fmt.Fprintf(b, "%2d. %s\n", i+1, wrap(line, width-4, "    "))
	}
}

func (a *Answer) sources(b *strings.Builder) {
	b.WriteString("\nSources of the values used\n")
	for _, s := range Sources(&a.Model.Material) {
		fmt.Fprintf(b, "    %s\n", wrap(s, width-4, "      "))
	}
	seen := map[string]bool{}
	for _, z := range a.Assessment.Zones {
		c := z.Film
		if c.Source == "" || seen[c.Correlation] {
			continue
		}
		seen[c.Correlation] = true
		fmt.Fprintf(b, "    %s\n", wrap(fmt.Sprintf("film: %s; %s", c.Correlation, c.Source), width-4, "      "))
	}
}

func (a *Answer) cautions(b *strings.Builder) {
	b.WriteString("\nCautions\n")
	for _, c := range Cautions(a.Model) {
		fmt.Fprintf(b, "  - %s\n", wrap(c, width-4, "    "))
	}
}

func (a *Answer) foot(b *strings.Builder) {
	s := a.Assessment.Settings
	fmt.Fprintf(b, "\n%s\n", wrap(fmt.Sprintf("strandry %s, %s; %d nodes along the radius, %d steps, resolution %s, tolerance %s; water balance closes to %.0e.",
		a.Version, a.File, a.Assessment.Nodes, a.Assessment.Steps, trim(s.Resolution, 2), significant(s.Tolerance, 1), abs(a.Assessment.Balance)), width, ""))
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// Sources lists where the values of a polymer that a run uses come from: one line
// for each source, "source (kind): properties".
func Sources(p *materials.Polymer) []string {
	var order []string
	grouped := map[string][]string{}
	for _, l := range lines(p) {
		if !l.used {
			continue
		}
		from := fmt.Sprintf("%s [%s]", l.value.Source, l.value.Kind)
		if grouped[from] == nil {
			order = append(order, from)
		}
		grouped[from] = append(grouped[from], l.name+" "+l.text)
	}
	for i, from := range order {
		order[i] = strings.Join(grouped[from], "; ") + ": " + from
	}
	return order
}
