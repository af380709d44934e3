package canvas

import (
	"image"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
)

// drawable is the letter, or a box if the typeface lacks it.
func drawable(face font.Face, r rune) rune {
	var buffer sfnt.Buffer
	if glyph, err := face.Face.GlyphIndex(&buffer, r); err != nil || glyph == 0 {
		return '□'
	}
	return r
}

// outlined is a canvas that draws letters as their outlines.
type outlined struct {
	*vgpdf.Canvas
	widths map[int]bool // of the pictures so far [dots]
}

// DrawImage draws a picture, which the canvas would set upside down: its axis points up
// already. A picture as wide as one before gets a column more, since it is by their widths that pictures are told apart in the file.
func (c outlined) DrawImage(r Rectangle, picture image.Image) {
	width := picture.Bounds().Dx()
	more := 0
	for c.widths[width+more] {
		more++
	}
	c.widths[width+more] = true
	switch p := picture.(type) {
	case *image.Paletted:
		wide := image.NewPaletted(image.Rect(0, 0, width+more, p.Rect.Dy()), p.Palette)
		wide.Pix = upsideDown(widened(p.Pix, p.Stride, 1, more), wide.Stride)
		picture = wide
	case *image.NRGBA:
		wide := image.NewNRGBA(image.Rect(0, 0, width+more, p.Rect.Dy()))
		wide.Pix = upsideDown(widened(p.Pix, p.Stride, 4, more), wide.Stride)
		picture = wide
	}
	c.Canvas.DrawImage(r, picture)
}

// widened repeats the column in the middle of a picture, of so many bytes to the dot, so many times more.
func widened(dots []uint8, stride, each, more int) []uint8 {
	if more == 0 {
		return dots
	}
	middle := stride / each / 2 * each
	var out []uint8
	for ; len(dots) >= stride; dots = dots[stride:] {
		out = append(out, dots[:middle]...)
		for range more {
			out = append(out, dots[middle:middle+each]...)
		}
		out = append(out, dots[middle:stride]...)
	}
	return out
}

// upsideDown turns the rows of a picture.
func upsideDown(dots []uint8, stride int) []uint8 {
	out := make([]uint8, 0, len(dots))
	for from := len(dots) - stride; from >= 0; from -= stride {
		out = append(out, dots[from:][:stride]...)
	}
	return out
}

// FillString draws the text from its baseline.
func (c outlined) FillString(face font.Face, at Point, text string) {
	var buffer sfnt.Buffer
	em := fixed.Int26_6(face.Face.UnitsPerEm()) << 6
	unit := face.Font.Size / Length(em)
	var path vg.Path
	for _, r := range text {
		glyph, err := face.Face.GlyphIndex(&buffer, drawable(face, r))
		if err != nil {
			continue
		}
		segments, err := face.Face.LoadGlyph(&buffer, glyph, em, nil)
		if err == nil {
			path = append(path, outline(segments, at, unit)...)
		}
		if advance, err := face.Face.GlyphAdvance(&buffer, glyph, em, 0); err == nil {
			at.X += Length(advance) * unit
		}
	}
	if len(path) > 0 {
		c.Fill(path)
	}
}

// outline is the path of one glyph; its quadratic curves are written as cubic ones.
func outline(segments sfnt.Segments, at Point, unit Length) vg.Path {
	var path vg.Path
	point := func(p fixed.Point26_6) Point {
		return Point{X: at.X + Length(p.X)*unit, Y: at.Y - Length(p.Y)*unit}
	}
	var pen Point
	for i, s := range segments {
		end := point(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				path.Close()
			}
			path.Move(end)
		case sfnt.SegmentOpLineTo:
			path.Line(end)
		case sfnt.SegmentOpQuadTo:
			control := end
			end = point(s.Args[1])
			path.CubeTo(Between(pen, control, 2./3), Between(end, control, 2./3), end)
		case sfnt.SegmentOpCubeTo:
			second := point(s.Args[1])
			path.CubeTo(end, second, point(s.Args[2]))
			end = point(s.Args[2])
		}
		pen = end
	}
	if len(path) > 0 {
		path.Close()
	}
	return path
}
