package figure

import (
	"image/color"
	"sort"

	"gonum.org/v1/plot/vg"
)

// label names a line at its end.
type label struct {
	text  string
	at    vg.Point // the end of the line
	color color.NRGBA
	bold  bool
	y     vg.Length // where it is set
}

// spread moves labels up and down, no further than needed, until they are apart by
// the pitch and lie between low and high. Where they do not fit they share the room.
func spread(labels []label, pitch, low, high vg.Length) {
	sort.SliceStable(labels, func(i, j int) bool { return labels[i].at.Y < labels[j].at.Y })
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
