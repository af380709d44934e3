package figure

import (
	"math"

	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// plate is a view in its place.
type plate struct {
	view
	corner  canvas.Point // the lower left of the insulation, or of the housing where there is none
	thinned bool         // turns or passes that lie closer than can be seen were left out
}

func (v view) placed() plate { return plate{view: v} }

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
	const fine = 0.08 // [rad]
	n := int(math.Ceil((a.To - a.From) / fine))
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
	seen := map[[4]int]bool{}
	for _, kind := range [...]shape.Line{shape.DrumLine, shape.RollerLine, shape.StrandLine} {
		for _, a := range v.Arcs {
			if a.Of == kind && v.fresh(seen, kind, a.Centre, a.Radius) {
				v.round(s, a, c.Outline.Strand)
			}
		}
		for _, l := range v.Strokes {
			if l.Of == kind && v.fresh(seen, kind, l.Points[0], 0) {
				v.stroke(s, l, c.Outline.Strand)
			}
		}
	}
	if v.box[0] > 0 {
		corners := canvas.Corners(canvas.Rectangle{Min: v.corner, Max: v.corner.Add(canvas.Point{X: v.scale * canvas.Length(v.box[0]), Y: v.scale * canvas.Length(v.box[1])})})
		s.Lines(canvas.Stroke(palette.Ink, 1.4, canvas.Dashed()...), append(corners, corners[0]))
	}
}

// fresh tells whether nothing of a kind was drawn at about the same place of the page; what is, is left out.
func (v *plate) fresh(seen map[[4]int]bool, kind shape.Line, at shape.Point, radius float64) bool {
	const cell canvas.Length = 1.6 // [pt]
	p := v.at(at)
	key := [4]int{int(kind), int(math.Round(float64(p.X / cell))), int(math.Round(float64(p.Y / cell))), int(math.Round(radius * float64(v.scale/cell)))}
	if seen[key] && kind == shape.StrandLine {
		v.thinned = true
		return false
	}
	again := seen[key]
	seen[key] = true
	return !again
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
		s.Lines(canvas.Stroke(palette.Quiet, 1), append(face, face[0]))
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
	text := mm(long) + ", " + what
	if v.thinned {
		text += "; not each turn drawn"
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
