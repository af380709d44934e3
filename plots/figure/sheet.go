package figure

import (
	"image/color"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sheet is the page that a figure is drawn on.
type sheet struct {
	draw.Canvas
	typesetter
	taken []vg.Rectangle // by labels
}

func newSheet(c vg.Canvas, width, height vg.Length) *sheet {
	s := &sheet{Canvas: draw.NewCanvas(c, width, height), typesetter: newTypesetter()}
	s.fill(s.Rectangle, paper())
	return s
}

// framed draws headline and foot, and returns the room between them.
func (s *sheet) framed(f Frame, headline string) vg.Rectangle {
	room := vg.Rectangle{
		Min: s.Min.Add(vg.Point{X: margin, Y: margin * 0.7}),
		Max: s.Max.Sub(vg.Point{X: margin, Y: margin * 0.8}),
	}
	width := room.Size().X
	style := s.style(headlineSize, ink(), true)
	lines := wrap(headline, width, style.Width)
	if len(lines) > 2 {
		style.Font.Size *= 0.87
		lines = wrap(headline, width, style.Width)
	}
	for _, line := range lines {
		room.Max.Y -= style.Font.Size * 1.2
		s.put(style, vg.Point{X: room.Min.X, Y: room.Max.Y + style.Font.Size*0.25}, alignment{}, line)
	}
	room.Max.Y -= 6

	style = s.style(footerSize, quiet(), false)
	if lines = wrap(f.foot(), width, style.Width); len(lines) > 1 {
		style.Font.Size *= 0.88
		lines = wrap(f.foot(), width, style.Width)
	}
	for i := len(lines) - 1; i >= 0; i-- {
		s.put(style, room.Min.Add(vg.Point{Y: 1}), alignment{}, lines[i])
		room.Min.Y += footerSize * 1.2
	}
	room.Min.Y += 3
	s.StrokeLine2(stroke(faint(), 1), room.Min.X, room.Min.Y, room.Max.X, room.Min.Y)
	room.Min.Y += 6
	return room
}

// wrap breaks text into lines no wider than the width.
func wrap(text string, width vg.Length, measure func(string) vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && measure(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// clipped shortens text to the width.
func clipped(text string, width vg.Length, measure func(string) vg.Length) string {
	if measure(text) <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ,") + "…"; measure(short) <= width {
			return short
		}
	}
	return ""
}

func (s *sheet) fill(r vg.Rectangle, c color.Color) {
	if r.Size().X <= 0 || r.Size().Y <= 0 {
		return
	}
	s.SetColor(c)
	s.Fill(r.Path())
}

// alignment of a text about its point.
type alignment struct{ x, y float64 }

func toRight() alignment { return alignment{0, -0.5} }
func toLeft() alignment  { return alignment{-1, -0.5} }
func centred() alignment { return alignment{-0.5, -0.5} }
func hanging() alignment { return alignment{-0.5, -1} }

// box is the rectangle that the text would take, from baseline to capitals.
func box(style draw.TextStyle, at vg.Point, a alignment, text string) vg.Rectangle {
	w, h := style.Width(text), style.Font.Size*0.72
	min := vg.Point{X: at.X + w*vg.Length(a.x), Y: at.Y + h*vg.Length(a.y)}
	return vg.Rectangle{Min: min, Max: min.Add(vg.Point{X: w, Y: h})}
}

// put sets one line of text so that its capitals are aligned as asked.
func (s *sheet) put(style draw.TextStyle, at vg.Point, a alignment, text string) {
	if text == "" {
		return
	}
	r := box(style, at, a, text)
	s.SetColor(style.Color)
	at = r.Min
	for _, part := range raisedParts(text) {
		f, y := style.Font, at.Y
		if part.raised {
			f.Size *= 0.68
			y += style.Font.Size * 0.36
		}
		face := s.Fonts.Lookup(f, f.Size)
		s.FillString(face, vg.Point{X: at.X, Y: y}, part.text)
		at.X += face.Width(part.text)
	}
	s.take(r)
}

// raisedPart is a part of a text, which may be raised.
type raisedPart struct {
	text   string
	raised bool
}

// raisedParts splits a text where exponents begin and end, of whose letters the typeface has but some: they are set as small plain ones.
func raisedParts(text string) []raisedPart {
	var out []raisedPart
	for _, r := range text {
		plain, raised := r, false
		if i := slices.Index(exponents(), r); i >= 0 {
			plain, raised = []rune("0123456789−")[i], true
		}
		if n := len(out); n == 0 || out[n-1].raised != raised {
			out = append(out, raisedPart{raised: raised})
		}
		out[len(out)-1].text += string(plain)
	}
	return out
}

// exponents are the raised letters for the digits and the minus.
func exponents() []rune { return []rune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻") }

func (s *sheet) take(r vg.Rectangle) { s.taken = append(s.taken, r) }

// grown is the rectangle with so much more on each side.
func grown(r vg.Rectangle, by vg.Length) vg.Rectangle {
	d := vg.Point{X: by, Y: by}
	return vg.Rectangle{Min: r.Min.Sub(d), Max: r.Max.Add(d)}
}

// free tells whether no label has taken any of the rectangle.
func (s *sheet) free(r vg.Rectangle) bool {
	for _, t := range s.taken {
		if t.Min.X < r.Max.X && r.Min.X < t.Max.X && t.Min.Y < r.Max.Y && r.Min.Y < t.Max.Y {
			return false
		}
	}
	return true
}

func middle(r vg.Rectangle) vg.Point { return r.Min.Add(r.Max).Scale(0.5) }
