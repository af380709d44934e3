package figure

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// Path is the strand along its path: its moisture above, its temperature and that of the
// air beneath.
type Path struct {
	Frame
	Model *diffusion.Design
	Trace *diffusion.Trace
	Odds  *diffusion.Odds     // of the content at the nozzle; nil where they are not known
	Span  []diffusion.Between // 10 and 90 % points of the mean at the points of the trace [kg/kg dry]; nil where they are not known
}

func (f Path) frame() Frame    { return f.Frame }
func (f Path) height() float64 { return 540 }

func (f Path) check() error {
	if err := checkTrace(f.Model, f.Trace); err != nil {
		return err
	}
	if f.Span != nil && len(f.Span) != len(f.Trace.Points) {
		return fmt.Errorf("figure: a band at %d places for %d points of the trace", len(f.Span), len(f.Trace.Points))
	}
	for i, b := range f.Span {
		if err := finite(fmt.Sprintf("band at point %d", i+1), b.Low, b.High); err != nil {
			return err
		}
	}
	return nil
}

// atNozzle prints the mean there, with its 10 and 90 % points where they are known.
func atNozzle(t *diffusion.Trace, o *diffusion.Odds) string {
	mean := t.Points[len(t.Points)-1].Mean
	if o == nil {
		return percent(mean)
	}
	return percentSpan(mean, o.Low, o.High)
}

// checkTrace refuses a trace that cannot be drawn.
func checkTrace(m *diffusion.Design, t *diffusion.Trace) error {
	if m == nil || t == nil || len(t.Points) < 2 || len(m.Path) == 0 || len(t.Radius) < 2 {
		return errEmpty
	}
	if err := rising("radius", t.Radius); err != nil {
		return err
	}
	if err := positive("limit", m.Limit); err != nil {
		return err
	}
	for i, p := range t.Points {
		if p.Zone < 0 || p.Zone >= len(m.Path) || len(p.Profile) != len(t.Radius) {
			return fmt.Errorf("figure: point %d of the trace does not belong to this model", i+1)
		}
		if err := finite(fmt.Sprintf("point %d", i+1), p.Position, p.Mean, p.Centre, p.Skin, p.Temperature, p.AirTemperature); err != nil {
			return err
		}
		if err := finite(fmt.Sprintf("profile %d", i+1), p.Profile...); err != nil {
			return err
		}
		if i > 0 && p.Position < t.Points[i-1].Position {
			return fmt.Errorf("figure: point %d of the trace lies before the one before it", i+1)
		}
	}
	return nil
}

// Headline compares the mean at the nozzle with the limit.
func (f Path) Headline() string {
	m, end := f.Model, f.Trace.Points[len(f.Trace.Points)-1]
	text := fmt.Sprintf("%s reaches the nozzle with %s of water, ", m.Material.Name, atNozzle(f.Trace, f.Odds))
	if dry(m.Limit, end.Mean) {
		return text + fmt.Sprintf("within the limit of %s", percent(m.Limit)) + fate(m, f.Trace)
	}
	return text + fmt.Sprintf("%s the limit of %s", times(end.Mean/m.Limit), percent(m.Limit)) + fate(m, f.Trace)
}

// series are the columns of a trace, contents in %.
type series struct{ x, mean, centre, skin, strand, air, low, high []float64 }

func (f Path) series() series {
	var s series
	for _, p := range f.Trace.Points {
		s.x = append(s.x, p.Position)
		s.mean, s.centre, s.skin = append(s.mean, 100*p.Mean), append(s.centre, 100*p.Centre), append(s.skin, 100*p.Skin)
		s.strand, s.air = append(s.strand, p.Temperature-zeroCelsius), append(s.air, p.AirTemperature-zeroCelsius)
	}
	for _, b := range f.Span {
		s.low, s.high = append(s.low, 100*b.Low), append(s.high, 100*b.High)
	}
	return s
}

func (f Path) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	c := f.series()
	last := len(c.x) - 1
	limit := 100 * f.Model.Limit
	along := scale{min: c.x[0], max: c.x[last]}
	texts := []string{"centre " + percent(c.centre[last]/100), "limit " + percent(f.Model.Limit), "strand " + celsius(f.Trace.Points[last].Temperature)}
	upper := axes{
		x: along, y: contents(limit, c.mean, c.centre, c.skin, c.high).higher(1.08),
		yLabel: "Moisture, % of dry weight", bare: true, right: s.endRoom(texts...),
	}
	heat := heatOf(f.Model.Material.GivesWay())
	lower := axes{
		x: along, y: linearFrom(join(c.strand, c.air, []float64{heat.Bears})), xLabel: "Place on the path, m", yLabel: "Temperature, °C", right: upper.right,
	}
	const below = 0.82 // of the panel, so that its name has room above
	lower.y.max = max(lower.y.max, lower.y.min+(heat.Bears-lower.y.min)/below)
	if near := heat.Yields - heat.Bears; near < 0.25*(lower.y.max-lower.y.min) { // both lines, and their name
		lower.y.max = max(lower.y.max, lower.y.min+(heat.Yields-lower.y.min)/below)
	}
	top, bottom := room, room
	top.Min.Y = room.Min.Y + room.Size().Y*0.4
	bottom.Max.Y = top.Min.Y - 6
	upper.left = max(s.leftRoom(upper.y, top.Size().Y), s.leftRoom(lower.y, bottom.Size().Y*0.6))
	lower.left = upper.left

	p := s.inside(top, upper)
	zones(p, f.Model)
	var labels []label
	if c.low != nil {
		p.band(c.x, c.low, c.high, doubted())
		labels = append(labels, label{text: "8 in 10", at: p.at(c.x[last], (c.high[last]+c.mean[last])/2), color: quiet()})
	}
	p.grid()
	nameZones(p, f.Model, p.box.Max.Y-tickSize*0.8, true)
	p.limit(limit)
	p.line(stroke(quiet(), 1.6, dotted()...), c.x, c.centre)
	p.line(stroke(vermilion(), 1.8, 8, 3, 2, 3), c.x, c.skin)
	p.line(stroke(blue(), 3.2), c.x, c.mean)
	p.frame(upper)
	p.ends(append(labels,
		label{text: "mean " + percent(c.mean[last]/100), at: p.at(c.x[last], c.mean[last]), color: blue(), bold: true},
		label{text: texts[0], at: p.at(c.x[last], c.centre[last]), color: quiet()},
		label{text: "skin " + percent(c.skin[last]/100), at: p.at(c.x[last], c.skin[last]), color: vermilion()},
		label{text: texts[1], at: p.at(c.x[last], limit), color: ink(), bold: true},
	))

	q := s.inside(bottom, lower)
	zones(q, f.Model)
	q.grid()
	var passing []vg.Point
	for i := 1; i <= last; i++ {
		passing = append(passing, dense(q.at(c.x[i-1], c.air[i-1]), q.at(c.x[i], c.air[i]))...)
		passing = append(passing, dense(q.at(c.x[i-1], c.strand[i-1]), q.at(c.x[i], c.strand[i]))...)
	}
	q.heatLevel(heat)
	q.heatNames(heat, "°C", passing)
	q.line(stroke(orange(), 2.4, dashed()...), c.x, c.air)
	q.line(stroke(purple(), 2.4), c.x, c.strand)
	q.frame(lower)
	q.ends([]label{
		{text: "air " + celsius(f.Trace.Points[last].AirTemperature), at: q.at(c.x[last], c.air[last]), color: orange()},
		{text: texts[2], at: q.at(c.x[last], c.strand[last]), color: purple()},
	})
}

func join(all ...[]float64) []float64 {
	var out []float64
	for _, a := range all {
		out = append(out, a...)
	}
	return out
}
