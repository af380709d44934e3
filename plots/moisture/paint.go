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
	picture := image.NewPaletted(image.Rect(0, 0, width, height), m.looks())
	var thresholds []float64
	for _, level := range m.bands.levels {
		thresholds = append(thresholds, m.inner(level))
	}
	dots := m.field.Dots(width, height)
	unsure := m.unsure.dots(width, height)
	heat := m.heat.dots(width, height)
	for row := range height {
		line := picture.Pix[row*picture.Stride:]
		for column := range width {
			v, band := dots.At(column, row), 0
			for band < len(thresholds) && v >= thresholds[band] {
				band++
			}
			line[column] = look(band, unsure(column, row), heat(column, row), column, row)
		}
	}
	m.p.Picture(m.p.Box, picture)
}

// How a dot may look: where a strand softens between the lines over it and on one, and then for each band under the veil of what is unsure, or not, and there between
// the dots or in one, each a second time under a line over a strand that may soften.
const (
	soft = iota
	softLine
	plain
	underLine = 1
	veiled    = 2
	dotted    = 4
	eachBand  = 6
)

// looks are the colours of the dots.
func (m *Map) looks() color.Palette {
	out := color.Palette{palette.Softens.Day().Ground.NRGBA(), palette.Hatch().NRGBA()}
	for _, c := range m.bands.colors {
		for _, veil := range [...]palette.Colour{c, palette.Mix(c, palette.Doubted, 0.5), palette.Mix(c, palette.Unsure.Day().Ink, 0.75)} {
			out = append(out, veil.NRGBA(), palette.Mix(veil, 0, 0.35).NRGBA())
		}
	}
	return out
}

// look is how a dot looks; two dots are a point. What is unsure is greyed and dotted, so that it can be seen in grey too. A strand that softens is
// hatched, one that may has a line here and there.
func look(band int, unsure bool, s diffusion.Survival, column, row int) uint8 {
	const pitch, size = 10, 2              // of the dots
	const dense, sparse, width = 14, 32, 2 // of the lines
	along := column + row
	switch {
	case s == diffusion.Softens && along%dense < width:
		return softLine
	case s == diffusion.Softens:
		return soft
	}
	at := plain + eachBand*band
	switch {
	case unsure && column%pitch < size && (row+column/pitch%2*pitch/2)%pitch < size:
		at += dotted
	case unsure:
		at += veiled
	}
	if s == diffusion.Doubtful && along%sparse < width {
		at += underLine
	}
	return uint8(at)
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
