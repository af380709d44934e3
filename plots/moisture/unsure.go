package moisture

import (
	"math"
	"strings"

	"strandry/plots/canvas"
	"strandry/plots/field"
	"strandry/plots/palette"
)

// unsure is where on a map a strand is neither dry nor wet nine times in ten.
type unsure struct {
	dry, wet field.Field         // logarithms of the 90 and the 10 % points of the content over the limit: zero at the borders to the dry and to the wet
	borders  [2][][]canvas.Point // to the dry and to the wet
}

func newUnsure(p *canvas.Panel, g *Grid) *unsure {
	u := &unsure{
		dry: g.over(p, func(j, i int) float64 { return math.Log(g.Ratio[j][i].High) }).Finer(fine),
		wet: g.over(p, func(j, i int) float64 { return math.Log(g.Ratio[j][i].Low) }).Finer(fine),
	}
	u.borders = [2][][]canvas.Point{p.Contours(u.dry, 0), p.Contours(u.wet, 0)}
	return u
}

// borderWords name the borders of what is unsure.
func borderWords() [2]string { return [...]string{"9 in 10 dry", "9 in 10 wet"} }

// Dashes explains the dashed lines of the map; "" where there are none.
func (m *Map) Dashes() string {
	if m.unsure == nil || len(m.unsure.borders[0])+len(m.unsure.borders[1]) == 0 {
		return ""
	}
	words := borderWords()
	return "Dashes: " + strings.Join(words[:], ", ")
}

// border draws the borders of what is unsure, dashed and named where there is room.
func (m *Map) border() {
	if m.unsure == nil {
		return
	}
	var gaps [2]canvas.Rectangle
	for i, word := range borderWords() {
		gaps[i] = m.gap(m.unsure.borders[i], m.style(palette.Ink, false), word, func(r canvas.Rectangle) bool { return m.fits(r, -1, true) && m.off(r, m.unsure.borders[1-i]) })
	}
	for i, lines := range m.unsure.borders {
		m.strokes(lines, canvas.Stroke(palette.Paper, 4), gaps[i])
		m.strokes(lines, canvas.Stroke(palette.Ink, 1.8, 8, 4), gaps[i])
		if gaps[i] != (canvas.Rectangle{}) {
			m.p.Fill(gaps[i], palette.Paper)
			m.p.Put(m.style(palette.Ink, false), canvas.Middle(gaps[i]), canvas.Centred, borderWords()[i])
		}
	}
}

// off tells that lines do not pass through a rectangle.
func (m *Map) off(r canvas.Rectangle, lines [][]canvas.Point) bool {
	for _, line := range lines {
		for _, p := range line {
			if canvas.Holds(r, p) {
				return false
			}
		}
	}
	return true
}
