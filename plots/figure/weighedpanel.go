package figure

import (
	"math"
	"strconv"

	"strandry/plots/canvas"
	"strandry/plots/field"
	"strandry/plots/palette"
)

// noteLine is the height of a line about what stands out [pt].
const noteLine = canvas.FooterSize * 1.35

// height of a sheet with a panel for each run, the one so high [pt], two beside each other from two on.
func (w Weighed) height() canvas.Length {
	const one, each, around canvas.Length = 330, 225, 125
	panels := one
	if rows := (len(w.Runs) + 1) / 2; len(w.Runs) > 1 {
		panels = each * canvas.Length(rows)
	}
	return around + panels + noteLine*canvas.Length(len(w.notes()))
}

// sign is a piece of a legend: what is drawn at a place, and its words.
type sign struct {
	draw  func(at canvas.Point)
	words string
}

// legend explains signs at the top of a room, on as many lines as they need.
func legend(s *canvas.Sheet, room canvas.Rectangle, signs []sign) {
	style := s.Style(canvas.FooterSize, palette.Quiet, false)
	for i, at := range laidOut(style, room, signs) {
		signs[i].draw(at.Add(canvas.Point{X: signHalf}))
		s.Put(style, at.Add(canvas.Point{X: signed}), canvas.Right, signs[i].words)
	}
}

// laidOut is where each sign begins.
func laidOut(style canvas.TextStyle, room canvas.Rectangle, signs []sign) []canvas.Point {
	const gap, half canvas.Length = 16, 7
	var out []canvas.Point
	at := canvas.Point{X: room.Min.X, Y: room.Max.Y - half}
	for _, one := range signs {
		width := signed + style.Width(one.words)
		if at.X > room.Min.X && at.X+width > room.Max.X {
			at = canvas.Point{X: room.Min.X, Y: at.Y - legendLine}
		}
		out = append(out, at)
		at.X += width + gap
	}
	return out
}

// The height of a line of a legend, half the width of a sign, and what it takes before its words [pt].
const (
	legendLine canvas.Length = 17
	signHalf   canvas.Length = 9
	signed                   = 2*signHalf + 5
)

// under is the room below a legend.
func under(s *canvas.Sheet, room canvas.Rectangle, signs []sign) canvas.Rectangle {
	const half canvas.Length = 15
	at := laidOut(s.Style(canvas.FooterSize, palette.Quiet, false), room, signs)
	room.Max.Y = at[len(at)-1].Y - half
	return room
}

// below sets what stands out, a line each, and returns the room above.
func (w *Weighed) below(s *canvas.Sheet, room canvas.Rectangle) canvas.Rectangle {
	style := s.Style(canvas.FooterSize, palette.Legible(palette.Vermilion), false)
	notes := w.notes()
	for i := len(notes) - 1; i >= 0; i-- {
		s.Put(style, room.Min.Add(canvas.Point{Y: 2}), canvas.AboveRight, canvas.Clipped(notes[i], room.Size().X, style.Width))
		room.Min.Y += noteLine
	}
	if len(notes) > 0 {
		room.Min.Y += 4
	}
	return room
}

// panels lays a panel for each run into the room, with its name above it, and has it drawn. The first of each row names the upright axis.
func (w *Weighed) panels(s *canvas.Sheet, room canvas.Rectangle, byRoot bool, upright canvas.Scale, label string, draw func(p *canvas.Panel, run int, seconds float64)) {
	const gap, between canvas.Length = 22, 10
	columns := min(len(w.Runs), 2)
	rows := (len(w.Runs) + columns - 1) / columns
	height := (room.Size().Y - between*canvas.Length(rows-1)) / canvas.Length(rows)
	for i := range w.Runs {
		r := &w.Runs[i]
		part := canvas.Columns(room, columns, gap)[i%columns]
		part.Max.Y -= (height + between) * canvas.Length(i/columns)
		part.Min.Y = part.Max.Y - height
		name := s.Style(canvas.LabelSize, palette.Ink, true)
		s.Put(name, canvas.Point{X: part.Min.X, Y: part.Max.Y - canvas.LabelSize*0.5}, canvas.Right, canvas.Clipped(r.name(), part.Size().X, name.Width))
		part.Max.Y -= canvas.LabelSize * 1.3
		x, unit, seconds := r.elapsed(byRoot)
		if byRoot {
			unit += ", spaced by its root"
		}
		a := canvas.Axes{X: x, Y: upright, XLabel: "Time in this air, " + unit, YLabel: label, Right: 8}
		if i%columns > 0 {
			a.YLabel, a.Strip = "", canvas.LabelSize*1.7
		}
		p := s.Panel(part, a)
		p.Grid()
		p.Frame() // below the weighings at time zero
		draw(p, i, seconds)
	}
}

// smooth goes through values at the times of a run, by the root of time; of times that come twice the first counts.
func (r *WeighedRun) smooth(seconds float64, value func(i int) float64) (x, y []float64) {
	var root, at []float64
	for i, p := range r.Points {
		if u := math.Sqrt(p.Time); len(root) == 0 || u > root[len(root)-1] {
			root, at = append(root, u), append(at, value(i))
		}
	}
	places := evenSteps(root[0], root[len(root)-1])
	for _, u := range places {
		x = append(x, u*u/seconds)
	}
	return x, field.Through(root, at, places)
}

// dots draws the weighings of a run, smaller where there are many.
func dots(p *canvas.Panel, at []canvas.Point) {
	radius := dotRadius(len(at))
	for _, q := range at {
		p.Disc(q, radius+0.7, palette.Paper)
		p.Disc(q, radius, palette.Blue)
	}
}

func dotRadius(count int) canvas.Length {
	switch {
	case count > 200:
		return 1.2
	case count > 60:
		return 2
	}
	return 3
}

// kept is a place on the panel; what lies beyond its upright axis is at the edge, with an arrow that points there.
func kept(p *canvas.Panel, x, y float64) canvas.Point {
	at := p.At(x, y)
	const inside canvas.Length = 7
	for _, edge := range [...]struct{ y, turn canvas.Length }{{p.Box.Max.Y, 1}, {p.Box.Min.Y, -1}} {
		if (at.Y-edge.y)*edge.turn <= 0 {
			continue
		}
		at.Y = edge.y - edge.turn*inside
		tip := canvas.Point{X: at.X, Y: edge.y}
		p.Polygon(palette.Vermilion, []canvas.Point{tip, tip.Add(canvas.Point{X: 4, Y: -5 * edge.turn}), tip.Add(canvas.Point{X: -4, Y: -5 * edge.turn})})
		at.Y -= edge.turn * 3
	}
	return at
}

// number marks what stands out among the weighings of a run: a ring with its number, clear of the others.
func (w *Weighed) number(p *canvas.Panel, run int, at []canvas.Point) {
	all, _ := w.marks()
	style := p.Style(canvas.TickSize, palette.Legible(palette.Vermilion), true)
	numbered := map[int]bool{}
	for _, m := range all {
		if m.Run != run || numbered[m.number] {
			continue
		}
		numbered[m.number] = true
		q := at[m.point]
		ringed(p.Sheet, q, dotRadius(len(at)))
		var places []canvas.Spot
		for _, away := range [...]canvas.Length{9, 13, 18, 25, 34} {
			for _, side := range [...]struct {
				x, y canvas.Length
				side canvas.Side
			}{{1, 0, canvas.Right}, {0, 1, canvas.Above}, {0, -1, canvas.Below}, {-1, 0, canvas.Left}} {
				places = append(places, canvas.Spot{At: q.Add(canvas.Point{X: away * side.x, Y: away * side.y}), Side: side.side})
			}
		}
		p.Place(style, strconv.Itoa(m.number), places, at)
	}
}

// ringed is a weighing that stands out.
func ringed(s *canvas.Sheet, at canvas.Point, radius canvas.Length) {
	s.Disc(at, radius+4, palette.Vermilion)
	s.Disc(at, radius+2, palette.Paper)
	s.Disc(at, radius, palette.Blue)
}

// numbers explains the rings, if there are any.
func (w *Weighed) numbers(s *canvas.Sheet) []sign {
	if all, _ := w.marks(); len(all) == 0 {
		return nil
	}
	return []sign{{func(at canvas.Point) { ringed(s, at, 3) }, "stands out, see below"}}
}
