package page

import (
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/plots/palette"
	"strandry/plots/table"
)

// lead is the answer in one line, below the title.
func (l *Log) lead() string {
	m, r := l.Answer.Design, l.Answer.Assessment
	word := "within"
	if r.Nozzle.Mean > m.Limit {
		word = table.Times(r.Nozzle.Mean / m.Limit)
	}
	text := fmt.Sprintf("%s reaches the nozzle with %s of water (%s, eight times in ten), %s the limit of %s", m.Material.Name, table.Percent(r.Nozzle.Mean), table.Spanned(r.Low, r.High), word, table.Limit(m.Limit))
	if r.Mouths > 0 { // which the number at the medians knows nothing of
		text = fmt.Sprintf("%s reaches the nozzle with %s of water, eight times in ten; the limit is %s, met %s",
			m.Material.Name, table.Spanned(r.Low, r.High), table.Limit(m.Limit), table.Chance(r.Probability))
	}
	switch r.Endurance.Survival {
	case diffusion.Softens:
		text = fmt.Sprintf("%s softens on its way, %s. It would hold %s of water, %s the limit of %s", m.Material.Name, where(r.Endurance), table.Percent(r.Nozzle.Mean), word, table.Limit(m.Limit))
	case diffusion.Doubtful:
		text += "; whether it bears the heat is doubtful"
	}
	return text + "."
}

// where names the place where the strand is hottest.
func where(e diffusion.Endurance) string {
	if e.Zone == "" {
		return "at " + table.Celsius(e.Strand) + " as it sets off"
	}
	return "at " + table.Celsius(e.Strand) + " in " + e.Zone
}

func (l *Log) question() []block {
	m, r := l.Answer.Design, l.Answer.Assessment
	var zones []string
	for i := range m.Path {
		zones = append(zones, m.Path[i].Name)
	}
	return []block{
		text("Printing filament takes up water from the air, and wet filament prints badly: bubbles, strings, a rough skin, weaker parts. " +
			"This page asks whether a strand dries on its way to the printer, while it runs through a heated path, and how sure that is. It comes from a computation that follows the water out of " +
			"the strand, not from a test; what is not known well is drawn at random within what is known of it, and the odds say how often the strand comes out dry enough. " +
			"Dry means nine times in ten or more, wet one time in ten or less, unsure what lies between; at the medians means with each thing in doubt at its middle value."),
		text(fmt.Sprintf("A strand of %s, %s thick, sets off with %s of water and runs at %s through %s. "+
			"Is it dry enough when it reaches the nozzle, with no more than %s? If not: what holds it back, and what would have to be built?",
			m.Material.Name, table.Millimetres(2*m.Radius), table.Percent(r.Start.Mean), table.Speed(m.Speed), table.Joined(zones), table.Limit(m.Limit))),
	}
}

func (l *Log) scenario() []block {
	m, room := l.Answer.Design, l.Scenario.Room
	p := &m.Material
	blocks := []block{
		text(fmt.Sprintf("The strand is %s: %s. %s", p.Name, p.Family, p.Summary)),
		text(l.start()),
		text(fmt.Sprintf("The room is at %s and %s %% relative humidity, %s. The nozzle is at %s. At the nozzle it may hold no more than %s. "+
			"All moistures are in %% of the dry weight.",
			table.Celsius(room.Temperature), table.Given(100*room.Humidity), dew(room.VapourPressure), table.Celsius(m.NozzleTemperature), table.Limits(m))),
	}
	g := &grid{Heads: []string{"Zone", "Length", "Time in it", "Air", "Moisture of the air", "Flow", "Open to the air"}, Words: true}
	for i := range m.Path {
		z := &m.Path[i]
		g.add(z.Name, table.Length(z.Length), table.Duration(z.Residence(m.Speed)), table.Celsius(z.Air.Temperature), l.moisture(z), l.flow(z),
			openToAir(z.Contact))
	}
	blocks = append(blocks, block{Grid: g})
	return blocks
}

// openToAir tells how much of the perimeter meets the air, and what covers the rest.
func openToAir(c diffusion.Contact) string {
	share := table.Given(100*c.Exposed()) + " %"
	switch {
	case c.Covered == 0:
		return share
	case c.Moves:
		return share + ", the cover moves round"
	case c.Arcs == 1:
		return share + ", 1 arc covered"
	}
	return fmt.Sprintf("%s, %d arcs covered", share, c.Arcs)
}

// start tells how the strand sets off.
func (l *Log) start() string {
	m, s := l.Answer.Design, l.Answer.Assessment.Start
	if len(m.Storage) == 0 {
		return fmt.Sprintf("It sets off at %s with %s of water, the same all through.", table.Celsius(m.StartTemperature), table.Percent(m.Start))
	}
	var stays []string
	for i := range m.Storage {
		z := &m.Storage[i]
		humidity := z.Air.VapourPressure / humidair.SaturationPressure(z.Air.Temperature)
		stays = append(stays, fmt.Sprintf("%s at %s and %s %% relative humidity", table.Duration(z.Duration), table.Celsius(z.Air.Temperature), table.Given(100*humidity)))
	}
	return fmt.Sprintf("It began with %s of water and then lay loose in still air: %s. It sets off with %s on average, %s at its centre and %s at the skin.",
		table.Percent(m.Start), strings.Join(stays, "; then "), table.Percent(s.Mean), table.Cell(s.Centre)+" %", table.Percent(s.Skin))
}

// dew names the dew point of a vapour pressure [Pa]; over ice it is a frost point.
func dew(vapour float64) string {
	const least = 1e-3 // below it a frost point says nothing
	if vapour < least {
		return "no vapour at all"
	}
	point := humidair.DewPoint(vapour)
	if point < 273.15 {
		return "a frost point of " + table.Celsius(point)
	}
	return "a dew point of " + table.Celsius(point)
}

// moisture tells how moist the air of a zone is as it is supplied.
func (l *Log) moisture(z *diffusion.Zone) string {
	vapour, room := z.Air.VapourPressure, l.Scenario.Room.VapourPressure
	humidity := fmt.Sprintf("%s %% relative humidity", table.Significant(100*vapour/humidair.SaturationPressure(z.Air.Temperature), 2))
	if z.Air.Held > 0 {
		return "held at " + humidity + ", " + dew(vapour)
	}
	const same = 1e-9
	if vapour > room*(1-same) && vapour < room*(1+same) {
		return "that of the room, " + humidity
	}
	return dew(vapour) + ", " + humidity
}

// flow tells how much air there is, as a volume at the room's temperature and pressure.
func (l *Log) flow(z *diffusion.Zone) string {
	m, room := l.Answer.Design, l.Scenario.Room
	flow := m.DryFlow(z)
	if flow == 0 {
		return "without limit"
	}
	volume := flow * humidair.DryAirConstant * room.Temperature / (m.Pressure - z.Air.VapourPressure) // [m3/s]
	way := z.Air.Direction.String() + " the strand"
	if z.Air.Direction == diffusion.Mixed {
		way = "mixed throughout"
	}
	if z.Air.Dragged {
		return table.Significant(volume*1e6*60, 2) + " mL/min, dragged along by the strand"
	}
	const litresPerMinute = 6e4
	return table.Given(volume*litresPerMinute) + " L/min, " + way
}

func (l *Log) answer() []block {
	a, m, r := l.Answer, l.Answer.Design, l.Answer.Assessment
	word, meaning, _ := strings.Cut(table.Meaning(m, r), ": ")
	blocks := []block{
		{Banner: &banner{Word: word, Text: meaning, Kind: [...]palette.Meaning{diffusion.Unsure: palette.Unsure, diffusion.Dry: palette.Dry, diffusion.Wet: palette.Wet, diffusion.TooHot: palette.Softens}[r.Verdict]}},
		{Facts: []fact{
			{"Survives", table.Survives(m.Material.Name, r.Endurance)},
			{"At the nozzle", table.Bounded(r.Nozzle.Mean, r.NumericalError) + " (numerical error)"},
			{"Odds", "within the limit " + table.Chance(r.Probability)},
			{"Spread", table.EightInTen(&r.Odds)},
			{"Limit", table.Limits(m)},
			{"Means", table.BothLimits(&m.Material, &r.Odds)},
			{"Centre and skin", table.Cell(r.Nozzle.Centre) + " % at the centre, " + table.Percent(r.Nozzle.Skin) + " at the skin"},
			{"Removed", table.Removed(r)},
			{"Steam", fmt.Sprintf("%s volumes at %s for each volume of melt", table.Significant(r.Steam, 2), table.Celsius(m.NozzleTemperature))},
		}},
		text(a.Conclusion()),
		head("Zone by zone"),
		{Grid: l.zones()},
		text("Holds at rest: what the strand would hold if left for ever in the air at its exit. The Fourier number tells how far diffusion has come; nine tenths of the water need about 0.33."),
	}
	if covers := table.Covers(&r.Result); len(covers) > 0 {
		blocks = append(blocks, text("Where the strand is covered the skin is the mean round."), block{List: covers})
	}
	if g := l.advice(); len(g.Rows) > 0 {
		blocks = append(blocks, head("What changes would do"), text("Each row is a set of changes to be made together, assessed as it is written here. As it is, the design is dry "+table.Chance(r.Probability)+"."), block{Grid: g})
	}
	return blocks
}

func (l *Log) zones() *grid {
	s := l.Answer.Assessment.Start
	g := &grid{Heads: []string{"At the end of", "Mean, %", "Centre, %", "Skin, %", "Holds at rest, %", "Strand, °C", "Fourier number"}}
	degrees := func(t float64) string { return strings.TrimSuffix(table.Celsius(t), " °C") }
	g.add("(start)", table.Cell(s.Mean), table.Cell(s.Centre), table.Cell(s.Skin), "", degrees(s.Temperature), "")
	for _, z := range l.Answer.Assessment.Zones {
		s := z.Exit
		g.add(z.Name, table.Cell(s.Mean), table.Cell(s.Centre), table.Cell(s.Skin), table.Cell(z.Equilibrium), degrees(s.Temperature), table.Significant(z.Fourier, 2))
	}
	return g
}

// advice lists the sets of changes that would do, or the one that comes nearest.
func (l *Log) advice() *grid {
	g := &grid{Heads: []string{"Changes made together", "Dry", "At the nozzle, at the medians", "Survives"}, Words: true}
	sets := l.Answer.Advice.Sets
	if near := l.Answer.Advice.Nearest; near != nil {
		sets = append(slices.Clone(sets), *near)
	}
	for i := range sets {
		s := &sets[i]
		g.add(l.Answer.Changes(s), table.Chance(s.Probability), table.Percent(s.Mean), s.Endurance.Survival.String())
	}
	return g
}
