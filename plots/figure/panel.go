package figure

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// panel is a rectangle with two axes.
type panel struct {
	s    *sheet
	box  vg.Rectangle // of the data
	x, y scale
}

// axes says how a panel is labelled.
type axes struct {
	x, y           scale
	xLabel, yLabel string
	left, right    vg.Length // room beside the data; left 0 to measure
	bare           bool      // no numbers and label on the horizontal axis
	strip          vg.Length // room between the data and the label of the vertical axis
}

const tickLength vg.Length = 5

// about how many ticks go into a length.
func ticksAlong(x vg.Length, horizontal bool) int {
	if horizontal {
		return max(2, int(x/70))
	}
	return max(3, int(x/28))
}

// leftRoom is what the numbers of a vertical axis need.
func (s *sheet) leftRoom(y scale, height vg.Length) vg.Length {
	style := s.style(tickSize, ink(), false)
	widest := vg.Length(0)
	for _, t := range y.ticks(ticksAlong(height, false)) {
		widest = max(widest, style.Width(t.label))
	}
	return widest + tickLength + 5
}

// inside lays the panel into a room.
func (s *sheet) inside(room vg.Rectangle, a axes) *panel {
	box := room
	box.Max.Y -= a.strip
	if a.yLabel != "" {
		box.Max.Y -= labelSize * 1.7
	}
	if !a.bare {
		box.Min.Y += tickLength + tickSize*1.2
		if a.xLabel != "" {
			box.Min.Y += labelSize * 1.35
		}
	}
	if a.left == 0 {
		a.left = s.leftRoom(a.y, box.Size().Y)
	}
	box.Min.X += a.left
	box.Max.X -= a.right
	return &panel{s: s, box: box, x: a.x, y: a.y}
}

func (p *panel) at(x, y float64) vg.Point { return vg.Point{X: p.atX(x), Y: p.atY(y)} }

func (p *panel) atX(x float64) vg.Length {
	return p.box.Min.X + p.box.Size().X*vg.Length(p.x.norm(x))
}

func (p *panel) atY(y float64) vg.Length {
	return p.box.Min.Y + p.box.Size().Y*vg.Length(p.y.norm(y))
}

// grid draws the lines behind the data.
func (p *panel) grid() {
	for _, t := range p.y.ticks(ticksAlong(p.box.Size().Y, false)) {
		if t.label != "" && p.y.holds(t.value) {
			y := p.atY(t.value)
			p.s.StrokeLine2(stroke(faint(), 0.8), p.box.Min.X, y, p.box.Max.X, y)
		}
	}
}

// frame draws the axes, their ticks, numbers and labels.
func (p *panel) frame(a axes) {
	s, b := p.s, p.box
	line, numbers := stroke(rule(), 1), s.style(tickSize, ink(), false)
	s.StrokeLine2(line, b.Min.X, b.Min.Y, b.Max.X, b.Min.Y)
	s.StrokeLine2(line, b.Min.X, b.Min.Y, b.Min.X, b.Max.Y)
	for _, t := range p.y.ticks(ticksAlong(b.Size().Y, false)) {
		y, length := p.atY(t.value), tickLength
		if t.label == "" {
			length /= 2
		}
		s.StrokeLine2(line, b.Min.X-length, y, b.Min.X, y)
		s.put(numbers, vg.Point{X: b.Min.X - tickLength - 3, Y: y}, toLeft(), t.label)
	}
	label := s.style(labelSize, ink(), false)
	if a.yLabel != "" {
		s.put(label, vg.Point{X: b.Min.X - p.outside(a), Y: b.Max.Y + a.strip + labelSize*1.05}, toRight(), a.yLabel)
	}
	p.below(a, line, numbers)
}

// outside is how far the label of the vertical axis begins left of the data.
func (p *panel) outside(a axes) vg.Length {
	if a.left > 0 {
		return a.left
	}
	return p.s.leftRoom(p.y, p.box.Size().Y)
}

func (p *panel) below(a axes, line draw.LineStyle, numbers draw.TextStyle) {
	s, b := p.s, p.box
	end := b.Min.X - 100
	for _, t := range p.x.ticks(ticksAlong(b.Size().X, true)) {
		x, length := p.atX(t.value), tickLength
		if t.label == "" {
			length /= 2
		}
		s.StrokeLine2(line, x, b.Min.Y-length, x, b.Min.Y)
		if a.bare || t.label == "" {
			continue
		}
		if half := numbers.Width(t.label) / 2; x-half > end+5 {
			s.put(numbers, vg.Point{X: x, Y: b.Min.Y - tickLength - 4}, hanging(), t.label)
			end = x + half
		}
	}
	if !a.bare && a.xLabel != "" {
		label := s.style(labelSize, ink(), false)
		s.put(label, vg.Point{X: middle(b).X, Y: b.Min.Y - tickLength - tickSize*1.35}, hanging(), a.xLabel)
	}
}

// line draws a polyline, cut off at the box.
func (p *panel) line(style draw.LineStyle, x, y []float64) {
	c := draw.Canvas{Canvas: p.s.Canvas.Canvas, Rectangle: p.box}
	c.StrokeLines(style, c.ClipLinesXY(p.points(x, y))...)
}

func (p *panel) points(x, y []float64) []vg.Point {
	points := make([]vg.Point, len(x))
	for i := range x {
		points[i] = p.at(x[i], y[i])
	}
	return points
}

// column shades the box between two values of x.
func (p *panel) column(from, to float64, c color.Color) {
	r := p.box
	r.Min.X = max(r.Min.X, p.atX(from))
	r.Max.X = min(r.Max.X, p.atX(to))
	p.s.fill(r, c)
}

// limit draws a horizontal limit.
func (p *panel) limit(y float64) {
	if p.y.holds(y) {
		p.s.StrokeLine2(stroke(ink(), 2, dashed()...), p.box.Min.X, p.atY(y), p.box.Max.X, p.atY(y))
	}
}

// band fills between two lines, cut off at the box.
func (p *panel) band(x, low, high []float64, c color.Color) {
	var points []vg.Point
	for i := range x {
		points = append(points, p.at(x[i], high[i]))
	}
	for i := len(x) - 1; i >= 0; i-- {
		points = append(points, p.at(x[i], low[i]))
	}
	canvas := draw.Canvas{Canvas: p.s.Canvas.Canvas, Rectangle: p.box}
	canvas.FillPolygon(c, canvas.ClipPolygonXY(points))
}

// across draws the horizontal axis alone.
func (p *panel) across(a axes) {
	line := stroke(rule(), 1)
	p.s.StrokeLine2(line, p.box.Min.X, p.box.Min.Y, p.box.Max.X, p.box.Min.Y)
	p.below(a, line, p.s.style(tickSize, ink(), false))
}
