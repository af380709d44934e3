package heat

import (
	"fmt"
	"math"
)

// Shape is the form of a housing.
type Shape int

// The shapes. LevelCylinder is the zero value.
const (
	LevelCylinder Shape = iota
	StandingCylinder
	Box
)

// String returns the name of the shape.
func (s Shape) String() string {
	if s < LevelCylinder || s > Box {
		return fmt.Sprintf("Shape(%d)", int(s))
	}
	return [...]string{"level cylinder", "standing cylinder", "box"}[s]
}

// Layer is a layer of a wall.
type Layer struct {
	Thickness    float64 // [m]
	Conductivity float64 // [W/(m K)]
}

// Housing is the form and the size of a chamber, outside of its shell and without its insulation.
type Housing struct {
	Shape    Shape
	Length   float64 // of a cylinder along its axis, of a box along the path of the air [m]
	Diameter float64 // cylinders only [m]
	Width    float64 // box only, across and level [m]
	Height   float64 // box only [m]

	// OpenEnds leaves out the two ends, which join another zone or are counted there: the discs of a cylinder, the width by
	// height of a box.
	OpenEnds bool
}

// face is one face of a wall as a chain of resistances.
type face struct {
	name            string
	inner, outer    float64 // areas [m2]
	resistance      float64 // of the layers [K/W]
	inside, outside surface
}

// layers are the shell and the insulation from the inside out.
func (w Wall) layers() []Layer {
	if w.Shell.Thickness == 0 {
		return w.Insulation
	}
	return append([]Layer{w.Shell}, w.Insulation...)
}

// thickness is that of the insulation [m].
func (w Wall) thickness() float64 {
	sum := 0.0
	for _, l := range w.Insulation {
		sum += l.Thickness
	}
	return sum
}

// plane is the resistance [K/W] of layers through which a face conducts whose shape factor is area over their thickness, and
// more (edges and corners).
func plane(layers []Layer, area, edges, corners float64) float64 {
	thickness, unit := 0.0, 0.0 // [m], [m2 K/W]
	for _, l := range layers {
		thickness += l.Thickness
		unit += l.Thickness / l.Conductivity
	}
	if thickness == 0 {
		return 0
	}
	return unit / (area + thickness*(perEdge*edges+perCorner*corners*thickness))
}

// Shape factors of an edge per length and of a corner per thickness [-], Incropera & DeWitt, Table 4.1.
const perEdge, perCorner = 0.54, 0.15

// round is the resistance [K/W] of layers round a cylinder of radius r [m] inside and the length given [m].
func round(layers []Layer, r, length float64) float64 {
	sum := 0.0
	for _, l := range layers {
		sum += math.Log1p(l.Thickness/r) / (2 * math.Pi * l.Conductivity * length)
		r += l.Thickness
	}
	return sum
}

// faces are those of the wall.
func (w Wall) faces() []face {
	if w.Shape == Box {
		return w.boxFaces()
	}
	return w.cylinderFaces()
}

func (w Wall) cylinderFaces() []face {
	shell, more := w.Shell.Thickness, w.thickness()
	r, out := w.Diameter/2-shell, w.Diameter/2+more
	long, longOut := w.Length-2*shell, w.Length+2*more
	if w.OpenEnds {
		long, longOut = w.Length, w.Length
	}
	mantle := face{
		name: "mantle", inner: 2 * math.Pi * r * long, outer: 2 * math.Pi * out * longOut, resistance: round(w.layers(), r, long),
		inside: surface{level, 2 * r, 0}, outside: surface{level, 2 * out, 0},
	}
	if w.Shape == StandingCylinder {
		mantle.inside, mantle.outside = surface{pillar, long, 2 * r}, surface{pillar, longOut, 2 * out}
	}
	if w.OpenEnds {
		return []face{mantle}
	}
	end := face{
		name: "end", inner: math.Pi * r * r, outer: math.Pi * out * out,
		resistance: plane(w.layers(), math.Pi*r*r, 2*math.Pi*r, 0), // the whole rim
		inside:     surface{upright, 2 * r, 0}, outside: surface{upright, 2 * out, 0},
	}
	if w.Shape == LevelCylinder {
		return []face{mantle, end, end}
	}
	top, bottom := end, end
	top.name, bottom.name = "top", "bottom"
	top.inside, top.outside = surface{upward, r / 2, 0}, surface{upward, out / 2, 0} // area over perimeter of a disc
	bottom.inside, bottom.outside = surface{downward, r / 2, 0}, surface{downward, out / 2, 0}
	return []face{mantle, top, bottom}
}

func (w Wall) boxFaces() []face {
	shell, more := w.Shell.Thickness, w.thickness()
	span := func(x float64) [2]float64 { return [2]float64{x - 2*shell, x + 2*more} } // inside and outside [m]
	long, wide, high := span(w.Length), span(w.Width), span(w.Height)
	if w.OpenEnds {
		long = [2]float64{w.Length, w.Length}
	}
	one := func(name string, a, b [2]float64, f form, along func(i int) float64) face {
		edges, corners := a[0]+b[0], 4.0/3 // half of each edge belongs to the face, and a third of each corner
		if w.OpenEnds {
			edges, corners = long[0], 0
		}
		return face{
			name: name, inner: a[0] * b[0], outer: a[1] * b[1], resistance: plane(w.layers(), a[0]*b[0], edges, corners),
			inside: surface{f, along(0), 0}, outside: surface{f, along(1), 0},
		}
	}
	height := func(i int) float64 { return high[i] }
	level := func(i int) float64 { return long[i] * wide[i] / (2 * (long[i] + wide[i])) } // area over perimeter
	side := one("side", long, high, upright, height)
	all := []face{one("top", long, wide, upward, level), one("bottom", long, wide, downward, level), side, side}
	if w.OpenEnds {
		return all
	}
	end := one("end", wide, high, upright, height)
	return append(all, end, end)
}
