package scenarios

import (
	"fmt"
	"slices"

	"strandry/diffusion/machine"
	"strandry/diffusion/machine/desiccant"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// construction reads what is stated of the dryer beside the path: what pulls the strand, the desiccant, money and parts. The chambers were read with their zones.
func (r *reading) construction(root section, s *Scenario) {
	before := r.assumed
	m := &s.Machine
	m.Room = machine.Room{Temperature: s.Room.Temperature, VapourPressure: s.Room.VapourPressure, Pressure: s.Room.Pressure}
	m.Chambers = r.chambers
	for _, table := range [...]string{"pull", "desiccant", "money", "part"} {
		m.Stated = m.Stated || root.has(table)
	}
	m.Stated = m.Stated || r.built
	m.Pull = r.pull(root.sub("pull"))
	m.Bed = r.bed(root.sub("desiccant"), s)
	money := root.sub("money")
	m.Currency, _ = money.text("currency")
	if len([]rune(m.Currency)) > longestCurrency {
		money.fault("currency", "no name of a currency", "up to 8 letters")
	}
	const joules = 3.6e6 // in a kilowatt-hour
	m.Energy = money.number("energy", strict.Limits{Min: 0, Max: 1e6}, 0) / joules
	m.Parts = r.parts(root)
	build := root.sub("build")
	box := build.sub("box")
	m.Stated = m.Stated || !box.absent() || build.has("margin")
	sizes := [...]*float64{&m.Box.Length, &m.Box.Width, &m.Box.Height}
	for i, key := range [...]string{"length", "width", "height"} {
		if box.absent() {
			box.quantity(key, quantity.Length(), boxSizes()) // to be known
			continue
		}
		*sizes[i], _ = box.required(key, quantity.Length(), boxSizes())
	}
	m.LeastBend, _ = build.quantity("least_radius", quantity.Length(), strict.Limits{Min: 1e-4, Max: 10, Unit: "mm"})
	m.Margin = build.number("margin", strict.Limits{Min: 1, Max: 10}, usualMargin)
	s.Machine.Assumed = append(s.Machine.Assumed, r.assumed[len(before):]...)
	r.assumed = before
}

const (
	longestCurrency = 8
	usualMargin     = 1.5 // of a heater over the steady power (common practice, no source)
)

func boxSizes() strict.Limits { return strict.Limits{Min: 0.01, Max: 100, Unit: "mm"} }

// chamber reads what surrounds the strand in a zone.
func (r *reading) chamber(t section, c *machine.Chamber) {
	c.Heater, _ = t.quantity("heater", quantity.Power(), strict.Limits{Min: 0.01, Max: 1e5, Unit: "W"})
	r.built = r.built || t.has("heater") || t.has("wall")
	c.Wall = r.wall(t.sub("wall"))
}

// wall reads a housing.
func (r *reading) wall(t section) machine.Wall {
	var w machine.Wall
	w.Insulation, _ = t.quantity("insulation", quantity.Length(), strict.Limits{Max: 1, Unit: "mm"})
	// Of mineral wool and foams (common practice, no source).
	w.Conductivity = 0.04
	if k, ok := t.quantity("conductivity", quantity.Conductivity(), strict.Limits{Min: 1e-3, Max: 500, Unit: "W/m/K"}); ok {
		w.Conductivity = k
		if w.Insulation == 0 {
			t.fault("conductivity", "there is no insulation, whose conductivity this would be", "conductivity together with insulation")
		}
	} else if w.Insulation > 0 {
		r.assume(t.name("conductivity") + ": 0.04 W/m/K")
	}
	w.Emissivity = t.number("emissivity", strict.Limits{Min: 0.01, Max: 1}, emissivity)
	word, _ := t.choice("surface", "plastic", "metal", "glass")
	for _, s := range [...]machine.Surface{machine.Plastic, machine.Metal, machine.Glass} {
		if word == s.String() {
			w.Surface = s
		}
	}
	w.Mass, _ = t.quantity("mass", quantity.Mass(), strict.Limits{Min: 1e-4, Max: 1e4, Unit: "kg"})
	w.HeatCapacity = 900 // of aluminium; of steel half as much, of plastics half as much again
	if c, ok := t.quantity("specific_heat", quantity.SpecificHeat(), strict.Limits{Min: 50, Max: 1e4, Unit: "J/kg/K"}); ok {
		w.HeatCapacity = c
		if w.Mass == 0 {
			t.fault("specific_heat", "there is no mass, whose specific heat this would be", "specific_heat together with mass")
		}
	} else if w.Mass > 0 {
		r.assume(t.name("specific_heat") + ": 900 J/kg/K")
	}
	return w
}

// mostFriction is the highest coefficient that is taken [-].
const mostFriction = 2

// pull reads what holds the strand back, and what draws it.
func (r *reading) pull(t section) machine.Pull {
	forces := strict.Limits{Min: 0, Max: 1e4, Unit: "N"}
	var p machine.Pull
	p.Spool, _ = t.quantity("spool", quantity.Force(), forces)
	p.Feeder, _ = t.quantity("feeder", quantity.Force(), forces)
	p.Guides, _ = t.quantity("guides", quantity.Angle(), strict.Limits{Min: 0, Max: 200, Unit: "°"})
	// Smooth plastics and metals on each other in the dry; printed guides more (handbook values from memory).
	p.Friction = machine.Range{Low: 0.1, Value: 0.2, High: 0.4}
	if f := t.number("friction", strict.Limits{Min: 0, Max: mostFriction}, p.Friction.Value); t.has("friction") {
		p.Friction = machine.Range{Low: f / 1.5, Value: f, High: min(mostFriction, f*1.5)}
	}
	return p
}

// bed reads the desiccant.
func (r *reading) bed(t section, s *Scenario) machine.Bed {
	b := machine.Bed{Temperature: s.Room.Temperature}
	kinds := desiccant.Kinds()
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = k.String()
	}
	word, ok := t.choice("kind", words...)
	if ok {
		b.Kind = kinds[max(0, slices.Index(words, word))]
	}
	masses := strict.Limits{Min: 1e-3, Max: 1e4, Unit: "g"}
	if t.absent() {
		t.quantity("mass", quantity.Mass(), masses) // to be known
	} else {
		if !t.has("kind") {
			t.fault("kind", "missing", fmt.Sprint(words))
		}
		b.Mass, _ = t.required("mass", quantity.Mass(), masses)
		over := func(c machine.Chamber) bool { return c.Source == machine.Once || c.Source == machine.Loop }
		if !slices.ContainsFunc(r.chambers, over) {
			t.fault("", "no air goes over it", "a zone with air of source = \"once\" or \"loop\"")
		}
	}
	if at, ok := t.quantity("bed", quantity.Temperature(), AirTemperatures()); ok {
		b.Temperature = at
	}
	usual, err := b.Kind.Heating()
	b.Regenerated = usual.Least
	if at, ok := t.quantity("regenerated", quantity.Temperature(), strict.Limits{Min: 313.15, Max: 623.15, Unit: "°C"}); ok {
		b.Regenerated = at
		if err != nil {
			t.fault("regenerated", err.Error(), "no regenerated for it")
		} else if at > usual.Most {
			t.fault("regenerated", usual.Why, "up to "+quantity.Temperature().Format(usual.Most, "°C", 4)+" ("+usual.Source+")")
		}
	} else if err == nil && !t.absent() {
		r.assume(t.name("regenerated") + ": " + quantity.Temperature().Format(b.Regenerated, "°C", 4))
	}
	return b
}

// parts reads [[part]], what is to be bought at the user's own prices.
func (r *reading) parts(root section) []machine.Part {
	var all []machine.Part
	for i, table := range root.subs("part") {
		if i == mostParts {
			table.Fault("", "too many parts", fmt.Sprintf("up to %d [[part]]", mostParts))
		}
		p := machine.Part{Zone: -1, Count: 1}
		if table.Require("name", "price") {
			p.Name, _ = table.Text("name")
			p.Price, _ = table.Number("price", strict.Limits{Min: 0, Max: 1e9})
		}
		if len([]rune(p.Name)) > longestName {
			table.Fault("name", "no name that fits on a line", "up to 60 letters")
		}
		if table.Has("count") {
			p.Count, _ = table.Number("count", strict.Limits{Min: 0, Max: 1e6})
		}
		if word, ok := table.Choice("per", perWords()); ok {
			p.Per = machine.Per(slices.Index(perWords(), word))
		}
		r.partOf(root, table, &p)
		all = append(all, p)
	}
	return all
}

const mostParts = 200

func perWords() []string {
	var words []string
	for p := machine.Each; p <= machine.Kilogram; p++ {
		words = append(words, p.String())
	}
	return words
}

// partOf reads the zone whose length, wall or heater a part goes by.
func (r *reading) partOf(root section, t *strict.Table, p *machine.Part) {
	needs := p.Per == machine.Metre || p.Per == machine.SquareMetre || p.Per == machine.Watt
	switch {
	case needs && !t.Has("of"):
		t.Fault("of", "missing", "the name of the zone whose strand, wall or heater is meant")
	case !needs && t.Has("of"):
		t.Fault("of", "such a part goes by no zone", "of together with per = \"m\", \"m2\" or \"W\"")
	case needs:
		at, ok := t.Choice("of", r.path)
		if !ok {
			return
		}
		p.Zone = slices.Index(r.path, at)
		if p.Per == machine.SquareMetre && !r.shaped(root, p.Zone) {
			t.Fault("of", "nothing is said of its shape, whose wall this would be", "a zone with a shape")
		}
	case p.Per == machine.Kilogram && !root.has("desiccant"):
		t.Fault("per", "there is no desiccant, whose mass this would be", "per = \"kg\" together with [desiccant]")
	}
}

// shaped tells whether a zone says how the strand is led.
func (r *reading) shaped(root section, zone int) bool {
	name := r.path[zone]
	return section{r: r, table: root.subs("zone")[zone], path: "zone." + name, zone: name}.has("shape")
}
