package figure

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
	"strandry/plots/palette"
)

// row is one material on a chart of rows. A value of zero stands for none.
type row struct {
	name             string
	value, low, high float64
	text             string // beside the mark
	mark             shape
	any              bool // every value will do; a high is one from which on it is sure
	open             bool // and none that is
}

// shape is what marks a value.
type shape int

const (
	disc shape = iota
	ring
	cross
	triangle
)

func shapeOf(v diffusion.Verdict) shape {
	return map[diffusion.Verdict]shape{diffusion.Dry: disc, diffusion.Unsure: ring, diffusion.Wet: cross, diffusion.TooHot: triangle}[v]
}

const rowPitch vg.Length = 22

// rowsHeight is the height of a sheet with so many rows.
func rowsHeight(n int) float64 { return float64(205 + rowPitch*vg.Length(n)) }

func checkRows(rows []row) error {
	if len(rows) == 0 {
		return errEmpty
	}
	for _, r := range rows {
		if r.name == "" {
			return errEmpty
		}
		if err := finite(r.name, r.value, r.low, r.high); err != nil {
			return err
		}
		for _, v := range [...]float64{r.value, r.low, r.high} {
			if v < 0 {
				return fmt.Errorf("figure: %s: %g; none lies below zero", r.name, v)
			}
		}
		if r.value == 0 && r.high > 0 && !r.any || r.any && r.value+r.low > 0 {
			return fmt.Errorf("figure: %s: a spread from %g to %g without a value", r.name, r.low, r.high)
		}
		if r.value > 0 && (r.low > r.value || r.high > 0 && r.high < r.value) {
			return fmt.Errorf("figure: %s: the spread from %g to %g does not hold %g", r.name, r.low, r.high, r.value)
		}
	}
	return nil
}

// rowScale covers all values of the rows and the others.
func rowScale(rows []row, others ...float64) scale {
	all := append([]float64(nil), others...)
	for _, r := range rows {
		for _, v := range [...]float64{r.value, r.low, r.high} {
			if v > 0 {
				all = append(all, v)
			}
		}
	}
	s := logFrom(all)
	s.max *= 1.3
	return s
}

// nameRoom is the room left of the rows.
func (s *sheet) nameRoom(rows []row, header string) vg.Length {
	style := s.style(tickSize, ink(), false)
	widest := style.Width(header)
	for _, r := range rows {
		widest = max(widest, style.Width(r.name))
	}
	return min(widest, mostName) + 8
}

// textRoom is the room right of the rows.
func (s *sheet) textRoom(rows []row) vg.Length {
	style := s.style(tickSize, ink(), false)
	widest := vg.Length(0)
	for _, r := range rows {
		widest = max(widest, style.Width(r.text))
	}
	return widest + 16
}

// rows draws the names, bars, marks and texts, the first row on top. What has no end runs off
// to the right.
func (p *panel) rows(rows []row) {
	pitch := p.box.Size().Y / vg.Length(len(rows))
	names, texts := p.s.style(tickSize, ink(), false), p.s.style(tickSize, quiet(), false)
	for k, r := range rows {
		y := p.box.Max.Y - pitch*(vg.Length(k)+0.5)
		p.s.StrokeLine2(stroke(faint(), 0.8), p.box.Min.X, y, p.box.Max.X, y)
		p.s.put(names, vg.Point{X: p.box.Min.X - 8, Y: y}, toLeft(), clipped(r.name, mostName, names.Width))
		p.s.put(texts, vg.Point{X: p.box.Max.X + 14, Y: y}, toRight(), r.text)
		p.bar(r, y)
	}
}

// bar draws the bar and the mark of a row at a height.
func (p *panel) bar(r row, y vg.Length) {
	if r.any {
		begin := p.box.Min.X + 9
		switch {
		case r.high > 0:
			p.s.StrokeLine2(stroke(barColor(), 7), begin, y, p.atX(r.high), y)
		case r.open:
			p.s.StrokeLine2(stroke(barColor(), 7), begin, y, p.box.Max.X, y)
			p.arrow(p.box.Max.X, y)
		}
		p.mark(r.mark, vg.Point{X: begin, Y: y})
		return
	}
	from, to := p.box.Min.X, p.box.Max.X
	if r.mark == triangle {
		p.mark(r.mark, vg.Point{X: to - 9, Y: y})
		return
	}
	switch {
	case r.low > 0:
		from = p.atX(r.low)
	case r.value <= 0:
		from = to - 16
	}
	if r.high > 0 {
		to = p.atX(r.high)
	} else {
		p.arrow(to, y)
	}
	p.s.StrokeLine2(stroke(barColor(), 7), from, y, to, y)
	if r.value > 0 {
		p.mark(r.mark, vg.Point{X: p.atX(r.value), Y: y})
	}
}

// mostName is the room of a name.
const mostName vg.Length = 190

func barColor() color.NRGBA { return rgb(0xaaa6a0) } // of unsure

func (p *panel) arrow(x, y vg.Length) {
	var path vg.Path
	path.Move(vg.Point{X: x + 7, Y: y})
	path.Line(vg.Point{X: x - 2, Y: y + 7})
	path.Line(vg.Point{X: x - 2, Y: y - 7})
	path.Close()
	p.s.SetColor(barColor())
	p.s.Fill(path)
}

// mark draws a shape: a disc, a ring, a cross or a triangle, each in its own colour.
func (p *panel) mark(m shape, at vg.Point) {
	if m == triangle {
		var path vg.Path
		path.Move(at.Add(vg.Point{Y: 6.5}))
		path.Line(at.Add(vg.Point{X: 6.5, Y: -5}))
		path.Line(at.Add(vg.Point{X: -6.5, Y: -5}))
		path.Close()
		p.s.SetColor(hot())
		p.s.Fill(path)
		return
	}
	if m == cross {
		const d = 5.5
		for _, turn := range [...]vg.Length{d, -d} {
			p.s.StrokeLine2(stroke(paper(), 6), at.X-d, at.Y-turn, at.X+d, at.Y+turn)
		}
		for _, turn := range [...]vg.Length{d, -d} {
			p.s.StrokeLine2(stroke(wettest(), 3), at.X-d, at.Y-turn, at.X+d, at.Y+turn)
		}
		return
	}
	p.dot(at, 7, paper())
	if m == ring {
		p.dot(at, 6, rgb(palette.Unsure.Mark()))
		p.dot(at, 3.2, paper())
		return
	}
	p.dot(at, 6, driest())
}

func (p *panel) dot(at vg.Point, radius vg.Length, c color.NRGBA) {
	var path vg.Path
	path.Move(at.Add(vg.Point{X: radius}))
	path.Arc(at, radius, 0, 2*math.Pi)
	path.Close()
	p.s.SetColor(c)
	p.s.Fill(path)
}

// legend explains the marks on one line, from the left.
func (p *panel) legend(at vg.Point, marks []shape, words []string) {
	style := p.s.style(tickSize, quiet(), false)
	for i, m := range marks {
		p.mark(m, at.Add(vg.Point{X: 7}))
		p.s.put(style, at.Add(vg.Point{X: 18}), toRight(), words[i])
		at.X += 18 + style.Width(words[i]) + 16
	}
	p.s.StrokeLine2(stroke(barColor(), 7), at.X, at.Y, at.X+26, at.Y)
	p.s.put(style, at.Add(vg.Point{X: 32}), toRight(), words[len(marks)])
}

// upright draws a vertical line through the panel, named above it, in the given line of names from the
// panel up.
func (p *panel) upright(x float64, text string, bold bool, level int, a alignment) {
	if !p.x.holds(x) {
		return
	}
	at := p.atX(x)
	style := p.s.style(tickSize, quiet(), false)
	line := stroke(quiet(), 1, dotted()...)
	if bold {
		style, line = p.s.style(tickSize, ink(), true), stroke(ink(), 2, dashed()...)
	}
	place := vg.Point{X: at, Y: p.box.Max.Y + tickSize*(0.65+1.15*vg.Length(level))}
	p.s.StrokeLine2(line, at, p.box.Min.Y, at, place.Y-tickSize*0.5)
	r := box(style, place, a, text)
	place.X += max(0, p.box.Min.X-r.Min.X) - max(0, r.Max.X-p.box.Max.X)
	if p.s.free(grown(box(style, place, a, text), 3)) {
		p.s.fill(grown(box(style, place, a, text), 2), paper())
		p.s.put(style, place, a, text)
	}
}

// rowsPanel lays out a chart of rows: legend, so many lines of names of uprights, panel, axis. The header, if there is
// one, stands above the names.
func (s *sheet) rowsPanel(room vg.Rectangle, x scale, xLabel, header string, rows []row, lines int, marks []shape, words []string) (*panel, axes) {
	a := axes{x: x, y: scale{min: 0, max: 1}, xLabel: xLabel, left: s.nameRoom(rows, header), right: s.textRoom(rows), strip: tickSize * (0.15 + 1.15*vg.Length(lines))}
	top := room.Max.Y - tickSize*0.6
	room.Max.Y -= tickSize * 1.5
	p := s.inside(room, a)
	p.s.put(s.style(tickSize, quiet(), false), vg.Point{X: p.box.Min.X - 8, Y: p.box.Max.Y + tickSize*0.65}, toLeft(), header)
	p.legend(vg.Point{X: room.Min.X, Y: top}, marks, words)
	return p, a
}
