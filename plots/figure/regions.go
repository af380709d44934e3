package figure

import (
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// regions names the two sides of the limit, and where the strand softens or may, each where it is widest.
func (m *filled) regions() {
	for _, region := range [...]struct {
		text string
		in   func(wet bool, s diffusion.Survival) bool
	}{
		{"within the limit", func(wet bool, s diffusion.Survival) bool { return !wet && s == diffusion.Holds }},
		{"within the limit, may soften", func(wet bool, s diffusion.Survival) bool { return !wet && s == diffusion.Doubtful }},
		{"above the limit", func(wet bool, s diffusion.Survival) bool { return wet && s != diffusion.Softens }},
		{"softens", func(_ bool, s diffusion.Survival) bool { return s == diffusion.Softens }},
	} {
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
func (m *filled) widest(in func(wet bool, s diffusion.Survival) bool, size vg.Point, clear bool) (vg.Point, bool) {
	var edge []vg.Point
	if m.bands.limit >= 0 {
		for _, line := range m.lines[m.bands.limit] {
			edge = append(edge, line...)
		}
	}
	b := m.p.box
	best, found := vg.Point{}, false
	most := 0.0
	const steps = 40
	for j := 1; j < steps; j++ {
		for i := 1; i < steps; i++ {
			at := vg.Point{X: b.Min.X + b.Size().X*vg.Length(i)/steps, Y: b.Min.Y + b.Size().Y*vg.Length(j)/steps}
			r := vg.Rectangle{Min: at.Sub(size.Scale(0.5)), Max: at.Add(size.Scale(0.5))}
			if !in(m.wet(i, j, steps), m.survival(float64(i)/steps, float64(j)/steps)) || !m.even(r) || !within(r, b) || !m.p.s.free(r) || clear && !m.fits(r, -1, true) {
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

func (m *filled) wet(i, j, steps int) bool {
	u, v := float64(i)/float64(steps), float64(j)/float64(steps)
	f := m.field
	level := math.Log(m.bands.limitValue)
	if !m.log {
		level = m.bands.limitValue
	}
	return f.within(cell(f.u, u), cell(f.v, v), u, v) > level
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
