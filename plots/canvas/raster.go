package canvas

import (
	"image"
	"image/color"
	"math"
	"strings"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/draw"
	stdfont "golang.org/x/image/font"
	"golang.org/x/image/math/f64"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg/vgimg"
)

// raster is a canvas of dots. Lines and areas are drawn by the canvas below; text and pictures are put on the dots at once, for nothing on a page is turned or
// stretched. A letter that the typeface lacks is a box.
type raster struct {
	*vgimg.Canvas
	dots   *image.RGBA
	height Length
	ink    color.Color
}

// newRaster is a page of paper of a height, in so many dots to the inch, on the memory of another if that is large enough.
func newRaster(height Length, perInch int, memory []uint8) *raster {
	inDots := func(x Length) int { return int(x.Dots(float64(perInch)) + 0.5) }
	dots := &image.RGBA{Pix: memory, Stride: 4 * inDots(Width), Rect: image.Rect(0, 0, inDots(Width), inDots(height))}
	if size := dots.Stride * dots.Rect.Dy(); size <= cap(memory) {
		dots.Pix = memory[:size]
	} else {
		dots.Pix = make([]uint8, size)
	}
	lines := gg.NewContextForRGBA(dots)
	lines.SetLineCapButt()
	lines.InvertY()
	return &raster{Canvas: vgimg.NewWith(vgimg.UseImageWithContext(dots, lines), vgimg.UseDPI(perInch)), dots: dots, height: height, ink: color.Black}
}

// SetColor is for all that is drawn from now on.
func (r *raster) SetColor(c color.Color) {
	r.ink = c
	r.Canvas.SetColor(c)
}

// FillString draws the text from its baseline.
func (r *raster) FillString(face font.Face, at Point, text string) {
	drawer := stdfont.Drawer{Dst: r.dots, Src: image.NewUniform(r.ink), Face: face.FontFace(r.DPI()), Dot: fixed.Point26_6{X: r.inDots(at.X), Y: r.inDots(r.height - at.Y)}}
	drawer.DrawString(strings.Map(func(letter rune) rune { return drawable(face, letter) }, text))
}

// inDots is a length in 64ths of a dot.
func (r *raster) inDots(x Length) fixed.Int26_6 {
	return fixed.Int26_6(math.Round(64 * x.Dots(r.DPI())))
}

// DrawImage draws an opaque picture, smoothly between its own dots.
func (r *raster) DrawImage(box Rectangle, picture image.Image) {
	if p, ok := picture.(*image.Paletted); ok {
		picture = plain(p)
	}
	size, own := box.Size(), picture.Bounds().Size()
	x, y := box.Min.X.Dots(r.DPI()), float64(r.dots.Rect.Dy())-box.Max.Y.Dots(r.DPI())
	place := f64.Aff3{size.X.Dots(r.DPI()) / float64(own.X), 0, x, 0, size.Y.Dots(r.DPI()) / float64(own.Y), y}
	var between draw.Transformer = draw.ApproxBiLinear
	if place[0] < 1 || place[4] < 1 { // so that none of the picture's own dots is passed over
		between = draw.BiLinear
	}
	between.Transform(r.dots, place, picture, picture.Bounds(), draw.Src, nil)
}

// plain is a picture without a palette, which is faster to draw.
func plain(p *image.Paletted) *image.RGBA {
	out := image.NewRGBA(p.Rect)
	for i, index := range p.Pix {
		c := p.Palette[index].(color.NRGBA)
		copy(out.Pix[4*i:], []uint8{c.R, c.G, c.B, c.A})
	}
	return out
}
