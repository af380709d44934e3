package canvas

import (
	"slices"

	"strandry/plots/field"
	"strandry/plots/palette"
)

// Axes says how a panel is labelled.
type Axes struct {
	X, Y           Scale
	XLabel, YLabel string
	Left, Right    Length // room beside the data [pt]; Left 0 to measure
	Bare           bool   // no numbers and label on the horizontal axis
	Strip          Length // room between the data and the label of the vertical axis [pt]
}

// Panel is a rectangle with two axes.
type Panel struct {
	*Sheet
	Axes
	Box Rectangle // of the data
}

const tickLength Length = 5

// about how many ticks go into a length.
func ticksAlong(x Length, horizontal bool) int {
	if horizontal {
		return max(2, int(x/70))
	}
	return max(3, int(x/28))
}

// LeftRoom is what the numbers of a vertical axis need, which is about so high [pt].
func (s *Sheet) LeftRoom(y Scale, height Length) Length {
	var texts []string
	for _, t := range y.Ticks(ticksAlong(height, false)) {
		texts = append(texts, t.Label)
	}
	return Widest(s.Style(TickSize, palette.Ink, false), texts...) + tickLength + 5
}

// Panel lays a panel into a room.
func (s *Sheet) Panel(room Rectangle, a Axes) *Panel {
	box := room
	box.Max.Y -= a.Strip
	if a.YLabel != "" {
		box.Max.Y -= LabelSize * 1.7
	}
	if !a.Bare {
		box.Min.Y += tickLength + TickSize*1.2
		if a.XLabel != "" {
			box.Min.Y += LabelSize * 1.35
		}
	}
	if a.Left == 0 {
		a.Left = s.LeftRoom(a.Y, box.Size().Y)
	}
	box.Min.X += a.Left
	box.Max.X -= a.Right
	return &Panel{Sheet: s, Axes: a, Box: box}
}

// At is the place of a pair of values.
func (p *Panel) At(x, y float64) Point { return Point{X: p.AtX(x), Y: p.AtY(y)} }

// AtX is the place of a value along the horizontal axis.
func (p *Panel) AtX(x float64) Length {
	return p.Box.Min.X + p.Box.Size().X*Length(p.X.Norm(x))
}

// AtY is the place of a value along the vertical axis.
func (p *Panel) AtY(y float64) Length {
	return p.Box.Min.Y + p.Box.Size().Y*Length(p.Y.Norm(y))
}

// Grid draws level lines behind the data.
func (p *Panel) Grid() {
	for _, t := range p.Y.Ticks(ticksAlong(p.Box.Size().Y, false)) {
		if t.Label != "" && p.Y.Holds(t.Value) {
			p.level(Stroke(palette.Faint, 0.8), t.Value)
		}
	}
}

// UprightGrid draws upright lines behind the data.
func (p *Panel) UprightGrid() {
	for _, t := range p.X.Ticks(ticksAlong(p.Box.Size().X, true)) {
		x := p.AtX(t.Value)
		p.Segment(Stroke(palette.Faint, 0.8), x, p.Box.Min.Y, x, p.Box.Max.Y)
	}
}

// level draws a line across the panel at a value of the vertical axis.
func (p *Panel) level(style LineStyle, y float64) {
	p.Segment(style, p.Box.Min.X, p.AtY(y), p.Box.Max.X, p.AtY(y))
}

// Frame draws the axes, their ticks, numbers and labels.
func (p *Panel) Frame() {
	p.FrameBelow()
	b, line, numbers := p.Box, Stroke(palette.Rule, 1), p.Style(TickSize, palette.Ink, false)
	p.Segment(line, b.Min.X, b.Min.Y, b.Min.X, b.Max.Y)
	for _, t := range p.Y.Ticks(ticksAlong(b.Size().Y, false)) {
		y := p.AtY(t.Value)
		p.Segment(line, b.Min.X-t.length(), y, b.Min.X, y)
		p.Put(numbers, Point{X: b.Min.X - tickLength - 3, Y: y}, Left, t.Label)
	}
	if p.YLabel != "" {
		p.Put(p.Style(LabelSize, palette.Ink, false), Point{X: b.Min.X - p.Left, Y: b.Max.Y + p.Strip + LabelSize*1.05}, Right, p.YLabel)
	}
}

// FrameBelow draws the horizontal axis alone.
func (p *Panel) FrameBelow() {
	b, line, numbers := p.Box, Stroke(palette.Rule, 1), p.Style(TickSize, palette.Ink, false)
	p.Segment(line, b.Min.X, b.Min.Y, b.Max.X, b.Min.Y)
	end := b.Min.X - 100
	for _, t := range p.X.Ticks(ticksAlong(b.Size().X, true)) {
		x := p.AtX(t.Value)
		p.Segment(line, x, b.Min.Y-t.length(), x, b.Min.Y)
		if p.Bare || t.Label == "" {
			continue
		}
		if half := numbers.Width(t.Label) / 2; x-half > end+5 {
			p.Put(numbers, Point{X: x, Y: b.Min.Y - tickLength - 4}, Below, t.Label)
			end = x + half
		}
	}
	if !p.Bare {
		p.Put(p.Style(LabelSize, palette.Ink, false), Point{X: Middle(b).X, Y: b.Min.Y - tickLength - TickSize*1.35}, Below, p.XLabel)
	}
}

// Points are the places of pairs of values.
func (p *Panel) Points(x, y []float64) []Point {
	points := make([]Point, len(x))
	for i := range x {
		points[i] = p.At(x[i], y[i])
	}
	return points
}

// Line draws a line through pairs of values, cut off at the box.
func (p *Panel) Line(style LineStyle, x, y []float64) {
	p.LinesWithin(p.Box, style, p.Points(x, y))
}

// Contours are lines through shares of the panel as lines on it.
func (p *Panel) Contours(f field.Field, level float64) [][]Point {
	var lines [][]Point
	corner, size := p.Box.Min, p.Box.Size()
	for _, line := range f.Contours(level) {
		points := make([]Point, len(line))
		for i, s := range line {
			points[i] = corner.Add(Point{X: size.X * Length(s.U), Y: size.Y * Length(s.V)})
		}
		lines = append(lines, points)
	}
	return lines
}

// Column shades the box between two values of the horizontal axis.
func (p *Panel) Column(from, to float64, c palette.Colour) {
	r := p.Box
	r.Min.X = max(r.Min.X, p.AtX(from))
	r.Max.X = min(r.Max.X, p.AtX(to))
	p.Fill(r, c)
}

// Limit draws a limit across the panel, if it is on the axis.
func (p *Panel) Limit(y float64) {
	if p.Y.Holds(y) {
		p.level(Stroke(palette.Ink, 2, Dashed()...), y)
	}
}

// Band fills between two lines, cut off at the box.
func (p *Panel) Band(x, low, high []float64, c palette.Colour) {
	points, under := p.Points(x, high), p.Points(x, low)
	slices.Reverse(under)
	canvas := p.clipped(p.Box)
	canvas.FillPolygon(c, canvas.ClipPolygonXY(append(points, under...)))
}
