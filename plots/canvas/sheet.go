package canvas

import (
	"image"
	"math"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/plots/palette"
)

// Sheet is the paper of one drawing, which remembers where words stand.
type Sheet struct {
	vg    draw.Canvas
	fonts text.Plain
	taken []Rectangle // by labels
}

func newSheet(c vg.Canvas, height Length) *Sheet {
	return &Sheet{vg: draw.NewCanvas(c, Width, height), fonts: fonts()}
}

// Edges are those of the paper.
func (s *Sheet) Edges() Rectangle { return s.vg.Rectangle }

// Style is a style of type of a size [pt].
func (s *Sheet) Style(size Length, c palette.Colour, bold bool) TextStyle {
	return style(s.fonts, size, c, bold)
}

// Fill fills a rectangle; nothing where it has no extent.
func (s *Sheet) Fill(r Rectangle, c palette.Colour) {
	if r.Size().X > 0 && r.Size().Y > 0 {
		s.Polygon(c, Corners(r))
	}
}

// Polygon fills what lies within some points.
func (s *Sheet) Polygon(c palette.Colour, points []Point) { s.vg.FillPolygon(c, points) }

// Disc fills a circle.
func (s *Sheet) Disc(at Point, radius Length, c palette.Colour) {
	var path vg.Path
	path.Move(at.Add(Point{X: radius}))
	path.Arc(at, radius, 0, 2*math.Pi)
	path.Close()
	s.vg.SetColor(c)
	s.vg.Fill(path)
}

// Segment draws a straight line.
func (s *Sheet) Segment(style LineStyle, x1, y1, x2, y2 Length) {
	s.vg.StrokeLine2(style, x1, y1, x2, y2)
}

// Cross draws two strokes that cross at a point and reach so far to each side.
func (s *Sheet) Cross(style LineStyle, at Point, reach Length) {
	for _, turn := range [...]Length{reach, -reach} {
		s.Segment(style, at.X-reach, at.Y-turn, at.X+reach, at.Y+turn)
	}
}

// Lines draws a line through points.
func (s *Sheet) Lines(style LineStyle, points []Point) { s.vg.StrokeLines(style, points) }

// clipped draws on a part of the sheet alone.
func (s *Sheet) clipped(r Rectangle) draw.Canvas {
	return draw.Canvas{Canvas: s.vg.Canvas, Rectangle: r}
}

// LinesWithin draws a line through points, cut off at the edges of a rectangle.
func (s *Sheet) LinesWithin(r Rectangle, style LineStyle, points []Point) {
	c := s.clipped(r)
	c.StrokeLines(style, c.ClipLinesXY(points)...)
}

// Picture sets a picture of dots.
func (s *Sheet) Picture(r Rectangle, dots image.Image) { s.vg.DrawImage(r, dots) }

// Take keeps a place free of words that look for one.
func (s *Sheet) Take(r Rectangle) { s.taken = append(s.taken, r) }

// Free tells whether no word has taken any of the rectangle.
func (s *Sheet) Free(r Rectangle) bool {
	return !slices.ContainsFunc(s.taken, func(t Rectangle) bool {
		return t.Min.X < r.Max.X && r.Min.X < t.Max.X && t.Min.Y < r.Max.Y && r.Min.Y < t.Max.Y
	})
}

// Widest is the width of the widest of some texts.
func Widest(style TextStyle, texts ...string) Length {
	widest := Length(0)
	for _, t := range texts {
		widest = max(widest, style.Width(t))
	}
	return widest
}

// framed draws headline and foot, and returns the room between them.
func (s *Sheet) framed(headline, foot string) Rectangle {
	room := Rectangle{
		Min: s.Edges().Min.Add(Point{X: Margin, Y: Margin * 0.7}),
		Max: s.Edges().Max.Sub(Point{X: Margin, Y: Margin * 0.8}),
	}
	width := room.Size().X
	style, lines := fitted(s.Style(headlineSize, palette.Ink, true), headline, width, 2, 0.87)
	for _, line := range lines {
		room.Max.Y -= style.Font.Size * 1.2
		s.Put(style, Point{X: room.Min.X, Y: room.Max.Y + style.Font.Size*0.25}, AboveRight, line)
	}
	room.Max.Y -= 6

	style, lines = fitted(s.Style(FooterSize, palette.Quiet, false), foot, width, 1, 0.88)
	for i := len(lines) - 1; i >= 0; i-- {
		s.Put(style, room.Min.Add(Point{Y: 1}), AboveRight, lines[i])
		room.Min.Y += FooterSize * 1.2
	}
	room.Min.Y += 3
	s.Segment(Stroke(palette.Faint, 1), room.Min.X, room.Min.Y, room.Max.X, room.Min.Y)
	room.Min.Y += 6
	return room
}
