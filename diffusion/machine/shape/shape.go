package shape

import (
	"math"

	"strandry/diffusion/bounds"
)

// Way is how a strand is led: a [Tube], [Passes] or a [Winding].
type Way interface {
	// Lead is what follows from the way for a strand of a diameter [m]; an error says which length is absurd.
	Lead(diameter float64) (Lead, error)
	// ForLength is the least of the same kind that holds a length of strand [m] of a diameter [m]: the length of a tube, the number of passes, the turns of each layer; the rest is kept.
	ForLength(target, diameter float64) (Way, error)
	// Most is the one of the same kind that holds the most strand of a diameter [m] in a box, and whether there is any. A tube may be as long as the box; passes may have another span and count, on the same rollers; a
	// winding may have a wider or a narrower drum and other turns, with its pitch and layers. Gaps and walls are kept.
	Most(inside Box, diameter float64) (w Way, any bool, err error)
	// Outline is the way drawn to scale for a strand of a diameter [m], in air that goes against the strand or with it.
	Outline(diameter float64, against bool) (Outline, error)
}

// Lead is what follows from a way and a strand.
type Lead struct {
	Length     float64 // strand that is held, along its centre line [m]
	Housing    Housing
	WallArea   float64 // outer surface of the housing, its ends included [m²]
	AirSection float64 // that the air passes, the strand taken off [m²]
	Wraps      []Wrap  // in order along the strand, those alike together; none in a tube
	BendRadius float64 // least radius of what the strand is bent over, on its inner side [m]; 0 where nothing is bent
	BendStrain float64 // of the outer fibre at that bend [-]; 0 where nothing is bent
	Cover      Cover   // what is usual, in a winding where most is touched; whoever knows better replaces it, nothing else depends on it
	Layers     []Layer // of a winding, from the drum outwards; none otherwise
}

// Housing is the outer size of a housing [m]: a box round it, and a diameter where it is round.
type Housing struct {
	Length, Width, Height float64 // [m]
	Diameter              float64 // [m]; 0 where it is no cylinder
}

// Bend is what a strand is bent over.
type Bend int

// What a strand is bent over.
const (
	Roller Bend = iota
	Drum
)

// Wrap is a number of like bends.
type Wrap struct {
	Over   Bend
	Count  int     // how many such, one after the other
	Angle  float64 // of each [rad]
	Radius float64 // of the centre line [m]
}

// Cover is what touches the strand and keeps air from a share of its perimeter.
type Cover struct {
	Share float64 // of the perimeter that meets no air [-]
	Arcs  int     // equal arcs that it is made of; 0 where nothing is covered
	Stays bool    // at the same place of the strand all along; otherwise it wanders
}

// Layer is one layer of a winding.
type Layer struct {
	Radius float64 // of the centre line [m]
	Length float64 // of the strand in it [m]
	// Touches counts what the strand touches: what it lies on, the layer above, and its neighbours where the turns touch, 1 to 4.
	Touches int
}

// touching is the cover of a strand that touches so many things, at the same places of its perimeter all along. A tenth of the perimeter for each is common practice, no source: what is round touches
// a line, beside which a thin wedge of air stands still.
func touching(things int) Cover {
	return Cover{Share: 0.1 * float64(things), Arcs: things, Stays: true}
}

// Bounds. They are wide: they keep the arithmetic finite and catch a wrong unit.
const (
	least, longest = 1e-6, 1e4 // of any length [m]
	thinnest       = 1e-5      // strand [m]
	thickest       = 0.1       // strand [m]
	mostPasses     = 1_000_000
	mostTurns      = 1_000_000.0
	mostLayers     = 5
)

func strand(diameter float64) bounds.Bound {
	return bounds.Of("strand diameter", diameter, thinnest, thickest, "m")
}
func length(name string, value float64) bounds.Bound {
	return bounds.Of(name, value, least, longest, "m")
}

// wall is the thickness of a housing, which may be left out.
func wall(value float64) bounds.Bound { return bounds.Of("wall of the housing", value, 0, 1, "m") }

// disc is the area of a circle of a diameter.
func disc(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
