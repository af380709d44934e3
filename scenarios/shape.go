package scenarios

import (
	"strconv"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/diffusion/machine"
	"strandry/diffusion/machine/shape"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// led is how the strand is led through a zone, and what follows from it; way is nil where nothing is said.
type led struct {
	way  shape.Way
	kind string
	shape.Lead
	gap    bool    // between strand and housing is stated
	access float64 // share of the film of a loose strand that a winding leaves [-]; zero where it is not stated
}

// usualAxle is that of rollers and drums, or half of theirs, where nothing is said [m] (common practice, no source).
const usualAxle = 8e-3

// usualGap is from the strand to the housing where nothing is said [m].
const usualGap = 0.02

// shape reads how the strand is led.
func (r *reading) shape(zone section, c *machine.Chamber, diameter float64) (l led) {
	t := zone.sub("shape")
	if !zone.has("shape") || t.absent() {
		return l
	}
	r.built = true
	if !t.has("kind") {
		t.fault("kind", "missing", "tube, drum, passes")
	}
	kind, _ := t.choice("kind", "tube", "drum", "passes")
	l.kind = kind
	switch kind {
	case "tube":
		l.way = r.tube(t, zone, diameter)
	case "drum":
		layers := t.whole("layers", 1, 5, 1)
		l.way, l.access = r.winding(t, zone, c, diameter, layers), r.access(t, layers)
	case "passes":
		l.way = r.passes(t, zone, c, diameter)
	case "": // a fault already; what belongs to the kind is none
		for _, key := range shapeKeys() {
			t.has(key)
		}
	}
	if l.way == nil {
		return led{}
	}
	l.gap = t.has("gap")
	var err error
	if l.Lead, err = l.way.Lead(diameter); err != nil {
		t.fault("", err.Error(), "sizes that fit together")
		return led{}
	}
	c.Led = l.way
	return l
}

// shapeKeys are those of all kinds of shape.
func shapeKeys() []string {
	return []string{"diameter", "pitch", "turns", "layers", "access", "span", "roller", "spacing", "passes", "gap", "thickness", "bearing", "axle", "mass", "driven"}
}

func sizes(min, max float64) strict.Limits { return strict.Limits{Min: min, Max: max, Unit: "mm"} }

// tube reads a straight one, whose bore is that of the zone.
func (r *reading) tube(t, zone section, diameter float64) shape.Way {
	bore, ok := 0.0, zone.has("bore")
	if !ok {
		zone.fault("bore", "missing: a tube has one", "the inner diameter of the tube")
	} else {
		bore, ok = zone.peek("bore")
	}
	thickness, _ := t.quantity("thickness", quantity.Length(), sizes(0, 0.1))
	long, given := zone.peek("length")
	if !zone.has("length") {
		zone.fault("length", "missing", "the length of the tube")
	}
	if !ok || !given || bore <= diameter {
		return nil
	}
	return shape.Tube{Length: long, Bore: bore, Wall: thickness}
}

// winding reads one on a drum.
func (r *reading) winding(t, zone section, c *machine.Chamber, diameter float64, layers int) shape.Way {
	w := shape.Winding{Layers: layers}
	var sound [2]bool
	w.Drum, sound[0] = t.required("diameter", quantity.Length(), sizes(1e-3, 10))
	w.Pitch, sound[1] = t.required("pitch", quantity.Length(), sizes(1e-4, 1))
	if sound[1] && w.Pitch < diameter {
		t.fault("pitch", "the turns would lie on each other", "the strand's diameter, "+quantity.Length().Format(diameter, "mm", 4)+", or more")
		sound[1] = false
	}
	w.Gap = r.gap(t)
	c.Driven = t.truth("driven", true)
	for _, key := range [...]string{"bearing", "axle", "mass"} {
		if c.Driven && t.has(key) {
			t.fault(key, "a motor turns the drum, so that its bearing does not hold the strand back", key+" together with driven = false")
		}
	}
	r.turning(t, c, w.Drum, !c.Driven)
	c.DrumMass, _ = t.quantity("mass", quantity.Mass(), strict.Limits{Min: 1e-3, Max: 1e3, Unit: "kg"})
	turns, counted := t.numberGiven("turns", strict.Limits{Min: 1, Max: 10_000})
	if !sound[0] || !sound[1] {
		return nil
	}
	w.Turns = max(1, turns)
	return r.holding(w, t, zone, c, diameter, counted, "turns")
}

// access reads how much of the air of a loose strand reaches one in several layers; the share is not known, so that it has to be stated.
func (r *reading) access(t section, layers int) float64 {
	access, ok := t.quantity("access", quantity.Fraction(), strict.Limits{Min: 0.01, Max: 1, Unit: "%"})
	if !ok && layers > 1 {
		r.assume(t.name("access") + ": 100 %, as if each layer met the air like a loose strand: how much less is not known")
	}
	return access
}

// passes reads some over rollers.
func (r *reading) passes(t, zone section, c *machine.Chamber, diameter float64) shape.Way {
	var p shape.Passes
	var sound [2]bool
	p.Span, sound[0] = t.required("span", quantity.Length(), sizes(1e-3, 100))
	p.Roller, sound[1] = t.required("roller", quantity.Length(), sizes(1e-3, 10))
	if spacing, ok := t.quantity("spacing", quantity.Length(), sizes(1e-3, 10)); ok {
		p.Spacing = spacing
	}
	p.Gap = r.gap(t)
	r.turning(t, c, p.Roller, true)
	p.Count = t.whole("passes", 2, 10_000, 2)
	if !sound[0] || !sound[1] {
		return nil
	}
	return r.holding(p, t, zone, c, diameter, t.has("passes"), "passes")
}

// gap reads what is between the strand and the housing.
func (r *reading) gap(t section) float64 {
	if gap, ok := t.quantity("gap", quantity.Length(), sizes(1e-4, 1)); ok {
		return gap
	}
	r.assume(t.name("gap") + ": 20 mm")
	return usualGap
}

// turning reads on what rollers or a drum of a diameter [m] turn; told is false where that does not matter.
func (r *reading) turning(t section, c *machine.Chamber, outer float64, told bool) {
	word, given := t.choice("bearing", machine.Ball.String(), machine.Plain.String())
	if word == machine.Plain.String() {
		c.Bearing = machine.Plain
	}
	if !given && told {
		r.assume(t.name("bearing") + ": ball")
	}
	c.Axle = usualAxle
	if outer > 0 {
		c.Axle = min(c.Axle, outer/2)
	}
	axle, ok := t.quantity("axle", quantity.Length(), sizes(5e-4, 1))
	switch {
	case ok && outer > 0 && axle >= outer:
		t.fault("axle", "as thick as what turns on it, or thicker", "less than "+quantity.Length().Format(outer, "mm", 4))
	case ok:
		c.Axle = axle
	case told:
		r.assume(t.name("axle") + ": " + quantity.Length().Format(c.Axle, "mm", 4))
	}
}

// holding is a way of a stated number of turns or passes, or the least that holds the zone's length.
func (r *reading) holding(w shape.Way, t, zone section, c *machine.Chamber, diameter float64, counted bool, key string) shape.Way {
	long, given := zone.peek("length")
	c.Held = counted
	switch {
	case !counted && !zone.has("length"):
		zone.fault("length", "missing", "a length, or "+t.name(key)+", from which it follows")
		return nil
	case !counted && given:
		fit, err := w.ForLength(long, diameter)
		if err != nil {
			t.fault("", err.Error(), "sizes that hold the length of the zone")
			return nil
		}
		return fit
	case !given:
		return w
	}
	r.holds(w, t, zone, diameter, long, key)
	return w
}

// holds reports a length that the turns or passes do not hold, and what would.
func (r *reading) holds(w shape.Way, t, zone section, diameter, long float64, key string) {
	lead, err := w.Lead(diameter)
	if err != nil || long <= lead.Length*(1+1e-9) {
		return
	}
	allowed := "up to " + quantity.Length().Format(lead.Length, "m", 4)
	if could, err := w.ForLength(long, diameter); err == nil {
		switch w := could.(type) {
		case shape.Winding:
			allowed += ", or " + t.name(key) + " = " + quantity.Number(quantity.Outward(w.Turns, 4, true), 4)
		case shape.Passes:
			allowed += ", or " + t.name(key) + " = " + strconv.Itoa(w.Count)
		}
	}
	zone.fault("length", "more than the "+key+" of its shape hold", allowed)
}

// lengthOf gives a zone the length that its shape holds.
func (r *reading) lengthOf(t section, z *diffusion.Zone, l led) {
	limits := strict.Limits{Min: 1e-3, Max: 1e4, Unit: "m"}
	known := r.register(Key{Name: t.name("length"), Zone: t.zone, Dimension: quantity.Length(), limits: limits})
	switch {
	case l.way == nil && !t.has("shape"):
		t.fault("length", "missing", "a length with one of "+strings.Join(quantity.Length().Units(), ", "))
	case l.way == nil: // a fault already
	case l.Length < limits.Min || l.Length > limits.Max:
		t.fault("shape", "it holds "+quantity.Length().Format(l.Length, "m", 4), "1 mm to 10 km")
	default:
		z.Length, known.Value, known.Known = l.Length, l.Length, true
		r.assume(t.name("length") + ": " + quantity.Length().Format(l.Length, "m", 4) + ", what its shape holds")
	}
}

// pass tells the film what air reaches a winding, and what section the air passes, where it is known and no speed was stated: across the strand on a drum, along that of passes whose number is stated.
func (l led) pass(z *diffusion.Zone, zone section, m *diffusion.Model) {
	if l.way != nil && l.access > 0 {
		z.Film.HeatFactor, z.Film.MassFactor = l.access, l.access
	}
	if l.way == nil || !l.gap || z.Film.AirSpeed > 0 || z.Film.Flow != film.Natural || !z.Air.Limited() {
		return
	}
	switch l.way.(type) {
	case shape.Winding:
		z.Film.Flow, z.Film.Section = film.Across, l.AirSection
	case shape.Passes:
		if zone.sub("shape").has("passes") {
			z.Film.Flow, z.Film.Section = film.Along, l.AirSection
		}
	}
	if speed := m.AirSpeed(z); speed > fastestAir {
		zone.sub("air").fault("flow", "it would rush past the strand at "+quantity.Speed().Format(speed, "m/s", 3), "up to 100 m/s: less of it, or a wider gap in the shape")
	}
}
