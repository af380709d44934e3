package canvas

import (
	"image"
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// recording is a canvas that keeps what is drawn on it, so that a page is laid out once for all its files.
type recording []func(c vg.Canvas)

func (r *recording) note(act func(c vg.Canvas)) { *r = append(*r, act) }

// on draws it all on another canvas.
func (r *recording) on(c vg.Canvas) {
	for _, act := range *r {
		act(c)
	}
}

// The methods of a canvas. What they are given is not changed later.
func (r *recording) SetLineWidth(w vg.Length) { r.note(func(c vg.Canvas) { c.SetLineWidth(w) }) }
func (r *recording) SetColor(k color.Color)   { r.note(func(c vg.Canvas) { c.SetColor(k) }) }
func (r *recording) Rotate(rad float64)       { r.note(func(c vg.Canvas) { c.Rotate(rad) }) }
func (r *recording) Translate(by vg.Point)    { r.note(func(c vg.Canvas) { c.Translate(by) }) }
func (r *recording) Scale(x, y float64)       { r.note(func(c vg.Canvas) { c.Scale(x, y) }) }
func (r *recording) Push()                    { r.note(vg.Canvas.Push) }
func (r *recording) Pop()                     { r.note(vg.Canvas.Pop) }
func (r *recording) Stroke(p vg.Path)         { r.note(func(c vg.Canvas) { c.Stroke(p) }) }
func (r *recording) Fill(p vg.Path)           { r.note(func(c vg.Canvas) { c.Fill(p) }) }

func (r *recording) SetLineDash(pattern []vg.Length, offset vg.Length) {
	r.note(func(c vg.Canvas) { c.SetLineDash(pattern, offset) })
}

func (r *recording) FillString(face font.Face, at vg.Point, text string) {
	r.note(func(c vg.Canvas) { c.FillString(face, at, text) })
}

func (r *recording) DrawImage(box vg.Rectangle, dots image.Image) {
	r.note(func(c vg.Canvas) { c.DrawImage(box, dots) })
}
