package scenarios

import (
	"strandry/diffusion"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// leastExposed is the least share of the perimeter that meets the air.
const leastExposed = 0.01

// contact reads what covers a part of the strand; exposed is the shorthand for one
// arc that stays in its place. Where nothing is said it is what is usual for the way in which the strand is led.
func (r *reading) contact(zone section, led led) diffusion.Contact {
	limits := strict.Limits{Min: leastExposed, Max: 1, Unit: "%"}
	covers := strict.Limits{Min: 0, Max: 1 - leastExposed, Unit: "%"}
	t := zone.sub("contact")
	var c diffusion.Contact
	if zone.atMostOne("exposed", "contact") == "contact" {
		zone.quantity("exposed", quantity.Fraction(), limits) // to be known
	} else if exposed := zone.quantityOr("exposed", quantity.Fraction(), limits, 1); exposed < 1 {
		c = diffusion.Contact{Covered: 1 - exposed, Arcs: 1}
		r.assume(zone.name("contact") + ": one arc that stays in its place")
	}
	if t.absent() {
		t.quantity("share", quantity.Fraction(), covers) // to be known
		if zone.has("exposed") || led.way == nil || led.Cover.Share == 0 {
			return c
		}
		c = diffusion.Contact{Covered: led.Cover.Share, Arcs: led.Cover.Arcs, Moves: !led.Cover.Stays}
		r.assume(zone.name("contact") + ": " + quantity.Fraction().Format(c.Covered, "%", 3) + " of the perimeter in one arc that stays in its place, as is usual for a " + led.kind)
		return c
	}
	share, covered := t.required("share", quantity.Fraction(), covers)
	arcs := t.whole("arcs", 1, diffusion.MostArcs, 1)
	moves := t.truth("moves", false)
	for _, key := range [...]string{"arcs", "moves"} {
		if covered && share == 0 && t.has(key) {
			t.fault(key, "a share of 0 % covers nothing, of which this could be said", "a share above 0 %, or no "+key)
		}
	}
	if !covered || share == 0 {
		return c
	}
	if !moves && !t.has("arcs") {
		r.assume(t.name("arcs") + ": 1")
	}
	if !t.has("moves") {
		r.assume(t.name("moves") + ": false, it stays in its place")
	}
	return diffusion.Contact{Covered: share, Arcs: arcs, Moves: moves}
}
