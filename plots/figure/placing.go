package figure

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// draw draws the contours, then the borders of the belt and the limit, each with its label where there is room.
func (m *filled) draw() {
	order := []int{}
	for i := range m.bands.levels {
		if i != m.bands.limit {
			order = append(order, i)
		}
	}
	gaps := make([]vg.Rectangle, len(m.bands.levels))
	if at := m.bands.limit; at >= 0 {
		gaps[at] = m.place(at, m.text(at), true)
	}
	for _, i := range order {
		gaps[i] = m.place(i, m.text(i), false)
	}
	for _, i := range order {
		m.strokes(m.lines[i], stroke(m.tone(i), 1), gaps[i])
		m.letter(i, gaps[i], m.tone(i), false)
	}
	m.borders()
	if at := m.bands.limit; at >= 0 {
		m.strokes(m.lines[at], stroke(paper(), 6), gaps[at])
		m.strokes(m.lines[at], stroke(ink(), 3), gaps[at])
		m.letter(at, gaps[at], ink(), true)
	}
}

// tone is a colour that shows on both bands beside a contour.
func (m *filled) tone(level int) color.NRGBA {
	c := m.bands.colors[level+1]
	if luminance(c) < 0.25 {
		return paper()
	}
	return ink()
}

// luminance is the relative luminance of a colour, 0 to 1 (IEC 61966-2-1).
func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func (m *filled) text(level int) string {
	text := digits(100*m.bands.levels[level], 3) + nbsp + "%"
	if level == m.bands.limit {
		return "limit " + text
	}
	return text
}

func (m *filled) style(c color.Color, bold bool) draw.TextStyle {
	if bold {
		return m.p.s.style(labelSize, c, true)
	}
	return m.p.s.style(tickSize, c, false)
}

// place finds a gap for the label of a level, clear of other labels, of the border and, if there is such a place, of other lines. An empty one if there is none.
func (m *filled) place(level int, text string, bold bool) vg.Rectangle {
	style := m.style(ink(), bold)
	for _, strict := range [...]bool{true, false} {
		if !strict && !bold {
			break
		}
		free := func(r vg.Rectangle) bool { return m.fits(r, level, strict) && (!strict || m.offBelt(r)) }
		if r := m.gap(m.lines[level], style, text, free); r != (vg.Rectangle{}) {
			return r
		}
	}
	return vg.Rectangle{}
}

// gap finds room for a text on the longest of some lines, near the middle; an empty one if there is none.
func (m *filled) gap(lines [][]vg.Point, style draw.TextStyle, text string, free func(r vg.Rectangle) bool) vg.Rectangle {
	for _, line := range lines {
		if long(line) < 1.3*style.Width(text) {
			continue
		}
		for _, share := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73, 0.2, 0.8, 0.14, 0.86} {
			at := line[int(share*float64(len(line)-1))]
			if r := grown(box(style, at, centred(), text), 3); free(r) {
				m.p.s.take(r)
				return r
			}
		}
	}
	return vg.Rectangle{}
}

// offBelt tells that the borders of the belt do not pass through a rectangle.
func (m *filled) offBelt(r vg.Rectangle) bool {
	return m.belt == nil || m.off(r, m.belt.lines[0]) && m.off(r, m.belt.lines[1])
}

func (m *filled) fits(r vg.Rectangle, level int, strict bool) bool {
	b := grown(m.p.box, -4)
	if r.Min.X < b.Min.X || r.Min.Y < b.Min.Y || r.Max.X > b.Max.X || r.Max.Y > b.Max.Y || !m.p.s.free(r) {
		return false
	}
	if !strict {
		return true
	}
	for i, lines := range m.lines {
		for _, line := range lines {
			for _, p := range line {
				if i != level && inside(p, r) {
					return false
				}
			}
		}
	}
	return true
}

func inside(p vg.Point, r vg.Rectangle) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

func long(line []vg.Point) vg.Length {
	total := vg.Length(0)
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		total += max(abs(d.X), abs(d.Y))
	}
	return total
}

func abs(x vg.Length) vg.Length { return max(x, -x) }

// strokes draws lines, but not through a label.
func (m *filled) strokes(lines [][]vg.Point, style draw.LineStyle, gap vg.Rectangle) {
	for _, line := range lines {
		var part []vg.Point
		for _, p := range line {
			if gap != (vg.Rectangle{}) && inside(p, gap) {
				m.p.s.StrokeLines(style, part)
				part = nil
				continue
			}
			part = append(part, p)
		}
		m.p.s.StrokeLines(style, part)
	}
}

// letter sets the label of a level into its gap, on the colour of the wetter side.
func (m *filled) letter(level int, gap vg.Rectangle, c color.NRGBA, bold bool) {
	if gap == (vg.Rectangle{}) {
		return
	}
	ground := m.bands.colors[level+1]
	if bold {
		ground = paper()
	}
	m.p.s.fill(gap, ground)
	m.p.s.put(m.style(c, bold), middle(gap), centred(), m.text(level))
}
