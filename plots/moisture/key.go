package moisture

import (
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Key draws the bands one above the other with their levels in %, right of the panel.
func (m *Map) Key() {
	s, b, left := m.p, m.bands, m.p.Box.Max.X+14
	n := canvas.Length(len(b.colors))
	height := min(m.p.Box.Size().Y, n*34)
	bottom := canvas.Middle(m.p.Box).Y - height/2
	m.limitBeside(left, bottom, bottom+height)
	for i, c := range b.colors {
		r := canvas.Rectangle{Min: canvas.Point{X: left, Y: bottom + height*canvas.Length(i)/n}}
		r.Max = canvas.Point{X: left + 16, Y: bottom + height*canvas.Length(i+1)/n}
		s.Fill(r, c)
		s.Lines(canvas.Stroke(palette.Rule, 0.6), append(canvas.Corners(r), r.Min))
		if i == len(b.levels) {
			continue
		}
		text := words.Digits(100*b.levels[i], 3)
		style := s.Style(canvas.TickSize, palette.Ink, i == b.limit)
		if i == b.limit {
			s.Segment(canvas.Stroke(palette.Ink, 2.5), r.Min.X-3, r.Max.Y, r.Max.X+3, r.Max.Y)
		}
		s.Put(style, canvas.Point{X: r.Max.X + 6, Y: r.Max.Y}, canvas.Right, text)
	}
}

// limitBeside names a limit that lies off the map, at the dry or the wet end of the key.
func (m *Map) limitBeside(left, bottom, top canvas.Length) {
	s, b := m.p, m.bands
	unit := canvas.Point{X: left, Y: top + canvas.TickSize*0.8}
	if b.limit < 0 {
		y := bottom - canvas.TickSize*1.2
		if b.below > 0 {
			y = top + canvas.TickSize*1.8
		}
		bold := s.Style(canvas.TickSize, palette.Ink, true)
		s.Put(bold, canvas.Point{X: left, Y: y}, canvas.Right, "limit")
		s.Put(bold, canvas.Point{X: left, Y: y - canvas.TickSize*1.1}, canvas.Right, words.Digits(100*b.limitValue, 3))
		if y > top {
			unit.Y = y + canvas.TickSize*1.2
		}
	}
	s.Put(s.Style(canvas.TickSize, palette.Ink, false), unit, canvas.Right, "%")
}

// KeyRoom is the room for the key right of the panel.
const KeyRoom canvas.Length = 70
