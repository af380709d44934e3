package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/scenarios/validation/measured"
)

// Evidence is what was measured against what the library predicts, each with its bar; on the diagonal they agree.
type Evidence struct {
	Frame
	Comparisons []measured.Comparison
}

func (f Evidence) height() canvas.Length { return 660 }

func (f Evidence) check() error {
	if len(f.Comparisons) == 0 {
		return errEmpty
	}
	for i := range f.Comparisons {
		c := &f.Comparisons[i]
		p := c.Predicted
		if err := positive(c.Material+", "+c.Quantity.String(), c.Low, c.High, p.Value, p.Low, p.High); err != nil {
			return err
		}
	}
	return nil
}

// Headline counts where the independent figures lie.
func (f Evidence) Headline() string {
	var count [3]int
	for i := range f.Comparisons {
		if c := &f.Comparisons[i]; c.Independent() {
			count[c.Verdict]++
		}
	}
	return fmt.Sprintf("Of %d independent figures %d lie inside what the library predicts, %d partly, %d outside",
		count[0]+count[1]+count[2], count[measured.Inside], count[measured.Partly], count[measured.Outside])
}

// evidencePanel is one panel: the quantities that it shows, in a unit.
type evidencePanel struct {
	*canvas.Panel
	factor float64
}

func (f Evidence) draw(s *canvas.Sheet, room canvas.Rectangle) {
	const gap, right, key canvas.Length = 18, 205, 24
	evidenceKey(s, room)
	room.Max.Y -= key
	left := room
	left.Max.X -= right + gap
	f.panel(s, left, "Measured content, %", "Predicted content, %", 100, measured.Equilibrium, measured.Uptake)
	small := room
	small.Min.X = left.Max.X + gap
	height := room.Size().Y / 3
	next := func() canvas.Rectangle {
		part := small
		part.Min.Y = part.Max.Y - height + 4
		small.Max.Y -= height
		return part
	}
	f.panel(s, next(), "Diffusivity, m²/s", "", 1, measured.Diffusivity)
	f.panel(s, next(), "Activation energy, kJ/mol", "", 1e-3, measured.ActivationEnergy)
	f.panel(s, next(), "Ratio, warm to cold", "Predicted", 1, measured.DiffusivityRatio, measured.EquilibriumRatio)
}

// panel draws the figures of some quantities, so many times as great, the anchors first, and names what it can.
func (f Evidence) panel(s *canvas.Sheet, room canvas.Rectangle, name, below string, factor float64, quantities ...measured.Quantity) {
	var own []*measured.Comparison
	var all []float64
	for i := range f.Comparisons {
		if c := &f.Comparisons[i]; slices.Contains(quantities, c.Quantity) {
			own = append(own, c)
			all = append(all, factor*c.Low, factor*c.High, factor*c.Predicted.Low, factor*c.Predicted.High)
		}
	}
	if len(own) == 0 {
		return
	}
	both := canvas.LogOver(all)
	p := evidencePanel{s.Panel(room, canvas.Axes{X: both, Y: both, XLabel: below, YLabel: name}), factor}
	p.Grid()
	p.Frame()
	p.Line(canvas.Stroke(palette.Rule, 1.2, canvas.Dashed()...), []float64{both.Min, both.Max}, []float64{both.Min, both.Max})
	var passing []canvas.Point
	for _, independent := range []bool{false, true} {
		for _, c := range own {
			if c.Independent() == independent {
				passing = append(passing, p.draw(c)...)
			}
		}
	}
	named := map[string]bool{}
	for _, c := range slices.SortedStableFunc(slices.Values(own), func(a, b *measured.Comparison) int { return cmp.Compare(rank(a), rank(b)) }) {
		p.name(c, named, passing)
	}
}

// rank is the order in which figures get their names: those that lie outside first, anchors last.
func rank(c *measured.Comparison) int {
	if !c.Independent() {
		return 3
	}
	return map[measured.Verdict]int{measured.Outside: 0, measured.Partly: 1, measured.Inside: 2}[c.Verdict]
}

func (p *evidencePanel) at(c *measured.Comparison) canvas.Point {
	return p.At(p.factor*c.Predicted.Value, p.factor*c.Middle())
}

// draw draws the bars and the mark of one figure, and returns points on them.
func (p *evidencePanel) draw(c *measured.Comparison) []canvas.Point {
	m, colour := p.at(c), palette.Mix(palette.Blue, palette.Paper, 0.5)
	if !c.Independent() {
		colour = palette.Mix(palette.Rule, palette.Paper, 0.55)
	}
	bar := canvas.Stroke(colour, 1.2)
	p.Segment(bar, p.AtX(p.factor*c.Predicted.Low), m.Y, p.AtX(p.factor*c.Predicted.High), m.Y)
	p.Segment(bar, m.X, p.AtY(p.factor*c.Low), m.X, p.AtY(p.factor*c.High))
	if !c.Independent() {
		p.Disc(m, 2.6, palette.Rule)
		return []canvas.Point{m}
	}
	verdict(p.Sheet, c.Verdict, m)
	return []canvas.Point{m, m.Add(canvas.Point{X: 4}), m.Sub(canvas.Point{X: 4})}
}

// verdict draws a small mark: a disc inside, a ring partly, a cross outside.
func verdict(s *canvas.Sheet, v measured.Verdict, at canvas.Point) {
	if v == measured.Outside {
		s.Cross(canvas.Stroke(palette.Vermilion, 2.2), at, 3.6)
		return
	}
	s.Disc(at, 4.6, palette.Paper)
	s.Disc(at, 4, palette.Blue)
	if v == measured.Partly {
		s.Disc(at, 2.2, palette.Paper)
	}
}

// name sets the material beside its mark where there is room, once in a panel for each place that is far from the others.
func (p *evidencePanel) name(c *measured.Comparison, named map[string]bool, passing []canvas.Point) {
	m := p.at(c)
	cell := fmt.Sprintf("%s %.0f %.0f", c.Material, math.Round(float64(m.X)/40), math.Round(float64(m.Y)/40))
	if named[cell] {
		return
	}
	style := p.Style(canvas.FooterSize, palette.Quiet, false)
	switch {
	case c.Independent() && c.Verdict == measured.Outside:
		style = p.Style(canvas.FooterSize, palette.Legible(palette.Vermilion), true)
	case c.Independent():
		style = p.Style(canvas.FooterSize, palette.Legible(palette.Blue), true)
	}
	const away, slant = 7, 5
	var places []canvas.Spot
	for _, one := range [...]struct {
		x, y canvas.Length
		side canvas.Side
	}{
		{away, 0, canvas.Right}, {-away, 0, canvas.Left}, {0, away, canvas.Above}, {0, -away, canvas.Below},
		{slant, slant, canvas.AboveRight}, {slant, -slant, canvas.BelowRight}, {-slant, slant, canvas.AboveLeft}, {-slant, -slant, canvas.BelowLeft},
	} {
		places = append(places, canvas.Spot{At: m.Add(canvas.Point{X: one.x, Y: one.y}), Side: one.side})
	}
	named[cell] = p.Offer(style, c.Material, places, passing)
}

// evidenceKey explains the marks on one line below the headline.
func evidenceKey(s *canvas.Sheet, room canvas.Rectangle) {
	style := s.Style(canvas.FooterSize, palette.Quiet, false)
	at := canvas.Point{X: room.Min.X + 5, Y: room.Max.Y - 6}
	marks := [...]measured.Verdict{measured.Inside, measured.Partly, measured.Outside}
	for i, word := range []string{"inside the predicted interval", "partly", "outside", "grey: the library was made from it"} {
		if i < len(marks) {
			verdict(s, marks[i], at)
		} else {
			s.Disc(at, 2.6, palette.Rule)
		}
		s.Put(style, at.Add(canvas.Point{X: 9}), canvas.Right, word)
		at.X += style.Width(word) + 28
	}
}
