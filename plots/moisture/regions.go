package moisture

import (
	"math"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
)

// region is a part of a map with what it is called.
type region struct {
	text string
	in   func(side verdict, s diffusion.Survival) bool
}

// verdict is on which side of the limit, or of what is unsure, a place lies.
type verdict int

const (
	isDry verdict = iota
	isUnsure
	isWet
)

// names are the regions that a map names: by the verdict where what is unsure is known, else by the limit.
func (m *Map) names() []region {
	dry, wet := "within the limit", "above the limit"
	if m.unsure != nil {
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

// Regions names the sides of the limit or of what is unsure, and where the strand softens or may, each where it is widest.
func (m *Map) Regions() {
	for _, region := range m.names() {
		text := region.text
		style := m.p.Style(canvas.LabelSize, palette.Ink, true)
		size := canvas.TextBox(style, canvas.Point{}, canvas.Centred, text).Size()
		size = canvas.Grown(canvas.Rectangle{Max: size}, 6).Size()
		at, found := m.widest(region.in, size, true)
		if !found {
			at, found = m.widest(region.in, size, false)
		}
		if !found {
			continue
		}
		m.p.Fill(canvas.Grown(canvas.TextBox(style, at, canvas.Centred, text), 4), palette.Paper)
		m.p.Put(style, at, canvas.Centred, text)
	}
}

// widest is the free place in a region that lies farthest from the limit and the border, and
// has room for a label of the size; clear of the other contours, if asked.
func (m *Map) widest(in func(v verdict, s diffusion.Survival) bool, size canvas.Point, clear bool) (canvas.Point, bool) {
	var edge []canvas.Point
	border := func(lines [][]canvas.Point) {
		for _, line := range lines {
			edge = append(edge, line...)
		}
	}
	if m.bands.limit >= 0 {
		border(m.lines[m.bands.limit])
	}
	if m.unsure != nil {
		border(m.unsure.borders[0])
		border(m.unsure.borders[1])
	}
	b := m.p.Box
	best, found := canvas.Point{}, false
	most := 0.0
	const steps = 40
	for j := 1; j < steps; j++ {
		for i := 1; i < steps; i++ {
			at := canvas.Point{X: b.Min.X + b.Size().X*canvas.Length(i)/steps, Y: b.Min.Y + b.Size().Y*canvas.Length(j)/steps}
			r := canvas.Rectangle{Min: at.Sub(size.Scale(0.5)), Max: at.Add(size.Scale(0.5))}
			if !in(m.side(i, j, steps), m.survival(float64(i)/steps, float64(j)/steps)) || !m.even(r) || !canvas.Within(r, b) || !m.p.Free(r) || clear && !m.fits(r, -1, true) {
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
func (m *Map) even(r canvas.Rectangle) bool {
	at := func(p canvas.Point) diffusion.Survival {
		q, size := p.Sub(m.p.Box.Min), m.p.Box.Size()
		return m.survival(float64(q.X/size.X), float64(q.Y/size.Y))
	}
	for _, corner := range canvas.Corners(r) {
		if at(corner) != at(canvas.Middle(r)) {
			return false
		}
	}
	return true
}

// side is the verdict at a place.
func (m *Map) side(i, j, steps int) verdict {
	u, v := float64(i)/float64(steps), float64(j)/float64(steps)
	if m.unsure != nil {
		switch {
		case m.unsure.dry.At(u, v) <= 0:
			return isDry
		case m.unsure.wet.At(u, v) > 0:
			return isWet
		}
		return isUnsure
	}
	if m.field.At(u, v) > m.inner(m.bands.limitValue) {
		return isWet
	}
	return isDry
}

// clearance is the distance of a label from the border.
func clearance(at canvas.Point, b canvas.Rectangle, size canvas.Point) float64 {
	x := min(at.X-b.Min.X, b.Max.X-at.X) - size.X/2
	y := min(at.Y-b.Min.Y, b.Max.Y-at.Y) - size.Y/2
	return float64(min(x, y))
}

// far is the distance of a label from a line.
func far(at canvas.Point, line []canvas.Point, size canvas.Point) float64 {
	near := math.Inf(1)
	for _, p := range line {
		x := math.Max(float64(abs(p.X-at.X)-size.X/2), 0)
		y := math.Max(float64(abs(p.Y-at.Y)-size.Y/2), 0)
		near = math.Min(near, math.Hypot(x, y))
	}
	return near
}
