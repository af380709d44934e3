package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// belt is where on a map a strand is neither dry nor wet nine times in ten.
type belt struct {
	dry, wet field           // logarithms of the 90 and the 10 % points of the content over the limit: zero at the borders of the belt
	lines    [2][][]vg.Point // its borders to the dry and to the wet
}

// doubt lays the belt over the map; nil for none.
func (m *filled) doubt(x, y []float64, ratio [][]diffusion.Between) {
	if ratio == nil {
		return
	}
	var f field
	for _, v := range x {
		f.u = append(f.u, m.p.x.norm(v))
	}
	for _, v := range y {
		f.v = append(f.v, m.p.y.norm(v))
	}
	dry, wet := f, f
	for _, row := range ratio {
		low, high := make([]float64, len(row)), make([]float64, len(row))
		for i, r := range row {
			low[i], high[i] = math.Log(r.Low), math.Log(r.High)
		}
		dry.z, wet.z = append(dry.z, high), append(wet.z, low)
	}
	const fine = 160
	m.belt = &belt{dry: dry.finer(fine), wet: wet.finer(fine)}
	m.belt.lines = [2][][]vg.Point{m.p.contours(m.belt.dry, 0), m.p.contours(m.belt.wet, 0)}
}

// at is a field at a place.
func (f *field) at(u, v float64) float64 { return f.within(cell(f.u, u), cell(f.v, v), u, v) }

// unsure tells of a place in the belt; none is where there is no belt.
func (b *belt) unsure(u, v float64) bool {
	return b != nil && b.dry.at(u, v) > 0 && b.wet.at(u, v) <= 0
}

// veiled is the colour of a dot in the belt: greyed and dotted, so that it can be seen in grey too.
func veiled(c color.NRGBA, column, row int) color.NRGBA {
	const pitch, size = 10, 2
	if column%pitch < size && (row+column/pitch%2*pitch/2)%pitch < size {
		return mix(c, rgb(0x4d4a45), 0.75)
	}
	return mix(c, doubted(), 0.5)
}

// beltWords name the borders of a belt.
func beltWords() [2]string { return [...]string{"9 in 10 dry", "9 in 10 wet"} }

// borders draws the borders of the belt, dashed and named where there is room.
func (m *filled) borders() {
	if m.belt == nil {
		return
	}
	var gaps [2]vg.Rectangle
	for i, word := range beltWords() {
		gaps[i] = m.gap(m.belt.lines[i], m.style(ink(), false), word, func(r vg.Rectangle) bool { return m.fits(r, -1, true) && m.off(r, m.belt.lines[1-i]) })
	}
	for i, lines := range m.belt.lines {
		m.strokes(lines, stroke(paper(), 4), gaps[i])
		m.strokes(lines, stroke(ink(), 1.8, 8, 4), gaps[i])
		if gaps[i] != (vg.Rectangle{}) {
			m.p.s.fill(gaps[i], paper())
			m.p.s.put(m.style(ink(), false), middle(gaps[i]), centred(), beltWords()[i])
		}
	}
}

// off tells that lines do not pass through a rectangle.
func (m *filled) off(r vg.Rectangle, lines [][]vg.Point) bool {
	for _, line := range lines {
		for _, p := range line {
			if inside(p, r) {
				return false
			}
		}
	}
	return true
}
