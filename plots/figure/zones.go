package figure

import (
	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// zones shades the zones of a path along the panel.
func zones(p *canvas.Panel, m *diffusion.Design) {
	from := 0.0
	for i := range m.Path {
		z := &m.Path[i]
		to := from + z.Length
		p.Column(from, to, shadeOf(m, z))
		if i > 0 {
			x := p.AtX(from)
			p.Segment(canvas.Stroke(palette.Rule, 0.8), x, p.Box.Min.Y, x, p.Box.Max.Y)
		}
		from = to
	}
}

// shadeOf tells heated zones from others.
func shadeOf(m *diffusion.Design, z *diffusion.Zone) palette.Colour {
	if z.Air.Temperature > m.StartTemperature+5 {
		return palette.Heated
	}
	return palette.Unheated
}

// nameZones sets the name and the air's temperature of each zone at a height; a name too
// wide for its zone stands in the zone before or after, with a line to it, or nowhere.
func nameZones(p *canvas.Panel, m *diffusion.Design, y canvas.Length, shaded bool) {
	style := p.Style(canvas.TickSize, palette.Quiet, false)
	set := func(at canvas.Point, a canvas.Side, text string, on *diffusion.Zone) {
		if shaded { // a box of the shade hides the grid
			p.Fill(canvas.Grown(canvas.TextBox(style, at, a, text), 2), shadeOf(m, on))
		}
		p.Put(style, at, a, text)
	}
	from, end := 0.0, p.Box.Min.X
	var before, left, right canvas.Length // the left edge of the zone before, and the edges of this one
	for i := range m.Path {
		z := &m.Path[i]
		before = left
		left, right = p.AtX(from), p.AtX(from+z.Length)
		from += z.Length
		text := z.Name + ", " + words.Celsius(z.Air.Temperature)
		if style.Width(text)+10 > right-left {
			text = z.Name
		}
		width := style.Width(text)
		switch {
		case width+10 <= right-left:
			set(canvas.Point{X: (left + right) / 2, Y: y}, canvas.Centred, text, z)
			end = (left+right)/2 + width/2
		case i > 0 && left-width-12 > max(end, before):
			set(canvas.Point{X: left - 8, Y: y}, canvas.Left, text, &m.Path[i-1])
			p.Segment(canvas.Stroke(palette.Quiet, 0.8), left-6, y, (left+right)/2, y)
			end = left
		case i+1 < len(m.Path) && right+width+16 < nameBegins(p, style, &m.Path[i+1], from):
			set(canvas.Point{X: right + 8, Y: y}, canvas.Right, text, &m.Path[i+1])
			p.Segment(canvas.Stroke(palette.Quiet, 0.8), (left+right)/2, y, right+6, y)
			end = right + 8 + width
		}
	}
}

// nameBegins is where the name of a zone that begins at a place [m] stands in it at the earliest; the zone's own
// beginning where it is too narrow.
func nameBegins(p *canvas.Panel, style canvas.TextStyle, z *diffusion.Zone, from float64) canvas.Length {
	left, right := p.AtX(from), p.AtX(from+z.Length)
	width := style.Width(z.Name + ", " + words.Celsius(z.Air.Temperature))
	if width+10 > right-left {
		width = style.Width(z.Name)
	}
	if width+10 > right-left {
		return left
	}
	return (left + right - width) / 2
}
