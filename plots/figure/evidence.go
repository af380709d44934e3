package figure

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/scenarios/validation/measured"
)

// Evidence is what was measured against what the library predicts, each with its bar; on the diagonal they agree.
type Evidence struct {
	Frame
	Comparisons []measured.Comparison
}

func (f Evidence) frame() Frame    { return f.Frame }
func (f Evidence) height() float64 { return 660 }

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

// evidenced is one panel: the quantities that it shows, in a unit.
type evidenced struct {
	name       string // with the unit
	factor     float64
	quantities []measured.Quantity
}

func (f Evidence) draw(s *sheet, headline string) {
	const gap, right, key vg.Length = 18, 205, 24
	room := s.framed(f.Frame, headline)
	s.evidenceKey(room)
	room.Max.Y -= key
	left := room
	left.Max.X -= right + gap
	f.panel(s, left, evidenced{"Measured content, %", 100, []measured.Quantity{measured.Equilibrium, measured.Uptake}}, "Predicted content, %")
	small := [...]evidenced{
		{"Diffusivity, m²/s", 1, []measured.Quantity{measured.Diffusivity}},
		{"Activation energy, kJ/mol", 1e-3, []measured.Quantity{measured.ActivationEnergy}},
		{"Ratio, warm to cold", 1, []measured.Quantity{measured.DiffusivityRatio, measured.EquilibriumRatio}},
	}
	height := room.Size().Y / vg.Length(len(small))
	for i, one := range small {
		part := room
		part.Min.X = left.Max.X + gap
		part.Max.Y = room.Max.Y - vg.Length(i)*height
		part.Min.Y = part.Max.Y - height + 4
		label := ""
		if i == len(small)-1 {
			label = "Predicted"
		}
		f.panel(s, part, one, label)
	}
}

// panel draws the figures of one group, the anchors first, and names what it can.
func (f Evidence) panel(s *sheet, room vg.Rectangle, e evidenced, below string) {
	var own []*measured.Comparison
	var all []float64
	for i := range f.Comparisons {
		c := &f.Comparisons[i]
		for _, q := range e.quantities {
			if c.Quantity == q {
				own = append(own, c)
				all = append(all, e.factor*c.Low, e.factor*c.High, e.factor*c.Predicted.Low, e.factor*c.Predicted.High)
			}
		}
	}
	if len(own) == 0 {
		return
	}
	both := logFrom(all)
	a := axes{x: both, y: both, xLabel: below, yLabel: e.name}
	p := s.inside(room, a)
	p.grid()
	p.frame(a)
	p.line(stroke(rule(), 1.2, dashed()...), []float64{both.min, both.max}, []float64{both.min, both.max})
	var passing []vg.Point
	for _, independent := range []bool{false, true} {
		for _, c := range own {
			if c.Independent() == independent {
				passing = append(passing, p.evidence(c, e.factor)...)
			}
		}
	}
	named := map[string]bool{}
	for _, v := range []measured.Verdict{measured.Outside, measured.Partly, measured.Inside} {
		for _, c := range own {
			if c.Independent() && c.Verdict == v {
				p.name(c, e.factor, named, passing)
			}
		}
	}
	for _, c := range own {
		if !c.Independent() {
			p.name(c, e.factor, named, passing)
		}
	}
}

// evidence draws the bars and the mark of one figure, and returns points on them.
func (p *panel) evidence(c *measured.Comparison, factor float64) []vg.Point {
	const thin vg.Length = 1.2
	m := p.evidenceAt(c, factor)
	color := mix(blue(), paper(), 0.5)
	if !c.Independent() {
		color = mix(rule(), paper(), 0.55)
	}
	var on []vg.Point
	for _, bar := range [][4]float64{
		{factor * c.Predicted.Low, factor * c.Middle(), factor * c.Predicted.High, factor * c.Middle()},
		{factor * c.Predicted.Value, factor * c.Low, factor * c.Predicted.Value, factor * c.High},
	} {
		from, to := p.at(bar[0], bar[1]), p.at(bar[2], bar[3])
		p.s.StrokeLine2(stroke(color, thin), from.X, from.Y, to.X, to.Y)
	}
	if !c.Independent() {
		p.dot(m, 2.6, rule())
		return append(on, m)
	}
	p.verdict(c.Verdict, m)
	return append(on, m, m.Add(vg.Point{X: 4}), m.Sub(vg.Point{X: 4}))
}

func (p *panel) evidenceAt(c *measured.Comparison, factor float64) vg.Point {
	return p.at(factor*c.Predicted.Value, factor*c.Middle())
}

// verdict draws a small mark: a disc inside, a ring partly, a cross outside.
func (p *panel) verdict(v measured.Verdict, at vg.Point) {
	if v == measured.Outside {
		const d = 3.6
		for _, turn := range [...]vg.Length{d, -d} {
			p.s.StrokeLine2(stroke(vermilion(), 2.2), at.X-d, at.Y-turn, at.X+d, at.Y+turn)
		}
		return
	}
	p.dot(at, 4.6, paper())
	p.dot(at, 4, blue())
	if v == measured.Partly {
		p.dot(at, 2.2, paper())
	}
}

// name sets the material beside its mark where there is room, once in a panel for each place that is far from the others.
func (p *panel) name(c *measured.Comparison, factor float64, named map[string]bool, passing []vg.Point) {
	const away vg.Length = 7
	m := p.evidenceAt(c, factor)
	cell := fmt.Sprintf("%s %.0f %.0f", c.Material, math.Round(float64(m.X)/40), math.Round(float64(m.Y)/40))
	if named[cell] {
		return
	}
	style := p.s.style(footerSize, quiet(), false)
	if c.Independent() {
		style = p.s.style(footerSize, legible(blue()), true)
		if c.Verdict == measured.Outside {
			style = p.s.style(footerSize, legible(vermilion()), true)
		}
	}
	places := []anchored{
		{at: m.Add(vg.Point{X: away}), a: toRight()}, {at: m.Sub(vg.Point{X: away}), a: toLeft()},
		{at: m.Add(vg.Point{Y: away}), a: alignment{-0.5, 0}}, {at: m.Sub(vg.Point{Y: away}), a: hanging()},
		{at: m.Add(vg.Point{X: 5, Y: 5}), a: alignment{0, 0}}, {at: m.Add(vg.Point{X: 5, Y: -5}), a: alignment{0, -1}},
		{at: m.Add(vg.Point{X: -5, Y: 5}), a: alignment{-1, 0}}, {at: m.Add(vg.Point{X: -5, Y: -5}), a: alignment{-1, -1}},
	}
	named[cell] = p.offer(style, c.Material, places, passing)
}

// evidenceKey explains the marks on one line below the headline.
func (s *sheet) evidenceKey(room vg.Rectangle) {
	p := &panel{s: s, box: room}
	style := s.style(footerSize, quiet(), false)
	at := vg.Point{X: room.Min.X + 5, Y: room.Max.Y - 6}
	for i, word := range []string{"inside the predicted interval", "partly", "outside", "grey: the library was made from it"} {
		switch i {
		case 3:
			p.dot(at, 2.6, rule())
		default:
			p.verdict([...]measured.Verdict{measured.Inside, measured.Partly, measured.Outside}[i], at)
		}
		s.put(style, at.Add(vg.Point{X: 9}), toRight(), word)
		at.X += style.Width(word) + 28
	}
}
