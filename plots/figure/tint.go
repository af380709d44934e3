package figure

import (
	"image"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// tint is the house's scale of moisture without steps: sand below the limit, blue above, even in the logarithm.
type tint struct {
	scale  scale // [kg/kg dry]
	limit  float64
	levels []float64 // that are numbered on the bar, rising, and the limit last
}

// tintOf spans the contents that are shown and the limit.
func tintOf(low, high, limit float64) tint {
	const beside, deepest = 1.5, 1e-3
	t := tint{limit: limit, scale: scale{log: true, max: math.Max(high, limit*beside)}}
	t.scale.min = math.Max(math.Min(low, limit/beside), t.scale.max*deepest)
	percents := scale{log: true, min: 100 * t.scale.min, max: 100 * t.scale.max}
	for _, tick := range percents.ticks(6) {
		if tick.label != "" && percents.holds(tick.value) {
			t.levels = append(t.levels, tick.value/100)
		}
	}
	t.levels = append(t.levels, limit)
	return t
}

// leastSpan is the ratio of contents for which the colours run through their whole depth at least.
const leastSpan = 10

// of is the colour of a content.
func (t tint) of(content float64) color.NRGBA {
	depth := func(ratio, end float64) float64 { return math.Log(ratio) / math.Log(math.Max(end, leastSpan)) }
	if content < t.limit {
		return mix(atLimitDry(), driest(), depth(t.limit/math.Max(content, t.scale.min), t.limit/t.scale.min))
	}
	return mix(atLimitWet(), wettest(), depth(content/t.limit, t.scale.max/t.limit))
}

// lines are the levels that are drawn as lines: none below the limit, for far below it a line would follow the numerical error.
func (t tint) lines() []float64 {
	return t.levels[slices.IndexFunc(t.levels, func(level float64) bool { return level >= t.limit }):]
}

// line is how a level is drawn: the limit stands out.
func (t tint) line(level float64) draw.LineStyle {
	if level == t.limit {
		return stroke(ink(), 1.6)
	}
	if luminance(t.of(level)) < 0.25 {
		return stroke(paper(), 0.6)
	}
	return stroke(quiet(), 0.5)
}

// barRoom is the height that the bar takes with all its words.
const barRoom = tickSize * 5.2

// bar draws the scale, its numbers in % below and the limit above.
func (t tint) bar(s *sheet, room vg.Rectangle) {
	inset := room.Size().X * 0.08
	box := vg.Rectangle{
		Min: vg.Point{X: room.Min.X + inset, Y: room.Min.Y + tickSize*2.8},
		Max: vg.Point{X: room.Max.X - inset, Y: room.Min.Y + tickSize*3.7},
	}
	const dots = 512
	picture := image.NewNRGBA(image.Rect(0, 0, dots, 1))
	for i := range dots {
		picture.SetNRGBA(i, 0, t.of(t.scale.value((float64(i)+0.5)/dots)))
	}
	s.DrawImage(box, picture)
	s.StrokeLines(stroke(rule(), 0.6), append(corners(box), box.Min))
	at := func(content float64) vg.Length { return box.Min.X + box.Size().X*vg.Length(t.scale.norm(content)) }
	numbers := s.style(tickSize, ink(), false)
	end := box.Min.X - inset
	for _, level := range t.levels[:len(t.levels)-1] {
		x, text := at(level), digits(100*level, 3)
		s.StrokeLine2(stroke(rule(), 1), x, box.Min.Y-tickLength, x, box.Min.Y)
		if half := numbers.Width(text) / 2; x-half > end+5 {
			s.put(numbers, vg.Point{X: x, Y: box.Min.Y - tickLength - 3}, hanging(), text)
			end = x + half
		}
	}
	x := at(t.limit)
	s.StrokeLine2(stroke(ink(), 2.4), x, box.Min.Y-3, x, box.Max.Y+4)
	s.put(s.style(tickSize, ink(), true), vg.Point{X: x, Y: box.Max.Y + tickSize*0.9}, centred(), "limit "+percent(t.limit))
	s.put(s.style(labelSize, ink(), false), vg.Point{X: middle(box).X, Y: room.Min.Y + labelSize*0.5}, centred(), "Moisture, % of dry weight")
}
