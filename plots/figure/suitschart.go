package figure

import (
	"slices"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// mostName is the room of a name.
const mostName canvas.Length = 190

func (f Suits) draw(s *canvas.Sheet, room canvas.Rectangle) {
	const header = "air, of what it bears"
	names, texts := []string{header}, []string{}
	all := []float64{f.Longest, f.Longest / 10, f.Given}
	for _, r := range f.Rows {
		names, texts, all = append(names, r.name()), append(texts, r.text()), append(all, r.Length, r.Reliable)
	}
	quiet := s.Style(canvas.TickSize, palette.Quiet, false)
	a := canvas.Axes{
		X: canvas.LogOver(slices.DeleteFunc(all, func(v float64) bool { return v <= 0 })), Y: canvas.Scale{Max: 1}, XLabel: "Length of " + f.Zone + " needed, m",
		Left: min(canvas.Widest(quiet, names...), mostName) + 8, Right: canvas.Widest(quiet, texts...) + 16, Strip: canvas.TickSize * 2.45,
	}
	a.X.Max *= 1.3
	top := canvas.Point{X: room.Min.X, Y: room.Max.Y - canvas.TickSize*0.6}
	room.Max.Y -= canvas.TickSize * 1.5
	p := s.Panel(room, a)
	p.Put(quiet, canvas.Point{X: p.Box.Min.X - 8, Y: p.Box.Max.Y + canvas.TickSize*0.65}, canvas.Left, header)
	f.legend(p, top)
	p.Fill(p.Box, palette.BeyondReach)
	p.Column(p.X.Min, f.Longest, palette.Paper)
	namedLine(p, f.Longest, "can be built: "+words.Metres(f.Longest), true, canvas.Centred)
	if f.Given > 0 {
		side := canvas.Left
		if f.Given > f.Longest {
			side = canvas.Right
		}
		namedLine(p, f.Given, "as given: "+words.Metres(f.Given), false, side)
	}
	pitch := p.Box.Size().Y / canvas.Length(len(f.Rows))
	for k, r := range f.Rows {
		y := p.Box.Max.Y - pitch*(canvas.Length(k)+0.5)
		p.Segment(canvas.Stroke(palette.Faint, 0.8), p.Box.Min.X, y, p.Box.Max.X, y)
		style := p.Style(canvas.TickSize, palette.Ink, false)
		p.Put(style, canvas.Point{X: p.Box.Min.X - 8, Y: y}, canvas.Left, canvas.Clipped(r.name(), mostName, style.Width))
		p.Put(quiet, canvas.Point{X: p.Box.Max.X + 14, Y: y}, canvas.Right, r.text())
		r.bar(p, y)
	}
	p.FrameBelow()
}

// bar draws the bar and the mark at a height. What has no end runs off to the right.
func (r *Suit) bar(p *canvas.Panel, y canvas.Length) {
	from, to := p.Box.Min.X, p.Box.Max.X
	at := to - 9
	bar := func() {
		if r.Reliable > 0 {
			to = p.AtX(r.Reliable)
		} else {
			p.Polygon(palette.Bar, []canvas.Point{{X: to + 7, Y: y}, {X: to - 2, Y: y + 7}, {X: to - 2, Y: y - 7}})
		}
		p.Segment(canvas.Stroke(palette.Bar, 7), from, y, to, y)
	}
	switch {
	case r.Any:
		from += 9
		at = from
		if r.Reliable > 0 || !r.Sure {
			bar()
		}
	case r.Verdict == diffusion.TooHot:
	case r.Length > 0:
		from = p.AtX(r.Length)
		at = from
		bar()
	default:
		from = to - 16
		bar()
		return
	}
	mark(p, r.Verdict, canvas.Point{X: at, Y: y})
}

// mark draws that of a verdict: a disc, a ring, a cross or a triangle, each in its own colour.
func mark(p *canvas.Panel, v diffusion.Verdict, at canvas.Point) {
	switch v {
	case diffusion.TooHot:
		p.Polygon(palette.Softens.Mark(), []canvas.Point{at.Add(canvas.Point{Y: 6.5}), at.Add(canvas.Point{X: 6.5, Y: -5}), at.Add(canvas.Point{X: -6.5, Y: -5})})
	case diffusion.Wet:
		p.Cross(canvas.Stroke(palette.Paper, 6), at, 5.5)
		p.Cross(canvas.Stroke(palette.Wet.Mark(), 3), at, 5.5)
	case diffusion.Unsure:
		p.Disc(at, 7, palette.Paper)
		p.Disc(at, 6, palette.Unsure.Mark())
		p.Disc(at, 3.2, palette.Paper)
	default:
		p.Disc(at, 7, palette.Paper)
		p.Disc(at, 6, palette.Dry.Mark())
	}
}

// legend explains the marks and the bar on one line, from the left.
func (f Suits) legend(p *canvas.Panel, at canvas.Point) {
	style := p.Style(canvas.TickSize, palette.Quiet, false)
	for _, one := range [...]struct {
		verdict diffusion.Verdict
		word    string
	}{{diffusion.Dry, "dry as given"}, {diffusion.Unsure, "unsure"}, {diffusion.Wet, "wet"}, {diffusion.TooHot, "softens"}} {
		if one.verdict == diffusion.TooHot && !slices.ContainsFunc(f.Rows, func(r Suit) bool { return r.Verdict == diffusion.TooHot }) {
			continue
		}
		mark(p, one.verdict, at.Add(canvas.Point{X: 7}))
		p.Put(style, at.Add(canvas.Point{X: 18}), canvas.Right, one.word)
		at.X += 18 + style.Width(one.word) + 16
	}
	p.Segment(canvas.Stroke(palette.Bar, 7), at.X, at.Y, at.X+26, at.Y)
	p.Put(style, at.Add(canvas.Point{X: 32}), canvas.Right, "unsure: up to nine times in ten")
}

// namedLine draws a vertical line through the panel, named above it: a limit in the upper of two lines of names, another in the lower.
func namedLine(p *canvas.Panel, x float64, text string, limit bool, side canvas.Side) {
	if !p.X.Holds(x) {
		return
	}
	style, line, level := p.Style(canvas.TickSize, palette.Quiet, false), canvas.Stroke(palette.Quiet, 1, canvas.Dotted()...), canvas.Length(0.65)
	if limit {
		style, line, level = p.Style(canvas.TickSize, palette.Ink, true), canvas.Stroke(palette.Ink, 2, canvas.Dashed()...), 1.8
	}
	at := canvas.Point{X: p.AtX(x), Y: p.Box.Max.Y + canvas.TickSize*level}
	p.Segment(line, at.X, p.Box.Min.Y, at.X, at.Y-canvas.TickSize*0.5)
	r := canvas.TextBox(style, at, side, text)
	at.X += max(0, p.Box.Min.X-r.Min.X) - max(0, r.Max.X-p.Box.Max.X)
	if p.Free(canvas.Grown(canvas.TextBox(style, at, side, text), 3)) {
		p.Fill(canvas.Grown(canvas.TextBox(style, at, side, text), 2), palette.Paper)
		p.Put(style, at, side, text)
	}
}
