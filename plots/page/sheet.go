package page

import (
	"fmt"
	"path/filepath"

	"strandry/diffusion/film"
	"strandry/plots/palette"
	"strandry/plots/table"
	"strandry/scenarios"
)

// WeighingSheet is the name of the page to print before a strand is weighed.
const WeighingSheet = "weighing-sheet.html"

// OfPlan makes the page to print and to write on. The same plan gives the same bytes. A number that is not finite is an error.
func OfPlan(p *table.FitPlan) ([]byte, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	w := p.Plan.Weighings
	d := &document{Kind: "Weighing sheet", Skip: "cautions", Title: w.Title,
		Lead: fmt.Sprintf("%s, %s: how fast does water move in it?", w.Model.Material.Name, table.Millimetres(2*w.Model.Radius)),
		Foot: fmt.Sprintf("strandry %s, planned from %s", p.Version, filepath.Base(w.File)),
		Sections: []section{
			{"cautions", "First", []block{{List: cautions(w)}}},
			{"weighing", "How to weigh", toWeigh(p)},
		}}
	for i := range w.Runs {
		d.Sections = append(d.Sections, section{fmt.Sprintf("run-%d", i+1), "Run " + w.Runs[i].Zone.Name, runSheet(p, i)})
	}
	return htmlOf(d)
}

// cautions are what can hurt, before all else.
func cautions(w *scenarios.Weighings) []string {
	hottest, soft := w.Runs[0].Zone.Air.Temperature, w.Model.Material.Softening
	for _, run := range w.Runs {
		hottest = max(hottest, run.Zone.Air.Temperature)
	}
	softens := fmt.Sprintf("The strand softens at about %s, and may do so from %s on; this plan heats it to %s.", table.Celsius(soft.Value), table.Celsius(soft.Low), table.Celsius(hottest))
	if hottest > soft.Low {
		softens += " It may stretch or stick together: a cooler oven is needed."
	}
	return []string{
		"An oven burns, and so does what comes out of it: wear gloves. Nobody leaves a hot oven alone.",
		"Hot strand may give off fumes: let air into the room, and use no oven that food goes into.",
		softens,
		"What the makers of oven, scale and strand say comes first.",
	}
}

// toWeigh is what to do, in five lines, and what the plan expects of it.
func toWeigh(p *table.FitPlan) []block {
	w := p.Plan.Weighings
	var blocks []block
	facts := []fact{{"Weigh", p.Coil() + ", in each run"}, {"Scale", "shows " + table.Grams(w.Scale.Resolution)}}
	if p.Plan.Enough {
		facts = append(facts, fact{"Expected", "how fast water moves, " + p.Expected()})
	} else {
		blocks = append(blocks, block{Banner: &banner{Word: "NOT ENOUGH", Text: p.Answer() + ".", Kind: palette.Unsure}})
	}
	blocks = append(blocks, block{Facts: facts})
	return append(blocks, block{List: []string{
		"Coil the strand loosely, its turns apart, so that air meets every turn.",
		"Weigh it just before it goes into the oven, which is hot already: that is 0:00.",
		"When a time is due: out, onto the scale within seconds, and back. See that the empty scale shows zero.",
		"Write down the clock when it was weighed, not when it was due, and every digit of the mass.",
		"Late or missed: write down the clock as it was, or strike the line out.",
	}})
}

// runSheet is the oven's setting and the table to fill in.
func runSheet(p *table.FitPlan, run int) []block {
	w := p.Plan.Weighings
	r := &w.Runs[run]
	g := &grid{Heads: []string{"Due, h:min", "Clock", "Mass, g", "Remarks"}, Blank: true}
	for _, due := range p.Due(run) {
		g.add(due, "", "", "")
	}
	return []block{
		{Facts: []fact{{"Oven", table.Celsius(r.Zone.Air.Temperature) + ", measured beside the strand"}, {"Air", airOf(w, r)}}},
		{Grid: g},
		text(fmt.Sprintf("At the end %s of the water should be left to move. Type the masses into %s, with the times as they were, in hours since 0:00; take out lines that were not weighed. Then: strandry fit %s",
			p.Left(run), r.File, filepath.Base(w.File))),
	}
}

// airOf tells of the air of a run.
func airOf(w *scenarios.Weighings, r *scenarios.Run) string {
	const same = 1e-6
	vapour, room := r.Zone.Air.VapourPressure, w.Room.VapourPressure
	moist := "with " + dew(vapour)
	if vapour > room*(1-same) && vapour < room*(1+same) {
		moist = "that of the room, heated: " + table.Celsius(w.Room.Temperature) + " and " + table.Given(100*w.Room.Humidity) + " % humidity outside"
	}
	if f := r.Zone.Film; f.Flow != film.Natural {
		return moist + "; it moves at " + table.Given(f.AirSpeed) + " m/s"
	}
	return moist + "; still, the fan off"
}
