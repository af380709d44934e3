package figure

import (
	"image/color"
	"slices"
	"sort"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// label names a line at its end.
type label struct {
	text  string
	at    vg.Point // the end of the line
	color color.NRGBA
	bold  bool
	y     vg.Length // where it is set
}

// same is how near two ends of lines are for their labels to keep the order given [pt].
const same vg.Length = 4

// spread moves labels up and down, no further than needed, until they are apart by
// the pitch and lie between low and high. Where they do not fit they share the room.
// Of labels whose lines end at about the same height the first stands highest.
func spread(labels []label, pitch, low, high vg.Length) {
	slices.Reverse(labels)
	sort.SliceStable(labels, func(i, j int) bool { return int(labels[i].at.Y/same) < int(labels[j].at.Y/same) })
	n := len(labels)
	if n > 1 {
		pitch = min(pitch, (high-low)/vg.Length(n-1))
	}
	// Clusters of touching labels, each centred on the mean of its lines' ends.
	type cluster struct {
		first, count int
		sum          vg.Length // of the wanted places of the first label
	}
	start := func(c cluster) vg.Length {
		y := c.sum / vg.Length(c.count)
		return min(max(y, low), high-pitch*vg.Length(c.count-1))
	}
	var all []cluster
	for i := range labels {
		c := cluster{first: i, count: 1, sum: labels[i].at.Y}
		for len(all) > 0 {
			last := all[len(all)-1]
			if start(last)+pitch*vg.Length(last.count) <= start(c) {
				break
			}
			c = cluster{last.first, last.count + c.count, last.sum + c.sum - pitch*vg.Length(last.count*c.count)}
			all = all[:len(all)-1]
		}
		all = append(all, c)
	}
	for _, c := range all {
		for k := range c.count {
			labels[c.first+k].y = start(c) + pitch*vg.Length(k)
		}
	}
}

// lead is the room between the data and the labels beside them [pt].
const lead vg.Length = 22

// endRoom is the room that labels need to the right of the data.
func (s *sheet) endRoom(texts ...string) vg.Length {
	style := s.style(labelSize, ink(), true)
	widest := vg.Length(0)
	for _, t := range texts {
		widest = max(widest, style.Width(t))
	}
	return widest + lead + 2
}

// ends sets the labels to the right of the panel, each tied to the end of its line.
func (p *panel) ends(labels []label) {
	half := labelSize * 0.4
	spread(labels, labelSize*1.15, p.box.Min.Y+half, p.box.Max.Y-half)
	x := p.box.Max.X
	for _, l := range labels {
		p.s.StrokeLines(stroke(l.color, 1), []vg.Point{
			l.at, {X: max(x, l.at.X) + 4, Y: l.at.Y}, {X: x + lead - 7, Y: l.y}, {X: x + lead - 3, Y: l.y},
		})
		p.s.put(p.s.style(labelSize, legible(l.color), l.bold), vg.Point{X: x + lead, Y: l.y}, toRight(), l.text)
	}
}

// anchored is a place for a text, and what it speaks of if that is not beside it.
type anchored struct {
	at   vg.Point
	a    alignment
	from *vg.Point
}

// clear sets a text at the first of the places that is inside the panel, free of other labels and of passing
// lines; where none is, at the first, on a box of paper.
func (p *panel) clear(style draw.TextStyle, text string, places []anchored, passing []vg.Point) {
	if p.offer(style, text, places, passing) {
		return
	}
	p.s.fill(grown(box(style, places[0].at, places[0].a, text), 2), paper())
	p.s.put(style, places[0].at, places[0].a, text)
}

// offer is clear, but for leaving the text out where no place is free; it tells whether it was set.
func (p *panel) offer(style draw.TextStyle, text string, places []anchored, passing []vg.Point) bool {
	for _, spot := range places {
		r := grown(box(style, spot.at, spot.a, text), 2)
		if !within(r, p.box) || !p.s.free(r) {
			continue
		}
		if !slices.ContainsFunc(passing, func(q vg.Point) bool { return inside(q, r) }) {
			if spot.from != nil {
				p.s.StrokeLines(stroke(style.Color, 0.8), []vg.Point{*spot.from, spot.at.Sub(vg.Point{X: 2})})
			}
			p.s.put(style, spot.at, spot.a, text)
			return true
		}
	}
	return false
}
