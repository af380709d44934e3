package figure

import (
	"fmt"
	"math"

	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// plate is a view in its place.
type plate struct {
	view
	corner canvas.Point // the lower left of the insulation, or of the housing where there is none
	apart  shape.Point  // from turn to turn, or from pass to pass [m]; zero where nothing is like its neighbour
	first  shape.Point  // of the first
	every  int          // of turns or passes so many are drawn as one, where they lie closer than can be seen
}

// placed is the view with what is like its neighbour.
func (v view) placed(c *Chamber) plate {
	const seen canvas.Length = 2 // [pt]
	p := plate{view: v, every: 1}
	pitch := c.pitch()
	_, wound := c.Way.(shape.Winding)
	switch {
	case pitch == 0 || wound && v.end:
		return p
	case wound:
		p.apart = shape.Point{X: pitch}
	default:
		p.apart = shape.Point{Y: pitch}
	}
	for _, l := range v.Strokes {
		if l.Of == shape.StrandLine {
			p.first = l.Points[0]
			break
		}
	}
	for _, a := range v.Arcs {
		if v.end && a.Of == shape.StrandLine {
			p.first = a.Centre
			break
		}
	}
	p.every = max(1, int(math.Ceil(float64(seen)/(float64(v.scale)*pitch))))
	return p
}

// drawn tells whether what begins at a point is drawn: all where that can be seen, else one of so many.
func (v *plate) drawn(at shape.Point) bool {
	if v.every == 1 {
		return true
	}
	along := (at.X-v.first.X)*v.apart.X + (at.Y-v.first.Y)*v.apart.Y
	const slack = 1e-6
	return int(math.Floor(along/(v.apart.X*v.apart.X+v.apart.Y*v.apart.Y)+slack))%v.every == 0
}

// at is the place of a point of the view, in metres from the lower left of the housing.
func (v *plate) at(p shape.Point) canvas.Point {
	return canvas.Point{X: v.corner.X + v.scale*canvas.Length(p.X+v.around), Y: v.corner.Y + v.scale*canvas.Length(p.Y+v.around)}
}

func (v *plate) points(all []shape.Point) []canvas.Point {
	out := make([]canvas.Point, len(all))
	for i, p := range all {
		out[i] = v.at(p)
	}
	return out
}

// outer is the insulation's outer face on the page.
func (v *plate) outer() canvas.Rectangle {
	size := canvas.Point{X: v.scale * canvas.Length(v.Width+2*v.around), Y: v.scale * canvas.Length(v.Height+2*v.around)}
	return canvas.Rectangle{Min: v.corner, Max: v.corner.Add(size)}
}

// whole is that and the box.
func (v *plate) whole() canvas.Rectangle {
	return canvas.Rectangle{Min: v.corner, Max: v.corner.Add(canvas.Point{X: v.size(0), Y: v.size(1)})}
}

// arc is a part of a circle as a line on the page.
func (v *plate) arc(a shape.Arc) []canvas.Point {
	const fine, most = 0.4, 0.6 // [rad], of a circle of 1 pt and at most
	n := int(math.Ceil((a.To - a.From) / min(most, fine/math.Sqrt(a.Radius*float64(v.scale)))))
	out := make([]canvas.Point, n+1)
	for i := range out {
		sin, cos := math.Sincos(a.From + (a.To-a.From)*float64(i)/float64(n))
		out[i] = v.at(shape.Point{X: a.Centre.X + a.Radius*cos, Y: a.Centre.Y + a.Radius*sin})
	}
	return out
}

// thinnest is how thin a strand is drawn at least [pt].
const thinnest canvas.Length = 1.1

// paint draws the view.
func (v *plate) paint(s *canvas.Sheet, c *Chamber) {
	round := len(v.Arcs) > 0 && v.Arcs[0].Of == shape.HousingLine
	if v.around > 0 {
		face := canvas.Corners(v.outer())
		if round {
			grown := v.Arcs[0]
			grown.Radius += v.around
			face = v.arc(grown)
		}
		s.Polygon(palette.Faint, face)
		s.Lines(canvas.Stroke(palette.Rule, 0.8), append(face, face[0]))
	}
	inside := palette.Unheated
	if c.Heated {
		inside = palette.Heated
	}
	v.walls(s, inside)
	for _, kind := range [...]shape.Line{shape.DrumLine, shape.RollerLine, shape.StrandLine} {
		for _, a := range v.Arcs {
			if a.Of == kind && v.drawn(a.Centre) {
				v.round(s, a, c.Outline.Strand)
			}
		}
		for _, l := range v.Strokes {
			if l.Of == kind && (kind == shape.DrumLine || v.drawn(l.Points[0])) {
				v.stroke(s, l, c.Outline.Strand)
			}
		}
	}
	if v.box[0] > 0 {
		v.boxed(s)
	}
}

// boxed draws the box, but for a side that is farther off than can be shown.
func (v *plate) boxed(s *canvas.Sheet) {
	r := canvas.Rectangle{Min: v.corner, Max: v.corner.Add(canvas.Point{X: v.scale * canvas.Length(v.box[0]), Y: v.scale * canvas.Length(v.box[1])})}
	corners, dashes := canvas.Corners(r), canvas.Stroke(palette.Ink, 1.4, canvas.Dashed()...)
	for i, open := range [...]bool{false, v.open[0], v.open[1], false} {
		if !open {
			s.Lines(dashes, []canvas.Point{corners[i], corners[(i+1)%len(corners)]})
		}
	}
}

// walls fills the housing, and draws its faces.
func (v *plate) walls(s *canvas.Sheet, inside palette.Colour) {
	var faces [][]canvas.Point
	for _, l := range v.Strokes {
		if l.Of == shape.HousingLine {
			faces = append(faces, v.points(l.Points))
		}
	}
	for _, a := range v.Arcs {
		if a.Of == shape.HousingLine {
			faces = append(faces, v.arc(a))
		}
	}
	for i, face := range faces {
		s.Polygon([...]palette.Colour{palette.Bar, inside}[min(i, 1)], face)
		s.Lines(canvas.Stroke(palette.Quiet, 0.8), append(face, face[0]))
	}
}

// round draws a roller, a drum, or a strand: bent, or cut through.
func (v *plate) round(s *canvas.Sheet, a shape.Arc, strand float64) {
	if a.Of == shape.StrandLine {
		if a.Radius <= strand/2*(1+1e-9) {
			s.Disc(v.at(a.Centre), max(thinnest, v.scale*canvas.Length(a.Radius)), palette.Purple)
			return
		}
		s.Lines(canvas.Stroke(palette.Purple, max(thinnest, v.scale*canvas.Length(strand))), v.arc(a))
		return
	}
	face := v.arc(a)
	s.Polygon(palette.Paper, face)
	s.Lines(canvas.Stroke(palette.Quiet, 1), append(face, face[0]))
}

// stroke draws a drum from the side, or a strand.
func (v *plate) stroke(s *canvas.Sheet, l shape.Stroke, strand float64) {
	line := v.points(l.Points)
	if l.Of == shape.StrandLine {
		s.Lines(canvas.Stroke(palette.Purple, max(thinnest, v.scale*canvas.Length(strand))), line)
		return
	}
	s.Polygon(palette.Paper, line)
	s.Lines(canvas.Stroke(palette.Quiet, 1), append(line, line[0]))
}

// bar is the scale of the view, below it, with what it shows.
func (v *plate) bar(s *canvas.Sheet, c *Chamber, what string, bottom canvas.Length) {
	const about canvas.Length = 90 // [pt]
	long := roundStep(float64(about / v.scale))
	y := bottom - 12
	from, to := v.corner.X, v.corner.X+v.scale*canvas.Length(long)
	line := canvas.Stroke(palette.Ink, 1.4)
	s.Segment(line, from, y, to, y)
	for _, x := range []canvas.Length{from, to} {
		s.Segment(line, x, y-4, x, y+4)
	}
	text := mm(long) + " " + what
	if long >= 1 {
		text = words.Metres(long) + " " + what
	}
	if v.every > 1 {
		text += fmt.Sprintf("; one of %d turns drawn", v.every)
	}
	if v.scale*canvas.Length(c.Outline.Strand) < thinnest {
		text += "; strand wider than it is"
	}
	style := s.Style(canvas.FooterSize, palette.Quiet, false)
	s.Put(style, canvas.Point{X: to + 8, Y: y}, canvas.Right, canvas.Clipped(text, s.Edges().Max.X-canvas.Margin-to-8, style.Width))
}

// roundStep is 1, 2 or 5 times a power of ten, no more than a length.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range [...]float64{5, 2} {
		if m*power <= x {
			return m * power
		}
	}
	return power
}

// arrow draws a line with a head at its end.
func arrow(s *canvas.Sheet, c palette.Colour, line ...canvas.Point) {
	const long, half canvas.Length = 9, 4
	tip, before := line[len(line)-1], line[len(line)-2]
	along := tip.Sub(before)
	along = along.Scale(1 / canvas.Length(math.Hypot(float64(along.X), float64(along.Y))))
	across := canvas.Point{X: -along.Y, Y: along.X}
	foot := tip.Sub(along.Scale(long))
	line[len(line)-1] = foot
	s.Lines(canvas.Stroke(c, 2), line)
	s.Polygon(c, []canvas.Point{tip, foot.Add(across.Scale(half)), foot.Sub(across.Scale(half))})
}

// named is what goes through a port, its colour, and what else is known of it.
func (c *Chamber) named(of shape.Passage) (text, more string, colour palette.Colour) {
	switch of {
	case shape.StrandIn:
		return "strand in", "", palette.Purple
	case shape.StrandOut:
		return "strand out", "", palette.Purple
	case shape.AirIn:
		return "air in", litres(c.Flow), palette.Orange
	}
	return "air out", words.Celsius(c.Temperature), palette.Orange
}
