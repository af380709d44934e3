package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/materials/text/inert"
	"strandry/plots/table"
)

func (l *Log) doubts() []block {
	m, r, f := l.Answer.Design, l.Answer.Assessment, l.Survey.Film
	g := &grid{Heads: []string{"What is in doubt", "By how much", "Mean at the nozzle"}, Words: true}
	g.add("All that is drawn: "+strings.Join(r.Unknowns, ", "), "nine times in ten between the ends of each, see the sources", table.Spanned(r.Low, r.High)+", eight times in ten")
	alone := "The diffusivity of " + m.Material.Name + " alone"
	if m.Material.Diffusivity.Correlated() {
		alone = "The diffusivity of " + m.Material.Name + ", with what it tells of its activation energy and growth"
	}
	g.add(alone, table.Scatter(&m.Material.Diffusivity)+", nine times in ten", table.Spanned(r.ByDiffusivity.Low, r.ByDiffusivity.High)+", eight times in ten")
	if f.Heat > 0 || f.Mass > 0 {
		g.add("The film between strand and air", fmt.Sprintf("heat %s %%, vapour %s %% either way", table.Significant(100*f.Heat, 2), table.Significant(100*f.Mass, 2)), table.Spanned(f.Low, f.High))
	} else {
		g.add("The film between strand and air", "given in the scenario, taken as exact", table.Percent(r.Nozzle.Mean))
	}
	g.add("The arithmetic", "a band of ± "+table.Significant(100*r.NumericalError, 2)+" %, from a second march at half the spacing", table.Bounded(r.Nozzle.Mean, r.NumericalError))
	blocks := []block{text("The first line is all of the doubt; the others are each on its own, the rest at their medians."), {Grid: g}}
	if grid := l.Survey.Map; grid != nil {
		blocks = append(blocks, text(fmt.Sprintf("The map of length against feed is marched at coarser steps; at %d of its places the numerical error was looked at and is at most %s %% of the content.",
			grid.Checked, table.Significant(100*grid.RelativeError, 2))))
	}
	blocks = append(blocks, listed("Warnings", l.Answer.Warnings())...)
	return append(blocks, listed("Doubtful in the data of "+m.Material.Name, l.Answer.Doubts())...)
}

func (l *Log) sources() []block {
	blocks := []block{text("Exactly the values that this answer rests on, grouped by where they come from. In brackets: the kind of knowledge.")}
	if all := l.Answer.Sources(); len(all) > 0 {
		blocks = append(blocks, block{List: all})
	}
	return blocks
}

func (l *Log) assumptions() []block {
	assumed := slices.Clone(l.Answer.Assumed)
	for _, built := range l.Scenario.Build.Assumed {
		if !slices.Contains(assumed, built) {
			assumed = append(assumed, built)
		}
	}
	blocks := append(listed("Not given and assumed", assumed), listed("Read and checked, without effect here", l.Answer.Unused)...)
	return append(blocks, head("What the model holds"), block{List: []string{
		"Water diffuses along the radius, and round the section too where a cover keeps its place: what lies behind it has to go round. A cross-section is followed along the path at the speed of the feed.",
		"A cover that wanders round the strand, fast against the time of its skin, thins the film by the share that it covers.",
		"The diffusivity depends on temperature and on the moisture itself; the skin is at each moment in the equilibrium that the film and the isotherm allow.",
		"The strand takes the temperature of the air through the film: as a whole where the Biot number is at most 0.1, along its radius above. The film follows the strand's temperature, and the heat of the water that evaporates is taken from the strand.",
		table.AirRule(l.Answer.Design.Held()),
		"A limited flow of air takes up what the strand gives off; a zone is otherwise the same all along. The air in a bore without a flow is what the strand drags along; vapour that finds its way in at the mouths is not followed.",
	}}, head("What it leaves out"), block{List: []string{
		"swelling, the change of radius, crystallisation, and the slow second stage of sorption in glassy polymers",
		"conduction along the strand, and diffusion driven by temperature",
		"turns of a winding that shield each other, water that a cover itself takes up, and its heat: the strand meets the heat of the air all round",
		"what heat does to the polymer: oxidation, hydrolysis; how far a strand that gives way stretches or sticks, which hangs on pull and time, and that water lowers the temperature at which it does",
		"how the air gets to its stated state, and how long the dryer takes to reach it",
	}})
}

func (l *Log) safety() []block {
	all := append(table.Cautions(l.Answer.Design),
		"Things that turn and a strand under tension catch fingers, hair and sleeves: guard them, and stop them before you reach in.",
		"This page is the outcome of a computation, not a tested design. Where it differs from the law, from your local codes or from what a licensed electrician or engineer tells you, follow them.")
	return []block{{List: all}}
}

// settingsText puts the numerical settings in words.
func settingsText(s diffusion.Settings) string {
	return fmt.Sprintf("resolution %s, tolerance %s, heat %s", table.Significant(s.Resolution, 3), table.Significant(s.Tolerance, 3), s.Heat)
}

func (l *Log) again() []block {
	r := l.Answer.Assessment
	var heat []string
	for _, z := range r.Zones {
		how := "as a whole"
		if z.Resolved {
			how = "along the radius"
		}
		heat = append(heat, fmt.Sprintf("%s %s (Biot number %s)", z.Name, how, table.Significant(z.Biot, 2)))
	}
	blocks := []block{
		text("The same command, version and scenario give the same bytes."),
		{Code: l.Command},
		{Facts: []fact{
			{"Version", "strandry " + l.Answer.Version},
			{"Settings", settingsText(r.Settings)},
			{"March", fmt.Sprintf("%d nodes along the radius, %d steps; the water balance closes to %s", r.Nodes, r.Steps, table.Significant(math.Abs(r.Balance), 1))},
			{"Temperature", strings.Join(heat, "; ")},
		}},
	}
	if grid := l.Survey.Map; grid != nil && len(grid.Rows) > 0 {
		facts := &blocks[len(blocks)-1].Facts
		*facts = append(*facts, fact{"Maps", settingsText(grid.Rows[0].Settings)})
	}
	if name, _ := l.Scenario.Named(); strings.HasSuffix(name, ".toml") {
		blocks = append(blocks, text("The material comes from a file of its own, which is needed too; its values stand under the sources."))
	}
	return append(blocks, head("The scenario, "+l.file()), block{Code: inert.EscapedLines(string(l.Scenario.Document().Text()))})
}
