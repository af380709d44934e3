package figure

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strandry/scenarios"
	"strandry/scenarios/studies/cheapest"
)

// Priced is a design with its price.
type Priced struct {
	Cost      float64 // in the user's currency
	Content   float64 // at the nozzle, at the medians [kg/kg dry]
	Low, High float64 // its 10 and 90 % points [kg/kg dry]
	Sound     bool    // it meets all demands, but that it may not be dry
	Verdict   palette.Meaning
}

// Front is moisture at the nozzle against cost: each design that was looked at, and those of which none is both cheaper and drier.
type Front struct {
	Frame
	Designs  []Priced // all
	Front    []Priced // the cheapest first
	Best     Priced   // that was chosen
	Met      bool     // it meets all demands
	Now      *Priced  // the design of the file; nil where it has no answer
	Limit    float64  // [kg/kg dry]
	Currency string   // "" where none is stated
	Material string   // as people write it
}

// FrontOf makes the figure of a search for the cheapest design of a scenario.
func FrontOf(s *scenarios.Scenario, a *cheapest.Answer, f Frame) Front {
	const dry = 0 // its index among the demands
	priced := func(d *cheapest.Design) Priced {
		verdict := palette.Unsure
		switch {
		case d.Violations[dry] <= 0:
			verdict = palette.Dry
		case d.Probability <= diffusion.OneInTen:
			verdict = palette.Wet
		}
		return Priced{Cost: d.Cost, Content: d.Mean, Low: d.Low, High: d.High, Sound: d.Meets(dry), Verdict: verdict}
	}
	for i := range s.Free {
		f.Setup = f.Setup.without(s.Free[i].Key)
		if strings.Contains(s.Free[i].Key.Name, ".shape.") {
			f.Setup.Length = ""
		}
	}
	f.Notes = append(slices.Clone(f.Notes), "faint: fails a demand")
	out := Front{Frame: f, Best: priced(&a.Best), Met: a.Met, Limit: a.Scenario.Limit, Currency: s.Machine.Currency, Material: s.Design.Material.Name}
	for _, d := range a.Looked {
		out.Designs = append(out.Designs, priced(d))
	}
	for _, d := range a.Front {
		out.Front = append(out.Front, priced(d))
	}
	if a.Now != nil {
		now := priced(a.Now)
		out.Now = &now
	}
	return out
}

func (f Front) height() canvas.Length { return 480 }

func (f Front) check() error {
	if len(f.Designs) == 0 {
		return errEmpty
	}
	var contents, costs []float64
	for _, d := range f.all() {
		contents, costs = append(contents, d.Content, d.Low, d.High), append(costs, d.Cost)
	}
	return errors.Join(positive("content and limit", append(contents, f.Limit)...), notNegative("cost", costs))
}

// all are the designs that are drawn.
func (f Front) all() []Priced {
	all := append(slices.Clone(f.Designs), f.Best)
	if f.Now != nil {
		all = append(all, *f.Now)
	}
	return all
}

// price prints a cost.
func (f Front) price(x float64) string {
	if f.Currency == "" {
		return words.Digits(x, 3)
	}
	return words.Digits(x, 3) + words.NBSP + f.Currency
}

// Headline says what dry strand costs, or how near the designs come.
func (f Front) Headline() string {
	left := words.PercentSpan(f.Best.Content, f.Best.Low, f.Best.High)
	if !f.Met {
		return fmt.Sprintf("%s: no design of %d looked at meets all demands; the nearest costs %s and leaves %s, the limit being %s", f.Material, len(f.Designs), f.price(f.Best.Cost), left, words.Percent(f.Limit))
	}
	text := fmt.Sprintf("%s is dry nine times in ten for %s, the cheapest of %d designs: it leaves %s, the limit being %s", f.Material, f.price(f.Best.Cost), len(f.Designs), left, words.Percent(f.Limit))
	if f.Now != nil && f.Now.Cost > f.Best.Cost {
		text += fmt.Sprintf("; as drawn it costs %s", f.price(f.Now.Cost))
	}
	return text
}

func (f Front) draw(s *canvas.Sheet, room canvas.Rectangle) {
	p := s.Panel(room, f.axes(s))
	p.Grid()
	for _, d := range f.Designs {
		at := p.At(d.Cost, f.shown(p, d.Content))
		if d.Sound {
			p.Disc(at, 1.8, palette.Bar)
		} else {
			p.Disc(at, 1.5, palette.Doubted)
		}
	}
	passing := f.spans(p)
	p.Limit(100 * f.Limit)
	for _, d := range f.all() {
		passing = append(passing, p.At(d.Cost, f.shown(p, d.Content)))
	}
	passing = append(passing, canvas.Along(p.At(p.X.Min, 100*f.Limit), p.At(p.X.Max, 100*f.Limit))...)
	f.mark(p, passing)
	f.legend(p)
	p.Frame()
	y := p.AtY(100 * f.Limit)
	p.Ends([]canvas.Label{{Text: "limit " + words.Percent(f.Limit), At: canvas.Point{X: p.Box.Max.X, Y: y}, Colour: palette.Ink, Bold: true}})
}

// axes go over all designs.
func (f Front) axes(s *canvas.Sheet) canvas.Axes {
	var x, y []float64
	for _, d := range f.all() {
		x, y = append(x, d.Cost), append(y, 100*d.Content)
	}
	for _, d := range append(slices.Clone(f.Front), f.Best) {
		y = append(y, 100*d.Low, 100*d.High)
	}
	a := canvas.Axes{X: canvas.LinearOver(x), Y: canvas.LogOver(append(y, 100*f.Limit)), XLabel: "Cost", YLabel: "Moisture at the nozzle, % of dry weight",
		Right: s.EndRoom("limit " + words.Percent(f.Limit)), Strip: legendStrip}
	if f.Currency != "" {
		a.XLabel += ", " + f.Currency
	}
	if low, high := canvas.Bounds(x); low > 0 && high/low > steep {
		a.X = canvas.LogOver(x)
	}
	a.Y.Min = max(a.Y.Min, 100*f.Limit*deepest)
	return a
}

// shown is a content in %, no lower than the axis.
func (f Front) shown(p *canvas.Panel, content float64) float64 { return max(100*content, p.Y.Min) }

// spans draws the front, with the range of each of its designs where there is room for it, and returns where those run.
func (f Front) spans(p *canvas.Panel) (passing []canvas.Point) {
	const apart = 9
	last := p.Box.Min.X - apart
	for _, d := range f.Front {
		if x := p.AtX(d.Cost); x >= last+apart {
			passing = append(passing, f.span(p, canvas.Stroke(palette.Mix(d.Verdict.Mark(), palette.Paper, 0.5), 2), d)...)
			last = x
		}
	}
	for _, d := range f.Front {
		f.dot(p, d, 3)
	}
	return passing
}

// span draws where the content of a design lies eight times in ten.
func (f Front) span(p *canvas.Panel, style canvas.LineStyle, d Priced) []canvas.Point {
	low, high := p.At(d.Cost, f.shown(p, d.Low)), p.At(d.Cost, f.shown(p, d.High))
	p.Segment(style, low.X, low.Y, high.X, high.Y)
	return canvas.Along(low, high)
}

// dot draws a design by its verdict: full where it is dry, open where that is unsure, a cross where it is wet.
func (f Front) dot(p *canvas.Panel, d Priced, radius canvas.Length) {
	f.dotAt(p, p.At(d.Cost, f.shown(p, d.Content)), d.Verdict, radius)
}

func (f Front) dotAt(p *canvas.Panel, at canvas.Point, verdict palette.Meaning, radius canvas.Length) {
	c := verdict.Mark()
	switch verdict {
	case palette.Wet:
		p.Cross(canvas.Stroke(c, 1.6), at, radius)
	case palette.Unsure:
		p.Disc(at, radius, c)
		p.Disc(at, radius*0.55, palette.Paper)
	default:
		p.Disc(at, radius, c)
	}
}

// mark names the design that was chosen and that of the file, and says what the marks of the front mean.
func (f Front) mark(p *canvas.Panel, passing []canvas.Point) {
	name := "cheapest: "
	if !f.Met {
		name = "nearest: "
	}
	passing = append(passing, f.span(p, canvas.Stroke(f.Best.Verdict.Mark(), 3), f.Best)...)
	if f.Now != nil {
		passing = append(passing, f.span(p, canvas.Stroke(palette.Quiet, 2), *f.Now)...)
	}
	at := p.At(f.Best.Cost, f.shown(p, f.Best.Content))
	p.Disc(at, 8, palette.Ink)
	p.Disc(at, 6, palette.Paper)
	f.dot(p, f.Best, 4.5)
	p.Place(p.Style(canvas.LabelSize, palette.Ink, true), name+f.price(f.Best.Cost), spotsBy(at), passing)
	if f.Now != nil {
		at = p.At(f.Now.Cost, f.shown(p, f.Now.Content))
		p.Disc(at, 5, palette.Ink)
		p.Disc(at, 3.5, palette.Paper)
		p.Place(p.Style(canvas.LabelSize, palette.Ink, false), "as drawn: "+f.price(f.Now.Cost), spotsBy(at), passing)
	}
}

// legend says, above the panel, what the marks of the front mean.
func (f Front) legend(p *canvas.Panel) {
	style, x, y := p.Style(canvas.TickSize, palette.Quiet, false), p.Box.Min.X, p.Box.Max.Y+legendStrip/2
	for _, m := range [...]palette.Meaning{palette.Dry, palette.Unsure, palette.Wet} {
		text := m.String()
		if m == palette.Dry {
			text = "dry nine times in ten"
		}
		f.dotAt(p, canvas.Point{X: x + 6, Y: y}, m, 4)
		p.Put(style, canvas.Point{X: x + 14, Y: y}, canvas.Right, text)
		x += 14 + style.Width(text) + 18
	}
	p.Disc(canvas.Point{X: x + 6, Y: y}, 1.8, palette.Bar)
	p.Put(style, canvas.Point{X: x + 14, Y: y}, canvas.Right, "other designs")
}

const legendStrip canvas.Length = 22

// spotsBy are places for a name, the nearest first.
func spotsBy(at canvas.Point) []canvas.Spot {
	var all []canvas.Spot
	for _, far := range [...]canvas.Length{14, 26, 40, 60, 90, 130} {
		from := at
		all = append(all, canvas.Spot{At: canvas.Point{X: at.X + far, Y: at.Y + far}, Side: canvas.Right, From: &from}, canvas.Spot{At: canvas.Point{X: at.X + far, Y: at.Y - far}, Side: canvas.Right, From: &from},
			canvas.Spot{At: canvas.Point{X: at.X - far, Y: at.Y + far}, Side: canvas.Left, From: &from}, canvas.Spot{At: canvas.Point{X: at.X - far, Y: at.Y - far}, Side: canvas.Left, From: &from})
	}
	return all
}
