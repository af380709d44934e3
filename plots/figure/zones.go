package figure

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/diffusion"
)

// zones shades the zones of a path along the panel.
func zones(p *panel, m *diffusion.Design) {
	from := 0.0
	for i := range m.Path {
		z := &m.Path[i]
		to := from + z.Length
		p.column(from, to, shadeOf(m, z))
		if i > 0 {
			x := p.atX(from)
			p.s.StrokeLine2(stroke(rule(), 0.8), x, p.box.Min.Y, x, p.box.Max.Y)
		}
		from = to
	}
}

// shadeOf tells heated zones from others.
func shadeOf(m *diffusion.Design, z *diffusion.Zone) color.NRGBA {
	if z.Air.Temperature > m.StartTemperature+5 {
		return heated()
	}
	return unheated()
}

// nameZones sets the name and the air's temperature of each zone at a height; a name too
// wide for its zone stands in the zone before or after, with a line to it, or nowhere.
func nameZones(p *panel, m *diffusion.Design, y vg.Length, shaded bool) {
	style := p.s.style(tickSize, quiet(), false)
	set := func(at vg.Point, a alignment, text string, on *diffusion.Zone) {
		if shaded { // a box of the shade hides the grid
			p.s.fill(grown(box(style, at, a, text), 2), shadeOf(m, on))
		}
		p.s.put(style, at, a, text)
	}
	from, end := 0.0, p.box.Min.X
	var before, left, right vg.Length // the left edge of the zone before, and the edges of this one
	for i := range m.Path {
		z := &m.Path[i]
		before = left
		left, right = p.atX(from), p.atX(from+z.Length)
		from += z.Length
		text := z.Name + ", " + celsius(z.Air.Temperature)
		if style.Width(text)+10 > right-left {
			text = z.Name
		}
		width := style.Width(text)
		switch {
		case width+10 <= right-left:
			set(vg.Point{X: (left + right) / 2, Y: y}, centred(), text, z)
			end = (left+right)/2 + width/2
		case i > 0 && left-width-12 > max(end, before):
			set(vg.Point{X: left - 8, Y: y}, toLeft(), text, &m.Path[i-1])
			p.s.StrokeLine2(stroke(quiet(), 0.8), left-6, y, (left+right)/2, y)
			end = left
		case i+1 < len(m.Path) && right+width+16 < nameBegins(p, style, &m.Path[i+1], from):
			set(vg.Point{X: right + 8, Y: y}, toRight(), text, &m.Path[i+1])
			p.s.StrokeLine2(stroke(quiet(), 0.8), (left+right)/2, y, right+6, y)
			end = right + 8 + width
		}
	}
}

// nameBegins is where the name of a zone that begins at a place [m] stands in it at the earliest; the zone's own
// beginning where it is too narrow.
func nameBegins(p *panel, style draw.TextStyle, z *diffusion.Zone, from float64) vg.Length {
	left, right := p.atX(from), p.atX(from+z.Length)
	width := style.Width(z.Name + ", " + celsius(z.Air.Temperature))
	if width+10 > right-left {
		width = style.Width(z.Name)
	}
	if width+10 > right-left {
		return left
	}
	return (left + right - width) / 2
}
