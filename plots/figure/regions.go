package figure

import (
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// region is a part of a map with what it is called.
type region struct {
	text string
	in   func(side verdict, s diffusion.Survival) bool
}

// verdict is on which side of the limit, or of the belt, a place lies.
type verdict int

const (
	isDry verdict = iota
	isUnsure
	isWet
)

// names are the regions that a map names: by the verdict where the belt is known, else by the limit.
func (m *filled) names() []region {
	dry, wet := "within the limit", "above the limit"
	if m.belt != nil {
		dry, wet = "dry", "wet"
	}
	return []region{
		{dry, func(v verdict, s diffusion.Survival) bool { return v == isDry && s == diffusion.Holds }},
		{dry + ", may soften", func(v verdict, s diffusion.Survival) bool { return v == isDry && s == diffusion.Doubtful }},
		{"unsure", func(v verdict, s diffusion.Survival) bool { return v == isUnsure && s != diffusion.Softens }},
		{wet, func(v verdict, s diffusion.Survival) bool { return v == isWet && s != diffusion.Softens }},
		{"softens", func(_ verdict, s diffusion.Survival) bool { return s == diffusion.Softens }},
	}
}

// regions names the sides of the limit or of the belt, and where the strand softens or may, each where it is widest.
func (m *filled) regions() {
	for _, region := range m.names() {
		text := region.text
		style := m.p.s.style(labelSize, ink(), true)
		size := box(style, vg.Point{}, centred(), text).Size()
		size = grown(vg.Rectangle{Max: size}, 6).Size()
		at, found := m.widest(region.in, size, true)
		if !found {
			at, found = m.widest(region.in, size, false)
		}
		if !found {
			continue
		}
		m.p.s.fill(grown(box(style, at, centred(), text), 4), paper())
		m.p.s.put(style, at, centred(), text)
	}
}

// widest is the free place in a region that lies farthest from the limit and the border, and
// has room for a label of the size; clear of the other contours, if asked.
func (m *filled) widest(in func(v verdict, s diffusion.Survival) bool, size vg.Point, clear bool) (vg.Point, bool) {
	var edge []vg.Point
	border := func(lines [][]vg.Point) {
		for _, line := range lines {
			edge = append(edge, line...)
		}
	}
	if m.bands.limit >= 0 {
		border(m.lines[m.bands.limit])
	}
	if m.belt != nil {
		border(m.belt.lines[0])
		border(m.belt.lines[1])
	}
	b := m.p.box
	best, found := vg.Point{}, false
	most := 0.0
	const steps = 40
	for j := 1; j < steps; j++ {
		for i := 1; i < steps; i++ {
			at := vg.Point{X: b.Min.X + b.Size().X*vg.Length(i)/steps, Y: b.Min.Y + b.Size().Y*vg.Length(j)/steps}
			r := vg.Rectangle{Min: at.Sub(size.Scale(0.5)), Max: at.Add(size.Scale(0.5))}
			if !in(m.side(i, j, steps), m.survival(float64(i)/steps, float64(j)/steps)) || !m.even(r) || !within(r, b) || !m.p.s.free(r) || clear && !m.fits(r, -1, true) {
				continue
			}
			near := math.Min(clearance(at, b, size)/2, far(at, edge, size))
			if near > most+0.5 {
				best, most, found = at, near, true
			}
		}
	}
	return best, found
}

// even tells that the strand fares alike all over a rectangle.
func (m *filled) even(r vg.Rectangle) bool {
	at := func(p vg.Point) diffusion.Survival {
		q, size := p.Sub(m.p.box.Min), m.p.box.Size()
		return m.survival(float64(q.X/size.X), float64(q.Y/size.Y))
	}
	for _, corner := range corners(r) {
		if at(corner) != at(middle(r)) {
			return false
		}
	}
	return true
}

// side is the verdict at a place.
func (m *filled) side(i, j, steps int) verdict {
	u, v := float64(i)/float64(steps), float64(j)/float64(steps)
	if m.belt != nil {
		switch {
		case m.belt.dry.at(u, v) <= 0:
			return isDry
		case m.belt.wet.at(u, v) > 0:
			return isWet
		}
		return isUnsure
	}
	if m.field.at(u, v) > m.inner(m.bands.limitValue) {
		return isWet
	}
	return isDry
}

func within(r, b vg.Rectangle) bool {
	return r.Min.X >= b.Min.X && r.Min.Y >= b.Min.Y && r.Max.X <= b.Max.X && r.Max.Y <= b.Max.Y
}

// clearance is the distance of a label from the border.
func clearance(at vg.Point, b vg.Rectangle, size vg.Point) float64 {
	x := min(at.X-b.Min.X, b.Max.X-at.X) - size.X/2
	y := min(at.Y-b.Min.Y, b.Max.Y-at.Y) - size.Y/2
	return float64(min(x, y))
}

// far is the distance of a label from a line.
func far(at vg.Point, line []vg.Point, size vg.Point) float64 {
	near := math.Inf(1)
	for _, p := range line {
		x := math.Max(float64(abs(p.X-at.X)-size.X/2), 0)
		y := math.Max(float64(abs(p.Y-at.Y)-size.Y/2), 0)
		near = math.Min(near, math.Hypot(x, y))
	}
	return near
}
