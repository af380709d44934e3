package figure

import (
	"cmp"
	"slices"

	"strandry/diffusion/machine/shape"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Room of the parts of a drawing [pt].
const (
	rowPitch   canvas.Length = 18 // of lines of words
	gutter     canvas.Length = 86 // for an arrow with its name above it
	level      canvas.Length = 21 // from dimension line to dimension line
	highest    canvas.Length = 210
	lower      canvas.Length = 150 // where there are several chambers
	alone      canvas.Length = 110 // of a view from the end that has a scale of its own
	shorter    canvas.Length = 10
	spout      canvas.Length = 38 // of an arrow that goes out above or below, with its name
	barRoom    canvas.Length = 24
	pitchPorts canvas.Length = 40
)

// plan is where the parts of the drawing of a chamber go.
type plan struct {
	c         *Chamber
	facts     []string
	side, end view
	stacked   bool // the view from the end below that from the side, in a scale of its own
	height    canvas.Length
}

// view is one view on the page.
type view struct {
	*shape.View
	end    bool
	scale  canvas.Length // points to the metre
	full   [2]float64    // width and height with insulation and box [m]
	box    [2]float64    // width and height of the box [m]; zero where it is not drawn
	open   [2]bool       // where the box goes on beyond what is drawn of it
	tall   canvas.Length // room for view and ports
	above  canvas.Length
	below  canvas.Length
	left   canvas.Length
	right  canvas.Length
	ports  []shape.Port
	sizes  []dimension
	around float64 // insulation [m]
}

// plan lays out chamber i.
func (f *Machine) plan(i int) plan {
	c := &f.Chambers[i]
	p := plan{c: c, facts: c.facts(f)}
	p.side, p.end = f.view(c, 0), f.view(c, 1)
	p.share()
	most := highest
	if len(f.Chambers) > 1 {
		most = lower
	}
	const wide = canvas.Width - 2*canvas.Margin
	const flat = 3.5 // so much longer than high
	p.stacked = p.side.full[0] > flat*p.side.full[1]
	side, end := &p.side, &p.end
	if p.stacked {
		side.scale = min((wide-side.left-side.right)/canvas.Length(side.full[0]), most/canvas.Length(side.full[1]))
		end.scale = alone / canvas.Length(max(end.full[0], end.full[1]))
	} else {
		both := canvas.Length(side.full[0] + end.full[0])
		side.scale = min((wide-side.left-side.right-end.left-end.right)/both, most/canvas.Length(side.full[1]), most/canvas.Length(end.full[1]))
		end.scale = side.scale
	}
	side.tall = max(side.size(1), pitchPorts*canvas.Length(max(side.count(-1), side.count(1))))
	end.tall = end.size(1)
	p.height = canvas.LabelSize*1.5 + rowPitch*canvas.Length(len(p.facts)) + 12
	if p.stacked {
		p.height += side.room() + end.room() + 2*barRoom
	} else {
		p.height += max(side.above, end.above) + max(side.tall, end.tall) + max(side.below, end.below) + barRoom
	}
	return p
}

// view is that of a chamber from the side, 0, or from the end, 1.
func (f *Machine) view(c *Chamber, which int) view {
	v := view{View: &c.Outline.Views[which], end: which == 1, around: c.Insulation}
	v.full = [2]float64{v.Width + 2*v.around, v.Height + 2*v.around}
	if f.boxed() && !c.Fits {
		v.box = boxOf(c.Outer, [3]float64{f.Box.Length, f.Box.Width, f.Box.Height}, which)
		for i := range v.box {
			const most = 1.4 // times the chamber
			v.open[i] = v.box[i] > most*v.full[i]
			v.box[i] = min(v.box[i], most*v.full[i])
		}
		v.full = [2]float64{max(v.full[0], v.box[0]), max(v.full[1], v.box[1])}
	}
	v.sizes = v.dimensions(c)
	return v
}

// boxOf is the box as it is seen in a view: its longest side along the longest of the chamber and so on, as it would be laid in.
func boxOf(outer, box [3]float64, which int) [2]float64 {
	order := []int{0, 1, 2}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(outer[a], outer[b]) })
	slices.Sort(box[:])
	var laid [3]float64
	for rank, at := range order {
		laid[at] = box[rank]
	}
	if which == 1 {
		return [2]float64{laid[2], laid[1]}
	}
	return [2]float64{laid[0], laid[1]}
}

// share gives each port to the view in which it is drawn: the strand's to the view from the end where that has them, and those of the air where it is known at which ends it goes in and out.
func (p *plan) share() {
	turned := len(p.end.Ports) > 0
	for _, port := range p.side.Ports {
		strand := port.Of == shape.StrandIn || port.Of == shape.StrandOut
		if strand && !turned || !strand && p.c.ends() {
			p.side.ports = append(p.side.ports, port)
		}
	}
	p.end.ports = p.end.Ports
	side, end := &p.side, &p.end
	side.left, side.right, end.left, end.right, side.above = shorter, shorter, 74, 64, shorter
	if side.count(-1) > 0 {
		side.left, side.above = gutter, 2*shorter
	}
	if side.count(1) > 0 {
		side.right = gutter
	}
	side.below = shorter + level*canvas.Length(levels(side.sizes))
	end.above, end.below = shorter, shorter+level*canvas.Length(levels(end.sizes))
	if turned {
		end.left, end.right = 58, 78
		end.above, end.below = shorter+end.spouts(1), end.below+end.spouts(-1)
	}
}

// count is the number of ports at the left, -1, or the right, 1.
func (v *view) count(at float64) (n int) {
	for _, port := range v.ports {
		if !v.end && v.beside(port) == at {
			n++
		}
	}
	return n
}

// spouts is the room for what goes out upwards, 1, or downwards, -1.
func (v *view) spouts(up float64) canvas.Length {
	const outer = 0.2 // of the height
	for _, port := range v.ports {
		if port.Of == shape.StrandOut && up*port.Toward.Y > 0 && up*(port.At.Y-v.Height/2) > outer*v.Height {
			return spout
		}
	}
	return 0
}

// beside tells at which end a port is: -1 at the left, 1 at the right.
func (v *view) beside(port shape.Port) float64 {
	if port.At.X < v.Width/2 {
		return -1
	}
	return 1
}

func (v *view) size(i int) canvas.Length { return v.scale * canvas.Length(v.full[i]) }

func (v *view) room() canvas.Length { return v.above + v.tall + v.below }

// draw draws the chamber into a row as high as the plan.
func (p *plan) draw(s *canvas.Sheet, row canvas.Rectangle) {
	c := p.c
	title, style := s.Style(canvas.LabelSize, palette.Ink, true), s.Style(canvas.TickSize, palette.Ink, false)
	at := canvas.Point{X: row.Min.X, Y: row.Max.Y - canvas.LabelSize}
	wide := row.Size().X
	s.Put(title, at, canvas.AboveRight, canvas.Clipped(c.Name+", "+words.Celsius(c.Temperature)+": "+words.Place(c.Length)+" of strand "+c.led(), wide, title.Width))
	for _, fact := range p.facts {
		at.Y -= rowPitch
		s.Put(style, at, canvas.AboveRight, canvas.Clipped(fact, wide, style.Width))
	}
	at.Y -= 6
	side, end := p.side.placed(c), p.end.placed(c)
	if p.stacked {
		side.corner = canvas.Point{X: row.Min.X + (wide+side.left-side.right-side.size(0))/2, Y: at.Y - side.above - (side.tall+side.size(1))/2}
		at.Y -= side.room() + barRoom
		end.corner = canvas.Point{X: row.Min.X + (wide-end.size(0))/2, Y: at.Y - end.above - end.tall}
	} else {
		above, tall := max(side.above, end.above), max(side.tall, end.tall)
		both := side.left + side.size(0) + side.right + end.left + end.size(0) + end.right
		side.corner = canvas.Point{X: row.Min.X + (wide-both)/2 + side.left, Y: at.Y - above - (tall+side.size(1))/2}
		end.corner = canvas.Point{X: side.corner.X + side.size(0) + side.right + end.left, Y: at.Y - above - (tall+end.size(1))/2}
	}
	for _, v := range []*plate{&side, &end} {
		v.paint(s, c)
		v.dimension(s)
		v.passages(s, c, row)
	}
	if p.stacked {
		side.bar(s, c, "from the side", side.lowest())
		end.bar(s, c, "from the end", end.lowest())
		return
	}
	side.bar(s, c, "in both views", min(side.lowest(), end.lowest()))
}
