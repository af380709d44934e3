package figure

import (
	"fmt"
	"image/color"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/diffusion/sensitivity"
	"strandry/scenarios/studies/doubt"
)

// Doubt is the share of each unknown in the doubt of an answer: bars by itself and with others, and the interval of each.
type Doubt struct {
	Frame
	Rows    []doubt.Row // in the order shown, from above
	Decides int         // how many of them it may be that decide
	Narrows doubt.Row   // that narrows the interval most, if it is known
}

// DoubtOf makes the figure of a study.
func DoubtOf(study *doubt.Study, f Frame) Doubt {
	return Doubt{Frame: f, Rows: study.Rows, Decides: len(study.Decides()), Narrows: study.Narrows()}
}

func (f Doubt) frame() Frame { return f.Frame }

func (f Doubt) height() float64 {
	const pitch vg.Length = 38 // takes a name of two lines
	return float64(195 + pitch*vg.Length(len(f.Rows)))
}

func (f Doubt) check() error {
	if len(f.Rows) == 0 {
		return errEmpty
	}
	if f.Decides < 1 || f.Decides > len(f.Rows) {
		return fmt.Errorf("figure: %d of %d unknowns decide", f.Decides, len(f.Rows))
	}
	for _, r := range f.Rows {
		if r.Unknown == "" {
			return errEmpty
		}
		if err := finite(r.Unknown, r.Left); err != nil {
			return err
		}
		for _, x := range [...]sensitivity.Index{r.First, r.Total} {
			if err := finite(r.Unknown, x.Value, x.Low, x.High); err != nil {
				return err
			}
			if !(0 <= x.Low && x.Low <= x.Value && x.Value <= x.High && x.High <= 1) {
				return fmt.Errorf("figure: %s: a share of %g between %g and %g", r.Unknown, x.Value, x.Low, x.High)
			}
		}
	}
	return nil
}

// Headline names what decides, and what narrows the interval.
func (f Doubt) Headline() string {
	var names []string
	for _, r := range f.Rows[:f.Decides] {
		names = append(names, r.Unknown)
	}
	text := fmt.Sprintf("Any of these may decide: %s", strings.Join(names, ", "))
	if f.Decides == 1 {
		text = fmt.Sprintf("The %s makes %s of the doubt", names[0], perCent(f.Rows[0].Total.Value))
	}
	who := "the " + f.Narrows.Unknown
	if names[0] == f.Narrows.Unknown && f.Decides == 1 {
		who = "it"
	}
	return fmt.Sprintf("%s; to know %s leaves the interval %s", text, who, narrower(f.Narrows.Left))
}

// perCent prints a share, of which less than half a per cent counts as less than one.
func perCent(share float64) string {
	switch {
	case share == 0:
		return "0" + nbsp + "%"
	case share < 0.005:
		return "<1" + nbsp + "%"
	}
	return fmt.Sprintf("%.0f", 100*share) + nbsp + "%"
}

// narrower says what the interval comes to if an unknown is known.
func narrower(left float64) string {
	if left > 0.995 {
		return "no narrower"
	}
	return perCent(1-left) + " narrower"
}

func (f Doubt) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	most := 0.0
	for _, r := range f.Rows {
		most = max(most, r.Total.High)
	}
	a := axes{x: scale{max: 100 * min(1.14, 1.14*most)}, y: scale{max: 1}, xLabel: "Share of the doubt about content over limit, %", left: 178, right: 118, strip: tickSize * 1.3}
	top := room.Max.Y - tickSize*0.6
	room.Max.Y -= tickSize * 1.5
	p := s.inside(room, a)
	p.shareLegend(vg.Point{X: room.Min.X, Y: top})
	s.put(s.style(tickSize, quiet(), false), vg.Point{X: room.Max.X, Y: p.box.Max.Y + tickSize*0.65}, toLeft(), "interval, if known")
	for _, t := range p.x.ticks(ticksAlong(p.box.Size().X, true)) {
		s.StrokeLine2(stroke(faint(), 0.8), p.atX(t.value), p.box.Min.Y, p.atX(t.value), p.box.Max.Y)
	}
	for k := range f.Rows {
		f.row(p, k)
	}
	s.StrokeLine2(stroke(rule(), 1), p.box.Min.X, p.box.Min.Y, p.box.Min.X, p.box.Max.Y)
	p.across(a)
}

// row draws the name, the two bars with their intervals, and what it is worth to know this one.
func (f Doubt) row(p *panel, k int) {
	r := &f.Rows[k]
	names, texts := p.s.style(tickSize, ink(), k < f.Decides), p.s.style(tickSize, quiet(), false)
	y := p.box.Max.Y - p.box.Size().Y/vg.Length(len(f.Rows))*(vg.Length(k)+0.5)
	lines := wrap(r.Unknown, p.box.Min.X-p.s.Min.X-margin-8, names.Width)
	for i, line := range lines[:min(2, len(lines))] {
		at := y + tickSize*0.57*vg.Length(min(2, len(lines))-1-2*i)
		p.s.put(names, vg.Point{X: p.box.Min.X - 8, Y: at}, toLeft(), clipped(line, p.box.Min.X-p.s.Min.X-margin-8, names.Width))
	}
	p.share(r.First, y+7, quiet())
	p.share(r.Total, y-7, barColor())
	p.s.put(texts, vg.Point{X: p.s.Max.X - margin, Y: y}, toLeft(), narrower(r.Left))
}

const barHalf vg.Length = 6

// share draws a bar with its interval as a whisker, and its number behind.
func (p *panel) share(x sensitivity.Index, y vg.Length, fill color.Color) {
	p.s.fill(vg.Rectangle{Min: vg.Point{X: p.box.Min.X, Y: y - barHalf}, Max: vg.Point{X: p.atX(100 * x.Value), Y: y + barHalf}}, fill)
	low, high := p.atX(100*x.Low), p.atX(100*x.High)
	p.whisker(stroke(paper(), 3.6), low, high, y)
	p.whisker(stroke(ink(), 1.6), low, high, y)
	p.s.put(p.s.style(footerSize, quiet(), false), vg.Point{X: high + 7, Y: y}, toRight(), perCent(x.Value))
}

// whisker draws an interval with its ends.
func (p *panel) whisker(style draw.LineStyle, low, high, y vg.Length) {
	const half vg.Length = 3.5
	p.s.StrokeLine2(style, low, y, high, y)
	p.s.StrokeLine2(style, low, y-half, low, y+half)
	p.s.StrokeLine2(style, high, y-half, high, y+half)
}

// shareLegend explains the bars on one line, from the left.
func (p *panel) shareLegend(at vg.Point) {
	const wide vg.Length = 22
	style := p.s.style(tickSize, quiet(), false)
	for i, text := range [...]string{"by itself", "with what it does beside others", "nine times in ten"} {
		end := at.Add(vg.Point{X: wide})
		if i < 2 {
			p.s.fill(vg.Rectangle{Min: at.Sub(vg.Point{Y: barHalf}), Max: end.Add(vg.Point{Y: barHalf})}, [...]color.Color{quiet(), barColor()}[i])
		} else {
			p.whisker(stroke(ink(), 1.6), at.X, end.X, at.Y)
		}
		p.s.put(style, end.Add(vg.Point{X: 6}), toRight(), text)
		at.X = end.X + 6 + style.Width(text) + 18
	}
}
