package moisture

import (
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Contours draws the contours, then the borders of what is unsure and the limit, each with its label where there is room.
func (m *Map) Contours() {
	order := []int{}
	for i := range m.bands.levels {
		if i != m.bands.limit {
			order = append(order, i)
		}
	}
	gaps := make([]canvas.Rectangle, len(m.bands.levels))
	if at := m.bands.limit; at >= 0 {
		gaps[at] = m.place(at, m.text(at), true)
	}
	for _, i := range order {
		gaps[i] = m.place(i, m.text(i), false)
	}
	for _, i := range order {
		m.strokes(m.lines[i], canvas.Stroke(m.bands.tone(i), 1), gaps[i])
		m.letter(i, gaps[i], m.bands.tone(i), false)
	}
	m.border()
	if at := m.bands.limit; at >= 0 {
		m.strokes(m.lines[at], canvas.Stroke(palette.Paper, 6), gaps[at])
		m.strokes(m.lines[at], canvas.Stroke(palette.Ink, 3), gaps[at])
		m.letter(at, gaps[at], palette.Ink, true)
	}
}

// text is the label of a level.
func (m *Map) text(level int) string {
	text := words.Digits(100*m.bands.levels[level], 3) + words.NBSP + "%"
	if level == m.bands.limit {
		return "limit " + text
	}
	return text
}

func (m *Map) style(c palette.Colour, bold bool) canvas.TextStyle {
	if bold {
		return m.p.Style(canvas.LabelSize, c, true)
	}
	return m.p.Style(canvas.TickSize, c, false)
}

// place finds a gap for the label of a level, clear of other labels, of the border and, if there is such a place, of other lines. An empty one if there is none.
func (m *Map) place(level int, text string, bold bool) canvas.Rectangle {
	style := m.style(palette.Ink, bold)
	for _, strict := range [...]bool{true, false} {
		if !strict && !bold {
			break
		}
		free := func(r canvas.Rectangle) bool {
			return m.fits(r, level, strict) && (!strict || m.unsure == nil || m.off(r, m.unsure.borders[0]) && m.off(r, m.unsure.borders[1]))
		}
		if r := m.gap(m.lines[level], style, text, free); r != (canvas.Rectangle{}) {
			return r
		}
	}
	return canvas.Rectangle{}
}

// gap finds room for a text on the longest of some lines, near the middle; an empty one if there is none.
func (m *Map) gap(lines [][]canvas.Point, style canvas.TextStyle, text string, free func(r canvas.Rectangle) bool) canvas.Rectangle {
	for _, line := range lines {
		if long(line) < 1.3*style.Width(text) {
			continue
		}
		for _, share := range [...]float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73, 0.2, 0.8, 0.14, 0.86} {
			at := line[int(share*float64(len(line)-1))]
			if r := canvas.Grown(canvas.TextBox(style, at, canvas.Centred, text), 3); free(r) {
				m.p.Take(r)
				return r
			}
		}
	}
	return canvas.Rectangle{}
}

// fits tells that a rectangle lies on the panel, clear of other labels and, if strict, of the lines of other levels.
func (m *Map) fits(r canvas.Rectangle, level int, strict bool) bool {
	if !canvas.Within(r, canvas.Grown(m.p.Box, -4)) || !m.p.Free(r) {
		return false
	}
	for i, lines := range m.lines {
		if strict && i != level && !m.off(r, lines) {
			return false
		}
	}
	return true
}

func long(line []canvas.Point) canvas.Length {
	total := canvas.Length(0)
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		total += max(abs(d.X), abs(d.Y))
	}
	return total
}

func abs(x canvas.Length) canvas.Length { return max(x, -x) }

// strokes draws lines, but not through a label.
func (m *Map) strokes(lines [][]canvas.Point, style canvas.LineStyle, gap canvas.Rectangle) {
	for _, line := range lines {
		var part []canvas.Point
		for _, p := range line {
			if gap != (canvas.Rectangle{}) && canvas.Holds(gap, p) {
				m.p.Lines(style, part)
				part = nil
				continue
			}
			part = append(part, p)
		}
		m.p.Lines(style, part)
	}
}

// letter sets the label of a level into its gap, on the colour of the wetter side.
func (m *Map) letter(level int, gap canvas.Rectangle, c palette.Colour, bold bool) {
	if gap == (canvas.Rectangle{}) {
		return
	}
	ground := m.bands.colors[level+1]
	if bold {
		ground = palette.Paper
	}
	m.p.Fill(gap, ground)
	m.p.Put(m.style(c, bold), canvas.Middle(gap), canvas.Centred, m.text(level))
}
