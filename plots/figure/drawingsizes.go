package figure

import (
	"cmp"
	"slices"

	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
)

// dimension is a size with its line: below the view, or to its right.
type dimension struct {
	from, to float64 // in the view [m]
	long     float64 // what is told of it [m]
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
	whole := dimension{from: -v.around, to: v.Width + v.around, long: c.Outer[0], off: -v.around, level: 1}
	if v.end {
		whole.long = c.Outer[2]
	}
	switch w := c.Way.(type) {
	case shape.Passes:
		if v.end {
			return []dimension{whole, {from: -v.around, to: v.Height + v.around, long: c.Outer[1], off: v.Width + v.around}}
		}
		left, right := v.rollers()
		whole.level = 3
		return []dimension{
			{from: right.Centre.X - right.Radius, to: right.Centre.X + right.Radius, long: w.Roller, off: right.Centre.Y, level: 1, round: true},
			{from: left.Centre.X, to: right.Centre.X, long: w.Span, off: min(left.Centre.Y, right.Centre.Y), level: 2}, whole,
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
	return []dimension{{from: middle - inner/2, to: middle + inner/2, long: inner, off: v.Height / 2, level: 1, round: true}, whole}
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
	if v.end {
		y -= v.spouts(-1)
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
	for _, d := range v.sizes {
		if d.level == 0 {
			v.upright(s, d)
			continue
		}
		y := v.height(d)
		from, to := v.at(shape.Point{X: d.from, Y: d.off}), v.at(shape.Point{X: d.to, Y: d.off})
		for _, p := range []canvas.Point{from, to} {
			s.Segment(thin, p.X, p.Y, p.X, y-4)
			s.Segment(line, p.X-3, y-3, p.X+3, y+3)
		}
		s.Segment(line, from.X, y, to.X, y)
	}
	style := s.Style(canvas.TickSize, palette.Ink, false)
	for _, d := range v.sizes {
		if d.level == 0 {
			continue
		}
		text := mm(d.long)
		if d.round {
			text = "Ø " + text
		}
		from, to := v.at(shape.Point{X: d.from}), v.at(shape.Point{X: d.to})
		at, side := canvas.Point{X: (from.X + to.X) / 2, Y: v.height(d)}, canvas.Centred
		if style.Width(text)+16 > to.X-from.X {
			at.X, side = from.X-8, canvas.Left
		}
		s.Fill(canvas.Grown(canvas.TextBox(style, at, side, text), 3), palette.Paper)
		s.Put(style, at, side, text)
	}
}

// height is where the line of a size lies on the page.
func (v *plate) height(d dimension) canvas.Length {
	return v.base() - level*(canvas.Length(d.level)-0.4)
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
	s.Put(s.Style(canvas.TickSize, palette.Ink, false), canvas.Point{X: x + 7, Y: (from.Y + to.Y) / 2}, canvas.Right, mm(d.long))
}

// passages draws what goes in and out, with its names.
func (v *plate) passages(s *canvas.Sheet, c *Chamber, row canvas.Rectangle) {
	if v.end {
		for _, port := range v.ports {
			v.wound(s, c, port, row)
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
	edge := v.whole().Min.X
	if side > 0 {
		edge = v.whole().Max.X
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
		const long, bend = 82, 5
		line := []canvas.Point{{X: edge + long*side, Y: y}, {X: edge + (bend+7)*side, Y: y}, {X: edge + bend*side, Y: at.Y}, at}
		switch {
		case port.Of == shape.StrandOut || port.Of == shape.AirOut:
			slices.Reverse(line)
			arrow(s, colour, line...)
		case len(ports) > 1 && v.size(1) < pitchPorts: // the heads apart, where the ports are hardly
			s.Lines(canvas.Stroke(colour, 2), line[1:])
			arrow(s, colour, line[:2]...)
		default:
			arrow(s, colour, line...)
		}
		middle := canvas.Point{X: edge + (long+bend+7)/2*side, Y: y + 5}
		s.Put(s.Style(canvas.TickSize, palette.Legible(colour), true), middle, canvas.Above, word)
		middle.Y = y - 5
		s.Put(s.Style(canvas.TickSize, palette.Legible(colour), false), middle, canvas.Below, more)
	}
}

// wound draws what goes in or out in any direction, and names it where there is room.
func (v *plate) wound(s *canvas.Sheet, c *Chamber, port shape.Port, row canvas.Rectangle) {
	const long canvas.Length = 24
	at, toward := v.at(port.At), canvas.Point{X: canvas.Length(port.Toward.X), Y: canvas.Length(port.Toward.Y)}
	word, _, colour := c.named(port.Of)
	style := s.Style(canvas.TickSize, palette.Legible(colour), true)
	if port.Of == shape.StrandIn { // from the left, above what is round there
		far := v.outer().Min.X - 44
		arrow(s, colour, canvas.Point{X: far, Y: at.Y}, at)
		v.name(s, style, word, canvas.Point{X: far - 4, Y: at.Y + 5}, row, canvas.AboveRight, canvas.BelowRight)
		return
	}
	out := canvas.Length(v.around)*v.scale + long
	far := at.Add(toward.Scale(out))
	arrow(s, colour, at, far)
	beyond := far.Add(toward.Scale(5))
	switch {
	case toward.X > 0.7:
		v.name(s, style, word, beyond, row, canvas.Right, canvas.AboveRight, canvas.BelowRight)
	case toward.X < -0.7:
		v.name(s, style, word, beyond, row, canvas.Left, canvas.AboveLeft, canvas.BelowLeft)
	case toward.Y > 0:
		v.name(s, style, word, beyond, row, canvas.Above, canvas.AboveRight, canvas.AboveLeft)
	default:
		v.name(s, style, word, beyond, row, canvas.BelowRight, canvas.Right, canvas.BelowLeft, canvas.Left)
	}
}

// name sets a word at the first side that is free, or nowhere.
func (v *plate) name(s *canvas.Sheet, style canvas.TextStyle, word string, at canvas.Point, row canvas.Rectangle, sides ...canvas.Side) {
	for _, side := range sides {
		r := canvas.Grown(canvas.TextBox(style, at, side, word), 2)
		if canvas.Within(r, canvas.Grown(row, 4)) && s.Free(r) {
			if outer := v.outer(); r.Max.Y < outer.Min.Y || r.Min.X > outer.Max.X { // thin lines of sizes may pass there
				s.Fill(r, palette.Paper)
			}
			s.Put(style, at, side, word)
			return
		}
	}
}
