package figure

import (
	"fmt"
	"strings"

	"strandry/diffusion/sensitivity"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strandry/scenarios/studies/doubt"
)

// Doubt is the share of each unknown in the doubt of an answer: bars by itself and with others, and the interval of each.
type Doubt struct {
	Frame
	Rows    []doubt.Row // in the order shown, from above
	Decides int         // how many of them it may be that decide
	Narrows doubt.Row   // that narrows the interval most, if it is known
}

// DoubtOf makes the figure of the answer about a doubt.
func DoubtOf(answer *doubt.Answer, f Frame) Doubt {
	return Doubt{Frame: f, Rows: answer.Rows, Decides: len(answer.Decides()), Narrows: answer.Narrows()}
}

func (f Doubt) height() canvas.Length {
	const pitch = 38 // takes a name of two lines
	return canvas.Length(195 + pitch*len(f.Rows))
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
		for _, x := range [...]sensitivity.Index{r.First, r.Total} {
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
		return "0" + words.NBSP + "%"
	case share < 0.005:
		return "<1" + words.NBSP + "%"
	}
	return fmt.Sprintf("%.0f", 100*share) + words.NBSP + "%"
}

// narrower says what the interval comes to if an unknown is known.
func narrower(left float64) string {
	if left > 0.995 {
		return "no narrower"
	}
	return perCent(1-left) + " narrower"
}

func (f Doubt) draw(s *canvas.Sheet, room canvas.Rectangle) {
	most := 0.0
	for _, r := range f.Rows {
		most = max(most, r.Total.High)
	}
	a := canvas.Axes{X: canvas.Scale{Max: 100 * min(1.14, 1.14*most)}, Y: canvas.Scale{Max: 1}, XLabel: "Share of the doubt about content over limit, %", Left: 178, Right: 118, Strip: canvas.TickSize * 1.3}
	top := canvas.Point{X: room.Min.X, Y: room.Max.Y - canvas.TickSize*0.6}
	room.Max.Y -= canvas.TickSize * 1.5
	p := s.Panel(room, a)
	shareLegend(p, top)
	p.Put(p.Style(canvas.TickSize, palette.Quiet, false), canvas.Point{X: room.Max.X, Y: p.Box.Max.Y + canvas.TickSize*0.65}, canvas.Left, "interval, if known")
	p.UprightGrid()
	for k := range f.Rows {
		f.row(p, k)
	}
	p.Segment(canvas.Stroke(palette.Rule, 1), p.Box.Min.X, p.Box.Min.Y, p.Box.Min.X, p.Box.Max.Y)
	p.FrameBelow()
}

// row draws the name, the two bars with their intervals, and what it is worth to know this one.
func (f Doubt) row(p *canvas.Panel, k int) {
	r := &f.Rows[k]
	names, texts := p.Style(canvas.TickSize, palette.Ink, k < f.Decides), p.Style(canvas.TickSize, palette.Quiet, false)
	y := p.Box.Max.Y - p.Box.Size().Y/canvas.Length(len(f.Rows))*(canvas.Length(k)+0.5)
	room := p.Box.Min.X - p.Edges().Min.X - canvas.Margin - 8
	lines := canvas.Wrap(r.Unknown, room, names.Width)
	lines = lines[:min(2, len(lines))]
	for i, line := range lines {
		at := y + canvas.TickSize*0.57*canvas.Length(len(lines)-1-2*i)
		p.Put(names, canvas.Point{X: p.Box.Min.X - 8, Y: at}, canvas.Left, canvas.Clipped(line, room, names.Width))
	}
	share(p, r.First, y+7, palette.Quiet)
	share(p, r.Total, y-7, palette.Bar)
	p.Put(texts, canvas.Point{X: p.Edges().Max.X - canvas.Margin, Y: y}, canvas.Left, narrower(r.Left))
}

const barHalf canvas.Length = 6

// share draws a bar with its interval as a whisker, and its number behind.
func share(p *canvas.Panel, x sensitivity.Index, y canvas.Length, fill palette.Colour) {
	p.Fill(canvas.Rectangle{Min: canvas.Point{X: p.Box.Min.X, Y: y - barHalf}, Max: canvas.Point{X: p.AtX(100 * x.Value), Y: y + barHalf}}, fill)
	low, high := p.AtX(100*x.Low), p.AtX(100*x.High)
	whisker(p, canvas.Stroke(palette.Paper, 3.6), low, high, y)
	whisker(p, canvas.Stroke(palette.Ink, 1.6), low, high, y)
	p.Put(p.Style(canvas.FooterSize, palette.Quiet, false), canvas.Point{X: high + 7, Y: y}, canvas.Right, perCent(x.Value))
}

// whisker draws an interval with its ends.
func whisker(p *canvas.Panel, style canvas.LineStyle, low, high, y canvas.Length) {
	const half canvas.Length = 3.5
	p.Segment(style, low, y, high, y)
	p.Segment(style, low, y-half, low, y+half)
	p.Segment(style, high, y-half, high, y+half)
}

// shareLegend explains the bars on one line, from the left.
func shareLegend(p *canvas.Panel, at canvas.Point) {
	const wide canvas.Length = 22
	style := p.Style(canvas.TickSize, palette.Quiet, false)
	for i, text := range [...]string{"by itself", "with what it does beside others", "nine times in ten"} {
		end := at.Add(canvas.Point{X: wide})
		if i < 2 {
			p.Fill(canvas.Rectangle{Min: at.Sub(canvas.Point{Y: barHalf}), Max: end.Add(canvas.Point{Y: barHalf})}, [...]palette.Colour{palette.Quiet, palette.Bar}[i])
		} else {
			whisker(p, canvas.Stroke(palette.Ink, 1.6), at.X, end.X, at.Y)
		}
		p.Put(style, end.Add(canvas.Point{X: 6}), canvas.Right, text)
		at.X = end.X + 6 + style.Width(text) + 18
	}
}
