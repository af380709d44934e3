package figure

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
)

// dimension is a size with its line: below the view, or to its right.
type dimension struct {
	from, to float64 // in the view [m]
	off      float64 // where its feature ends, from which the thin lines go [m]
	level    int     // of lines below one another, from 1; 0 for one to the right
	round    bool    // a diameter
}

// levels is how many lines of sizes stand below one another.
func levels(all []dimension) (n int) {
	for _, d := range all {
		n = max(n, d.level)
	}
	return n
}

// dimensions are the sizes that are told of a view: those of what is inside nearer than those of the whole.
func (v *view) dimensions(c *Chamber) []dimension {
	whole := dimension{from: -v.around, to: v.Width + v.around, off: -v.around, level: 1}
	switch w := c.Way.(type) {
	case shape.Passes:
		if v.end {
			return []dimension{whole, {from: -v.around, to: v.Height + v.around, off: v.Width + v.around}}
		}
		left, right := v.rollers()
		whole.level = 3
		return []dimension{
			{from: right.Centre.X - right.Radius, to: right.Centre.X + right.Radius, off: right.Centre.Y, level: 1, round: true},
			{from: left.Centre.X, to: right.Centre.X, off: min(left.Centre.Y, right.Centre.Y), level: 2}, whole,
		}
	case shape.Winding:
		if v.end {
			return v.rings(w.Drum, whole)
		}
	case shape.Tube:
		if v.end {
			return v.rings(w.Bore, whole)
		}
	}
	return []dimension{whole}
}

// rings are an inner diameter in the middle and the outer one.
func (v *view) rings(inner float64, whole dimension) []dimension {
	middle := v.Width / 2
	whole.level, whole.round, whole.off = 2, true, v.Height/2
	return []dimension{{from: middle - inner/2, to: middle + inner/2, off: v.Height / 2, level: 1, round: true}, whole}
}

// rollers are one of the left row and one of the right; the same where there is but one.
func (v *view) rollers() (left, right shape.Arc) {
	for _, a := range v.Arcs {
		if a.Of != shape.RollerLine {
			continue
		}
		if left.Radius == 0 || a.Centre.X < left.Centre.X {
			left = a
		}
		if a.Centre.X > right.Centre.X {
			right = a
		}
	}
	return left, right
}

// base is from where the lines of sizes go down.
func (v *plate) base() canvas.Length {
	y := v.whole().Min.Y - shorter/2
	if v.end && len(v.ports) > 0 {
		y -= spout
	}
	return y
}

// lowest is the lower edge of the sizes.
func (v *plate) lowest() canvas.Length {
	return v.base() - level*canvas.Length(levels(v.sizes)) - shorter/2
}

// dimension draws the sizes, the lines first.
func (v *plate) dimension(s *canvas.Sheet) {
	thin, line := canvas.Stroke(palette.Rule, 0.6), canvas.Stroke(palette.Quiet, 0.9)
	style := s.Style(canvas.TickSize, palette.Ink, false)
	for _, d := range v.sizes {
		if d.level == 0 {
			v.upright(s, d)
			continue
		}
		y := v.base() - level*(canvas.Length(d.level)-0.4)
		from, to := v.at(shape.Point{X: d.from, Y: d.off}), v.at(shape.Point{X: d.to, Y: d.off})
		for _, p := range []canvas.Point{from, to} {
			s.Segment(thin, p.X, p.Y, p.X, y-4)
			s.Segment(line, p.X-3, y-3, p.X+3, y+3)
		}
		s.Segment(line, from.X, y, to.X, y)
		text := mm(d.to - d.from)
		if d.round {
			text = "Ø " + text
		}
		middle := canvas.Point{X: (from.X + to.X) / 2, Y: y}
		if style.Width(text)+16 < to.X-from.X {
			s.Fill(canvas.Grown(canvas.TextBox(style, middle, canvas.Centred, text), 3), palette.Paper)
			s.Put(style, middle, canvas.Centred, text)
			continue
		}
		beside := canvas.Point{X: from.X - 8, Y: y}
		s.Fill(canvas.Grown(canvas.TextBox(style, beside, canvas.Left, text), 2), palette.Paper)
		s.Put(style, beside, canvas.Left, text)
	}
}

// upright draws a size to the right of the view.
func (v *plate) upright(s *canvas.Sheet, d dimension) {
	thin, line := canvas.Stroke(palette.Rule, 0.6), canvas.Stroke(palette.Quiet, 0.9)
	x := v.whole().Max.X + 14
	from, to := v.at(shape.Point{X: d.off, Y: d.from}), v.at(shape.Point{X: d.off, Y: d.to})
	for _, p := range []canvas.Point{from, to} {
		s.Segment(thin, p.X, p.Y, x+4, p.Y)
		s.Segment(line, x-3, p.Y-3, x+3, p.Y+3)
	}
	s.Segment(line, x, from.Y, x, to.Y)
	s.Put(s.Style(canvas.TickSize, palette.Ink, false), canvas.Point{X: x + 7, Y: (from.Y + to.Y) / 2}, canvas.Right, mm(d.to-d.from))
}

// passages draws what goes in and out, with its names.
func (v *plate) passages(s *canvas.Sheet, c *Chamber, row canvas.Rectangle) {
	if v.end {
		for _, port := range v.ports {
			v.spouts(s, c, port, row)
		}
		return
	}
	for _, at := range []float64{-1, 1} {
		var here []shape.Port
		for _, port := range v.ports {
			if v.beside(port) == at {
				here = append(here, port)
			}
		}
		slices.SortStableFunc(here, func(a, b shape.Port) int { return cmp.Compare(a.At.Y, b.At.Y) })
		v.beneath(s, c, here, canvas.Length(at))
	}
}

// beneath names ports at one end below one another, each with an arrow.
func (v *plate) beneath(s *canvas.Sheet, c *Chamber, ports []shape.Port, side canvas.Length) {
	edge, text := v.whole().Min.X, canvas.Left
	if side > 0 {
		edge, text = v.whole().Max.X, canvas.Right
	}
	heights := make([]canvas.Length, len(ports))
	slack := canvas.Length(0)
	for i, port := range ports {
		heights[i] = v.at(port.At).Y
		if i > 0 {
			heights[i] = max(heights[i], heights[i-1]+pitchPorts)
		}
		slack += (heights[i] - v.at(port.At).Y) / canvas.Length(len(ports))
	}
	for i, port := range ports {
		at, y := v.at(port.At), heights[i]-slack
		word, more, colour := c.named(port.Of)
		line := []canvas.Point{{X: edge + 36*side, Y: y}, {X: edge + 22*side, Y: y}, {X: edge + 14*side, Y: at.Y}, at}
		if port.Of == shape.StrandOut || port.Of == shape.AirOut {
			slices.Reverse(line)
		}
		arrow(s, colour, line...)
		name := s.Style(canvas.TickSize, palette.Legible(colour), true)
		up := canvas.Length(0)
		if more != "" {
			up = canvas.TickSize * 0.6
			s.Put(s.Style(canvas.TickSize, palette.Legible(colour), false), canvas.Point{X: edge + 40*side, Y: y - up}, text, more)
		}
		s.Put(name, canvas.Point{X: edge + 40*side, Y: y + up}, text, word)
	}
}

// spouts draws what goes in or out in any direction, and names it where there is room.
func (v *plate) spouts(s *canvas.Sheet, c *Chamber, port shape.Port, row canvas.Rectangle) {
	const long canvas.Length = 24
	at, toward := v.at(port.At), canvas.Point{X: canvas.Length(port.Toward.X), Y: canvas.Length(port.Toward.Y)}
	far, outward := at.Add(toward.Scale(long)), toward
	if port.Of == shape.StrandIn {
		far, outward = at.Sub(toward.Scale(long)), toward.Scale(-1)
	}
	word, _, colour := c.named(port.Of)
	if port.Of == shape.StrandIn {
		arrow(s, colour, far, at)
	} else {
		arrow(s, colour, at, far)
	}
	style := s.Style(canvas.TickSize, palette.Legible(colour), true)
	beyond := far.Add(outward.Scale(5))
	sides := []canvas.Side{canvas.AboveRight, canvas.AboveLeft, canvas.BelowRight, canvas.BelowLeft}
	if math.Abs(float64(outward.X)) > math.Abs(float64(outward.Y)) {
		sides = []canvas.Side{canvas.Left, canvas.Above}
		if outward.X > 0 {
			sides = []canvas.Side{canvas.Right, canvas.Above}
		}
	}
	for _, side := range sides {
		r := canvas.Grown(canvas.TextBox(style, beyond, side, word), 2)
		if canvas.Within(r, row) && s.Free(r) {
			s.Put(style, beyond, side, word)
			return
		}
	}
}
