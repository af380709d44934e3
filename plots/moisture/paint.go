package moisture

import (
	"image"
	"image/color"

	"strandry/diffusion"
	"strandry/plots/palette"
)

// Paint fills the panel with the bands. The picture is two dots to the point, which the contours cover at its edges.
func (m *Map) Paint() {
	size := m.p.Box.Size()
	width, height := int(2*size.X), int(2*size.Y)
	picture := image.NewNRGBA(image.Rect(0, 0, width, height))
	var thresholds []float64
	for _, level := range m.bands.levels {
		thresholds = append(thresholds, m.inner(level))
	}
	looks := m.looks()
	dots := m.field.Dots(width, height)
	unsure := m.unsure.dots(width, height)
	heat := m.heat.dots(width, height)
	for row := range height {
		for column := range width {
			v, band := dots.At(column, row), 0
			for band < len(thresholds) && v >= thresholds[band] {
				band++
			}
			picture.SetNRGBA(column, row, looks[band].under(unsure(column, row), heat(column, row), column, row))
		}
	}
	m.p.Picture(m.p.Box, picture)
}

// look is how the dots of a band are coloured: under the veil of what is unsure, or not, and there between the dots or in one; each a second
// time under the lines over a strand that may soften.
type look [3][2]color.NRGBA

func (m *Map) looks() []look {
	var out []look
	for _, plain := range m.bands.colors {
		var l look
		for veil, c := range [...]palette.Colour{plain, palette.Mix(plain, palette.Doubted, 0.5), palette.Mix(plain, palette.Unsure.Day().Ink, 0.75)} {
			l[veil] = [...]color.NRGBA{c.NRGBA(), palette.Mix(c, 0, 0.35).NRGBA()}
		}
		out = append(out, l)
	}
	return out
}

// under is the colour of a dot; two dots are a point. What is unsure is greyed and dotted, so that it can be seen in grey too. A strand that softens is
// hatched, one that may has a line here and there.
func (l *look) under(unsure bool, s diffusion.Survival, column, row int) color.NRGBA {
	const pitch, size = 10, 2              // of the dots
	const dense, sparse, width = 14, 32, 2 // of the lines
	along := column + row
	if s == diffusion.Softens {
		if along%dense < width {
			return palette.Hatch().NRGBA()
		}
		return palette.Softens.Day().Ground.NRGBA()
	}
	veil, line := 0, 0
	if unsure {
		veil = 1
		if column%pitch < size && (row+column/pitch%2*pitch/2)%pitch < size {
			veil = 2
		}
	}
	if s == diffusion.Doubtful && along%sparse < width {
		line = 1
	}
	return l[veil][line]
}

// dots tells of each dot whether it is unsure; none is where that is not known.
func (u *unsure) dots(width, height int) func(column, row int) bool {
	if u == nil {
		return func(int, int) bool { return false }
	}
	dry, wet := u.dry.Dots(width, height), u.wet.Dots(width, height)
	return func(column, row int) bool { return dry.At(column, row) > 0 && wet.At(column, row) <= 0 }
}

// dots tells of each dot how the strand fares there.
func (h *heat) dots(width, height int) func(column, row int) diffusion.Survival {
	if h == nil {
		return func(int, int) diffusion.Survival { return diffusion.Holds }
	}
	yield, bear := h.yield.Dots(width, height), h.bear.Dots(width, height)
	return func(column, row int) diffusion.Survival {
		return diffusion.Excess{Yield: yield.At(column, row), Bear: bear.At(column, row)}.Survival()
	}
}
