package canvas

import (
	"slices"
	"strings"
)

// Side is where a text stands about its point.
type Side int

// The sides.
const (
	Right Side = iota
	Left
	Centred
	Below
	Above
	AboveRight
	AboveLeft
	BelowRight
	BelowLeft
)

// shift is by how much of its width and height a text is moved from the upper right.
func (s Side) shift() (x, y Length) {
	at := [...][2]Length{
		Right: {0, -0.5}, Left: {-1, -0.5}, Centred: {-0.5, -0.5}, Below: {-0.5, -1}, Above: {-0.5, 0},
		AboveRight: {0, 0}, AboveLeft: {-1, 0}, BelowRight: {0, -1}, BelowLeft: {-1, -1},
	}[s]
	return at[0], at[1]
}

// TextBox is the rectangle that the text would take, from baseline to capitals.
func TextBox(style TextStyle, at Point, side Side, text string) Rectangle {
	w, h := style.Width(text), style.Font.Size*0.72
	x, y := side.shift()
	corner := Point{X: at.X + w*x, Y: at.Y + h*y}
	return Rectangle{Min: corner, Max: corner.Add(Point{X: w, Y: h})}
}

// Put sets one line of text so that its capitals are aligned as asked.
func (s *Sheet) Put(style TextStyle, at Point, side Side, text string) {
	if text == "" {
		return
	}
	r := TextBox(style, at, side, text)
	s.vg.SetColor(style.Color)
	at = r.Min
	for _, part := range raisedParts(text) {
		f, y := style.Font, at.Y
		if part.raised {
			f.Size *= 0.68
			y += style.Font.Size * 0.36
		}
		face := s.fonts.Fonts.Lookup(f, f.Size)
		s.vg.FillString(face, Point{X: at.X, Y: y}, part.text)
		at.X += face.Width(part.text)
	}
	s.Take(r)
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

// fitted breaks a text into lines, in smaller type where there would be more of them than so many.
func fitted(style TextStyle, text string, width Length, most int, smaller Length) (TextStyle, []string) {
	lines := Wrap(text, width, style.Width)
	if len(lines) > most {
		style.Font.Size *= smaller
		lines = Wrap(text, width, style.Width)
	}
	return style, lines
}

// Wrap breaks text into lines no wider than the width.
func Wrap(text string, width Length, measure func(string) Length) []string {
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

// Clipped shortens text to the width.
func Clipped(text string, width Length, measure func(string) Length) string {
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
