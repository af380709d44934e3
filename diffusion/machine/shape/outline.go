package shape

import "math"

// Outline is a way drawn to scale, as plain data.
type Outline struct {
	Strand float64 // diameter, how wide the strand is to be drawn [m]
	Views  []View  // from the side, then from the end
}

// View is one view in metres, from 0 to Width to the right and from 0 to Height upwards: the housing.
type View struct {
	Width, Height float64
	Strokes       []Stroke
	Arcs          []Arc
	Ports         []Port // where strand and air go in and out: all of them in the side view, those of a winding's strand in the end view as well
}

// Line is what a line shows.
type Line int

// What lines show.
const (
	HousingLine Line = iota // outer and inner face
	StrandLine              // centre line, or the strand cut through
	RollerLine
	DrumLine
)

// Point is a place in a view [m].
type Point struct{ X, Y float64 }

// Stroke is a line through points; that of a rectangle has its four corners and leads from the last to the first.
type Stroke struct {
	Of     Line
	Points []Point
}

// Arc is a part of a circle, from one angle to a greater one, counterclockwise from the right [rad]; a whole circle where they are 2π apart.
type Arc struct {
	Of       Line
	Centre   Point
	Radius   float64 // [m]
	From, To float64
}

// Passage is what goes through a port.
type Passage int

// What goes through ports.
const (
	StrandIn Passage = iota
	StrandOut
	AirIn
	AirOut
)

// Port is where strand or air passes the housing.
type Port struct {
	Of     Passage
	At     Point
	Toward Point // direction in which it goes there, of length 1
}

func circle(of Line, centre Point, radius float64) Arc {
	return Arc{of, centre, radius, 0, 2 * math.Pi}
}

func rectangle(of Line, left, low, right, high float64) Stroke {
	return Stroke{Of: of, Points: []Point{{left, low}, {right, low}, {right, high}, {left, high}}}
}

// walls are the outer and the inner face of a housing.
func walls(width, height, wall float64) []Stroke {
	return []Stroke{rectangle(HousingLine, 0, 0, width, height), rectangle(HousingLine, wall, wall, width-wall, height-wall)}
}

// airPorts are those of air that goes from left to right with the strand, and the other way against it.
func airPorts(left, right Point, against bool) []Port {
	if against {
		return []Port{{AirIn, right, Point{-1, 0}}, {AirOut, left, Point{-1, 0}}}
	}
	return []Port{{AirIn, left, Point{1, 0}}, {AirOut, right, Point{1, 0}}}
}

// pointsOfTurn is how many straight pieces draw the half of a turn that is seen from the side.
const pointsOfTurn = 8

// Outline implements [Way]. From the side, the front of each turn of the last layer is seen, from the end each layer as a circle.
func (w Winding) Outline(diameter float64, against bool) (Outline, error) {
	l, err := w.Lead(diameter)
	if err != nil {
		return Outline{}, err
	}
	h := l.Housing
	side := View{Width: h.Length, Height: h.Diameter, Strokes: walls(h.Length, h.Diameter, w.Wall)}
	first, axis := w.Wall+w.Gap+diameter/2, h.Diameter/2
	last := first + w.Turns*w.Pitch
	side.Strokes = append(side.Strokes, rectangle(DrumLine, first-diameter/2, axis-w.Drum/2, last+diameter/2, axis+w.Drum/2))
	side.Strokes = append(side.Strokes, w.fronts(first, axis, diameter)...)
	out := last
	if w.Layers%2 == 0 { // to and fro
		out = first
	}
	beside := h.Diameter - w.Wall - w.Gap/2 // the middle of the air above the strand
	side.Ports = append([]Port{{StrandIn, Point{first, h.Diameter}, Point{0, -1}}, {StrandOut, Point{out, 0}, Point{0, -1}}},
		airPorts(Point{0, beside}, Point{h.Length, beside}, against)...)
	return Outline{Strand: diameter, Views: []View{side, w.fromEnd(h, diameter)}}, nil
}

// fronts are the halves of the turns of the last layer that are seen from the side, from top to bottom.
func (w Winding) fronts(first, axis, d float64) []Stroke {
	r := w.radius(w.Layers-1, d)
	var out []Stroke
	for begin := 0.0; begin < w.Turns; begin++ {
		half := min(0.5, w.Turns-begin)
		points := make([]Point, pointsOfTurn+1)
		for i := range points {
			turn := begin + half*float64(i)/pointsOfTurn
			points[i] = Point{first + turn*w.Pitch, axis + r*math.Cos(2*math.Pi*turn)}
		}
		out = append(out, Stroke{Of: StrandLine, Points: points})
	}
	return out
}

// fromEnd looks along the axis: the strand comes from the left to the top of the drum and goes round it clockwise.
func (w Winding) fromEnd(h Housing, d float64) View {
	r := h.Diameter / 2
	centre := Point{r, r}
	v := View{
		Width: h.Diameter, Height: h.Diameter,
		Arcs: []Arc{circle(HousingLine, centre, r), circle(HousingLine, centre, r-w.Wall), circle(DrumLine, centre, w.Drum/2)},
	}
	for layer := range w.Layers {
		v.Arcs = append(v.Arcs, circle(StrandLine, centre, w.radius(layer, d)))
	}
	inner, outer := w.radius(0, d), w.radius(w.Layers-1, d)
	port := Point{r - math.Sqrt(r*r-inner*inner), r + inner}
	v.Strokes = append(v.Strokes, Stroke{Of: StrandLine, Points: []Point{port, {r, r + inner}}})
	sin, cos := math.Sincos(2 * math.Pi * w.Turns * float64(w.Layers))
	from, away := Point{r + outer*sin, r + outer*cos}, math.Sqrt(r*r-outer*outer)
	leaving := Point{from.X + away*cos, from.Y - away*sin}
	v.Strokes = append(v.Strokes, Stroke{Of: StrandLine, Points: []Point{from, leaving}})
	v.Ports = []Port{{StrandIn, port, Point{1, 0}}, {StrandOut, leaving, Point{cos, -sin}}}
	return v
}
