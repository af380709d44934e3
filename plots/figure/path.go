package figure

import (
	"errors"
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Path is the strand along its path: its moisture above, its temperature and that of the
// air beneath.
type Path struct {
	Frame
	Design *diffusion.Design
	Trace  *diffusion.Trace
	Odds   *diffusion.Odds     // of the content at the nozzle; nil where they are not known
	Span   []diffusion.Between // 10 and 90 % points of the mean at the points of the trace [kg/kg dry]; nil where they are not known
}

func (f Path) height() canvas.Length { return 540 }

func (f Path) check() error {
	if err := checkTrace(f.Design, f.Trace); err != nil {
		return err
	}
	if f.Span != nil && len(f.Span) != len(f.Trace.Points) {
		return fmt.Errorf("figure: a band at %d places for %d points of the trace", len(f.Span), len(f.Trace.Points))
	}
	return nil
}

// atNozzle prints the mean there, with its 10 and 90 % points where they are known.
func atNozzle(t *diffusion.Trace, o *diffusion.Odds) string {
	mean := t.Points[len(t.Points)-1].Mean
	if o == nil {
		return words.Percent(mean)
	}
	return words.PercentSpan(mean, o.Low, o.High)
}

// checkTrace refuses a trace that cannot be drawn.
func checkTrace(m *diffusion.Design, t *diffusion.Trace) error {
	if m == nil || t == nil || len(t.Points) < 2 || len(m.Path) == 0 || len(t.Radius) < 2 {
		return errEmpty
	}
	if err := errors.Join(rising("radius", t.Radius), positive("limit", m.Limit)); err != nil {
		return err
	}
	for i, p := range t.Points {
		if p.Zone < 0 || p.Zone >= len(m.Path) || len(p.Profile) != len(t.Radius) {
			return fmt.Errorf("figure: point %d of the trace does not belong to this model", i+1)
		}
		if i > 0 && p.Position < t.Points[i-1].Position {
			return fmt.Errorf("figure: point %d of the trace lies before the one before it", i+1)
		}
	}
	return nil
}

// Headline compares the mean at the nozzle with the limit.
func (f Path) Headline() string {
	m, end := f.Design, f.Trace.Points[len(f.Trace.Points)-1]
	text := fmt.Sprintf("%s reaches the nozzle with %s of water, ", m.Material.Name, atNozzle(f.Trace, f.Odds))
	if end.Mean <= m.Limit {
		return text + fmt.Sprintf("within the limit of %s", words.Percent(m.Limit)) + heatWarning(m, f.Trace)
	}
	return text + fmt.Sprintf("%s the limit of %s", words.Times(end.Mean/m.Limit), words.Percent(m.Limit)) + heatWarning(m, f.Trace)
}

// series are the columns of a trace, contents in %.
type series struct{ x, mean, centre, skin, strand, air, low, high []float64 }

func (f Path) series() series {
	var s series
	for _, p := range f.Trace.Points {
		s.x = append(s.x, p.Position)
		s.mean, s.centre, s.skin = append(s.mean, 100*p.Mean), append(s.centre, 100*p.Centre), append(s.skin, 100*p.Skin)
		s.strand, s.air = append(s.strand, p.Temperature-words.ZeroCelsius), append(s.air, p.AirTemperature-words.ZeroCelsius)
	}
	for _, b := range f.Span {
		s.low, s.high = append(s.low, 100*b.Low), append(s.high, 100*b.High)
	}
	return s
}

func (f Path) draw(s *canvas.Sheet, room canvas.Rectangle) {
	c := f.series()
	last := len(c.x) - 1
	limit := 100 * f.Design.Limit
	along := canvas.Scale{Min: c.x[0], Max: c.x[last]}
	texts := []string{"centre " + words.Percent(c.centre[last]/100), "limit " + words.Percent(f.Design.Limit), "strand " + words.Celsius(f.Trace.Points[last].Temperature)}
	upper := canvas.Axes{
		X: along, Y: percents([]float64{limit}, c.mean, c.centre, c.skin, c.high),
		YLabel: "Moisture, % of dry weight", Bare: true, Right: s.EndRoom(texts...),
	}
	upper.Y.Max *= 1.08
	heat := heatOf(f.Design.Material.GivesWay())
	lower := canvas.Axes{
		X: along, Y: canvas.LinearOver(slices.Concat(c.strand, c.air, []float64{heat.Bears})), XLabel: "Place on the path, m", YLabel: "Temperature, °C", Right: upper.Right,
	}
	const below = 0.82 // of the panel, so that its name has room above
	lower.Y.Max = max(lower.Y.Max, lower.Y.Min+(heat.Bears-lower.Y.Min)/below)
	if near := heat.Yields - heat.Bears; near < 0.25*(lower.Y.Max-lower.Y.Min) { // both lines, and their name
		lower.Y.Max = max(lower.Y.Max, lower.Y.Min+(heat.Yields-lower.Y.Min)/below)
	}
	top, bottom := room, room
	top.Min.Y = room.Min.Y + room.Size().Y*0.4
	bottom.Max.Y = top.Min.Y - 6
	upper.Left = max(s.LeftRoom(upper.Y, top.Size().Y), s.LeftRoom(lower.Y, bottom.Size().Y*0.6))
	lower.Left = upper.Left

	p := s.Panel(top, upper)
	zones(p, f.Design)
	var labels []canvas.Label
	if c.low != nil {
		p.Band(c.x, c.low, c.high, palette.Doubted)
		labels = append(labels, canvas.Label{Text: "8 in 10", At: p.At(c.x[last], (c.high[last]+c.mean[last])/2), Colour: palette.Quiet})
	}
	p.Grid()
	nameZones(p, f.Design, p.Box.Max.Y-canvas.TickSize*0.8, true)
	p.Limit(limit)
	p.Line(canvas.Stroke(palette.Quiet, 1.6, canvas.Dotted()...), c.x, c.centre)
	p.Line(canvas.Stroke(palette.Vermilion, 1.8, 8, 3, 2, 3), c.x, c.skin)
	p.Line(canvas.Stroke(palette.Blue, 3.2), c.x, c.mean)
	p.Frame()
	p.Ends(append(labels,
		canvas.Label{Text: "mean " + words.Percent(c.mean[last]/100), At: p.At(c.x[last], c.mean[last]), Colour: palette.Blue, Bold: true},
		canvas.Label{Text: texts[0], At: p.At(c.x[last], c.centre[last]), Colour: palette.Quiet},
		canvas.Label{Text: "skin " + words.Percent(c.skin[last]/100), At: p.At(c.x[last], c.skin[last]), Colour: palette.Vermilion},
		canvas.Label{Text: texts[1], At: p.At(c.x[last], limit), Colour: palette.Ink, Bold: true},
	))

	q := s.Panel(bottom, lower)
	zones(q, f.Design)
	q.Grid()
	var passing []canvas.Point
	for i := 1; i <= last; i++ {
		passing = append(passing, canvas.Along(q.At(c.x[i-1], c.air[i-1]), q.At(c.x[i], c.air[i]))...)
		passing = append(passing, canvas.Along(q.At(c.x[i-1], c.strand[i-1]), q.At(c.x[i], c.strand[i]))...)
	}
	heat.level(q)
	heat.name(q, "°C", passing)
	q.Line(canvas.Stroke(palette.Orange, 2.4, canvas.Dashed()...), c.x, c.air)
	q.Line(canvas.Stroke(palette.Purple, 2.4), c.x, c.strand)
	q.Frame()
	q.Ends([]canvas.Label{
		{Text: "air " + words.Celsius(f.Trace.Points[last].AirTemperature), At: q.At(c.x[last], c.air[last]), Colour: palette.Orange},
		{Text: texts[2], At: q.At(c.x[last], c.strand[last]), Colour: palette.Purple},
	})
}

// PathOf makes the figure of a strand on its path, with the band that its odds give: two more marches.
func PathOf(w *diffusion.March, m *diffusion.Design, t *diffusion.Trace, o *diffusion.Odds, n diffusion.Settings, f Frame) (Path, error) {
	places := make([]float64, len(t.Points))
	for i, p := range t.Points {
		places[i] = p.Position
	}
	span, err := w.Span(m, o, n, places)
	return Path{Frame: f, Design: m, Trace: t, Odds: o, Span: span}, err
}
