package figure

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// bands are the steps of a filled map of moisture.
type bands struct {
	levels     []float64 // rising [kg/kg dry]
	limit      int       // index of the limit among them; -1 where it is off the map
	limitValue float64   // [kg/kg dry]
	below      int       // bands below the limit
	colors     []color.NRGBA
}

// mostLevels is how many contours a map can bear.
const mostLevels = 9

// bandsOf steps by 1, 2, 5 between the driest and the wettest value, and at the
// limit; the steps nearest to the limit give way to it, and none is at the start.
func bandsOf(low, high, limit, start float64) bands {
	b := bands{limit: -1, limitValue: limit}
	bottom := math.Max(low, math.Max(high, limit)*1e-4)
	for _, steps := range [...][]float64{{1, 2, 5}, {1, 3}, {1}} {
		b.levels = nil
		for e := math.Floor(math.Log10(bottom)); e <= math.Ceil(math.Log10(high)); e++ {
			for _, m := range steps {
				level := m * math.Pow(10, e)
				near := level > limit/1.3 && level < limit*1.3 || level > start/1.03 && level < start*1.03
				if level > bottom && level < high*0.995 && !near {
					b.levels = append(b.levels, level)
				}
			}
		}
		if len(b.levels) <= mostLevels {
			break
		}
	}
	if limit > low && limit < high {
		i := 0
		for i < len(b.levels) && b.levels[i] < limit {
			i++
		}
		b.levels = append(b.levels[:i], append([]float64{limit}, b.levels[i:]...)...)
		b.limit = i
	}
	b.color(high)
	return b
}

// color gives each band its colour: sand below the limit, blue above. high is the wettest value.
func (b *bands) color(high float64) {
	below := b.limit + 1
	if b.limit < 0 && high <= b.limitValue {
		below = len(b.levels) + 1
	}
	b.below = below
	above := len(b.levels) + 1 - below
	for i := range below {
		b.colors = append(b.colors, mix(atLimitDry(), driest(), float64(below-i-1)/math.Max(float64(below), 3)))
	}
	for i := range above {
		b.colors = append(b.colors, mix(atLimitWet(), wettest(), float64(i)/math.Max(float64(above-1), 3)))
	}
}

// of is the colour of a value.
func (b *bands) of(v float64) color.NRGBA {
	i := 0
	for i < len(b.levels) && v >= b.levels[i] {
		i++
	}
	return b.colors[i]
}

// filled is a map of moisture on a panel.
type filled struct {
	p     *panel
	field field // of the logarithm where all values allow
	bands bands
	log   bool
	lines [][][]vg.Point // for each level
	heat  *[2]field      // excesses over what yields and what bears [K]; nil where every strand holds
	belt  *belt          // where the verdict is unsure; nil where that is not known
}

// newFilled lays contents out, with their limit and the content that the strand starts with, at which no line is drawn: it would follow the numerical
// error.
func newFilled(p *panel, x, y []float64, z [][]float64, limit, start float64) *filled {
	m := &filled{p: p, log: true}
	low, high := math.Inf(1), math.Inf(-1)
	for _, row := range z {
		l, h := bounds(row)
		low, high = math.Min(low, l), math.Max(high, h)
	}
	m.log = low > 0
	m.bands = bandsOf(low, high, limit, start)
	f := field{}
	for _, v := range x {
		f.u = append(f.u, p.x.norm(v))
	}
	for _, v := range y {
		f.v = append(f.v, p.y.norm(v))
	}
	for _, row := range z {
		inner := make([]float64, len(row))
		for i, v := range row {
			inner[i] = m.inner(v)
		}
		f.z = append(f.z, inner)
	}
	m.field = f.finer(160)
	for _, level := range m.bands.levels {
		m.lines = append(m.lines, p.contours(m.field, m.inner(level)))
	}
	return m
}

// contours are the lines of a level on a panel.
func (p *panel) contours(f field, level float64) [][]vg.Point {
	var lines [][]vg.Point
	for _, line := range f.contours(level) {
		points := make([]vg.Point, len(line))
		for i, s := range line {
			points[i] = vg.Point{X: p.box.Min.X + p.box.Size().X*vg.Length(s.u), Y: p.box.Min.Y + p.box.Size().Y*vg.Length(s.v)}
		}
		lines = append(lines, points)
	}
	return lines
}

func (m *filled) inner(v float64) float64 {
	if m.log {
		return math.Log(v)
	}
	return v
}

// paint fills the panel. The picture is two dots to the point, which the contours cover at
// its edges.
func (m *filled) paint() {
	size := m.p.box.Size()
	width, height := int(2*size.X), int(2*size.Y)
	picture := image.NewNRGBA(image.Rect(0, 0, width, height))
	f := m.field
	thresholds := bands{colors: m.bands.colors}
	for _, level := range m.bands.levels {
		thresholds.levels = append(thresholds.levels, m.inner(level))
	}
	cells := make([]int, width)
	for column := range cells {
		cells[column] = cell(f.u, (float64(column)+0.5)/float64(width))
	}
	for row := range height {
		v := 1 - (float64(row)+0.5)/float64(height)
		j := cell(f.v, v)
		for column, i := range cells {
			u := (float64(column) + 0.5) / float64(width)
			c := thresholds.of(f.within(i, j, u, v))
			if m.belt.unsure(u, v) {
				c = veiled(c, column, row)
			}
			if m.heat != nil {
				c = ruled(c, m.survival(u, v), column, row)
			}
			picture.SetNRGBA(column, row, c)
		}
	}
	m.p.s.DrawImage(m.p.box, picture)
}

// warm lays the heat over the map; nil for none.
func (m *filled) warm(x, y []float64, all [][]diffusion.Excess) {
	if all == nil {
		return
	}
	f := field{}
	for _, v := range x {
		f.u = append(f.u, m.p.x.norm(v))
	}
	for _, v := range y {
		f.v = append(f.v, m.p.y.norm(v))
	}
	m.heat = &[2]field{f, f}
	for _, row := range all {
		yield, bear := make([]float64, len(row)), make([]float64, len(row))
		for i, x := range row {
			yield[i], bear[i] = x.Yield, x.Bear
		}
		m.heat[0].z, m.heat[1].z = append(m.heat[0].z, yield), append(m.heat[1].z, bear)
	}
}

// passing is where contours run.
func (m *filled) passing() []vg.Point {
	var out []vg.Point
	for _, lines := range m.lines {
		for _, line := range lines {
			for i := 1; i < len(line); i++ {
				out = append(out, line[i], between(line[i-1], line[i], 0.5))
			}
		}
	}
	return out
}

// survival is that at a place of the panel.
func (m *filled) survival(u, v float64) diffusion.Survival {
	if m.heat == nil {
		return diffusion.Holds
	}
	yield, bear := &m.heat[0], &m.heat[1]
	i, j := cell(yield.u, u), cell(yield.v, v)
	return diffusion.Excess{Yield: yield.within(i, j, u, v), Bear: bear.within(i, j, u, v)}.Survival()
}

// ruled is the colour of a dot under the hatching of a strand that softens, or may; two dots are a point.
func ruled(c color.NRGBA, s diffusion.Survival, column, row int) color.NRGBA {
	const dense, sparse, width = 14, 32, 2
	switch along := column + row; {
	case s == diffusion.Softens && along%dense < width:
		return hatch()
	case s == diffusion.Softens:
		return softened()
	case s == diffusion.Doubtful && along%sparse < width:
		return mix(c, rgb(0), 0.35)
	}
	return c
}

// key draws the bands one above the other with their levels in %, right of the panel.
func (m *filled) key(left vg.Length) {
	s, b := m.p.s, m.bands
	n := vg.Length(len(b.colors))
	height := min(m.p.box.Size().Y, n*34)
	bottom := middle(m.p.box).Y - height/2
	m.limitBeside(left, bottom, bottom+height)
	for i, c := range b.colors {
		r := vg.Rectangle{Min: vg.Point{X: left, Y: bottom + height*vg.Length(i)/n}}
		r.Max = vg.Point{X: left + 16, Y: bottom + height*vg.Length(i+1)/n}
		s.fill(r, c)
		s.StrokeLines(stroke(rule(), 0.6), append(corners(r), r.Min))
		if i == len(b.levels) {
			continue
		}
		text := digits(100*b.levels[i], 3)
		style := s.style(tickSize, ink(), i == b.limit)
		if i == b.limit {
			s.StrokeLine2(stroke(ink(), 2.5), r.Min.X-3, r.Max.Y, r.Max.X+3, r.Max.Y)
		}
		s.put(style, vg.Point{X: r.Max.X + 6, Y: r.Max.Y}, toRight(), text)
	}
}

// limitBeside names a limit that lies off the map, at the dry or the wet end of the key.
func (m *filled) limitBeside(left, bottom, top vg.Length) {
	s, b := m.p.s, m.bands
	unit := vg.Point{X: left, Y: top + tickSize*0.8}
	if b.limit < 0 {
		y := bottom - tickSize*1.2
		if b.below > 0 {
			y = top + tickSize*1.8
		}
		bold := s.style(tickSize, ink(), true)
		s.put(bold, vg.Point{X: left, Y: y}, toRight(), "limit")
		s.put(bold, vg.Point{X: left, Y: y - tickSize*1.1}, toRight(), digits(100*b.limitValue, 3))
		if y > top {
			unit.Y = y + tickSize*1.2
		}
	}
	s.put(s.style(tickSize, ink(), false), unit, toRight(), "%")
}

func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// keyRoom is the room for the key right of the panel.
const keyRoom vg.Length = 70
