package canvas

import (
	"slices"
	"sort"

	"strandry/plots/palette"
)

// Label names a line at its end.
type Label struct {
	Text   string
	At     Point // the end of the line
	Colour palette.Colour
	Bold   bool
	y      Length // where it is set
}

// same is how near two ends of lines are for their labels to keep the order given [pt].
const same Length = 4

// spread moves labels up and down, no further than needed, until they are apart by
// the pitch and lie between low and high. Where they do not fit they share the room.
// Of labels whose lines end at about the same height the first stands highest.
func spread(labels []Label, pitch, low, high Length) {
	slices.Reverse(labels)
	sort.SliceStable(labels, func(i, j int) bool { return int(labels[i].At.Y/same) < int(labels[j].At.Y/same) })
	n := len(labels)
	if n > 1 {
		pitch = min(pitch, (high-low)/Length(n-1))
	}
	// Clusters of touching labels, each centred on the mean of its lines' ends.
	type cluster struct {
		first, count int
		sum          Length // of the wanted places of the first label
	}
	start := func(c cluster) Length {
		y := c.sum / Length(c.count)
		return min(max(y, low), high-pitch*Length(c.count-1))
	}
	var all []cluster
	for i := range labels {
		c := cluster{first: i, count: 1, sum: labels[i].At.Y}
		for len(all) > 0 {
			last := all[len(all)-1]
			if start(last)+pitch*Length(last.count) <= start(c) {
				break
			}
			c = cluster{last.first, last.count + c.count, last.sum + c.sum - pitch*Length(last.count*c.count)}
			all = all[:len(all)-1]
		}
		all = append(all, c)
	}
	for _, c := range all {
		for k := range c.count {
			labels[c.first+k].y = start(c) + pitch*Length(k)
		}
	}
}

// lead is the room between the data and the labels beside them [pt].
const lead Length = 22

// EndRoom is the room that [Panel.Ends] needs to the right of the data.
func (s *Sheet) EndRoom(texts ...string) Length {
	return Widest(s.Style(LabelSize, palette.Ink, true), texts...) + lead + 2
}

// Ends sets labels to the right of the panel, each tied to the end of its line.
func (p *Panel) Ends(labels []Label) {
	half := LabelSize * 0.4
	spread(labels, LabelSize*1.15, p.Box.Min.Y+half, p.Box.Max.Y-half)
	x := p.Box.Max.X
	for _, l := range labels {
		p.Lines(Stroke(l.Colour, 1), []Point{
			l.At, {X: max(x, l.At.X) + 4, Y: l.At.Y}, {X: x + lead - 7, Y: l.y}, {X: x + lead - 3, Y: l.y},
		})
		p.Put(p.Style(LabelSize, palette.Legible(l.Colour), l.Bold), Point{X: x + lead, Y: l.y}, Right, l.Text)
	}
}

// Spot is a place for a text, and what it speaks of if that is not beside it.
type Spot struct {
	At   Point
	Side Side
	From *Point
}

// Place sets a text at the first of the places that is inside the panel, free of other labels and of passing
// lines; where none is, at the first, on a box of paper.
func (p *Panel) Place(style TextStyle, text string, places []Spot, passing []Point) {
	if p.Offer(style, text, places, passing) {
		return
	}
	p.Fill(Grown(TextBox(style, places[0].At, places[0].Side, text), 2), palette.Paper)
	p.Put(style, places[0].At, places[0].Side, text)
}

// Offer is [Panel.Place], but for leaving the text out where no place is free; it tells whether it was set.
func (p *Panel) Offer(style TextStyle, text string, places []Spot, passing []Point) bool {
	for _, spot := range places {
		r := Grown(TextBox(style, spot.At, spot.Side, text), 2)
		if !Within(r, p.Box) || !p.Free(r) {
			continue
		}
		if !slices.ContainsFunc(passing, func(q Point) bool { return Holds(r, q) }) {
			if spot.From != nil {
				p.Lines(LineStyle{Color: style.Color, Width: 0.8}, []Point{*spot.From, spot.At.Sub(Point{X: 2})})
			}
			p.Put(style, spot.At, spot.Side, text)
			return true
		}
	}
	return false
}
