package moisture

import (
	"image"
	"math"
	"slices"

	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

const tickLength canvas.Length = 5

// Tint is a scale of moisture without steps: sand below the limit, blue above, even in the logarithm.
type Tint struct {
	scale  canvas.Scale // [kg/kg dry]
	limit  float64
	levels []float64 // that are numbered on the bar, rising, and the limit last
}

// TintOf spans the contents that are shown and the limit [kg/kg dry].
func TintOf(low, high, limit float64) Tint {
	const beside, deepest = 1.5, 1e-3
	t := Tint{limit: limit, scale: canvas.Scale{Log: true, Max: math.Max(high, limit*beside)}}
	t.scale.Min = math.Max(math.Min(low, limit/beside), t.scale.Max*deepest)
	percents := canvas.Scale{Log: true, Min: 100 * t.scale.Min, Max: 100 * t.scale.Max}
	for _, tick := range percents.Ticks(6) {
		if tick.Label != "" && percents.Holds(tick.Value) {
			t.levels = append(t.levels, tick.Value/100)
		}
	}
	t.levels = append(t.levels, limit)
	return t
}

// leastSpan is the ratio of contents for which the colours run through their whole depth at least.
const leastSpan = 10

// of is the colour of a content, by its logarithm.
func (t Tint) of(log float64) palette.Colour {
	limit, log := math.Log(t.limit), math.Max(log, math.Log(t.scale.Min))
	depth := func(ratio, end float64) float64 { return ratio / math.Log(math.Max(end, leastSpan)) }
	if log < limit {
		return palette.Mix(palette.AtLimitDry, palette.Dry.Mark(), depth(limit-log, t.limit/t.scale.Min))
	}
	return palette.Mix(palette.AtLimitWet, palette.Wet.Mark(), depth(log-limit, t.scale.Max/t.limit))
}

// lines are the levels that are drawn as lines: none below the limit, for far below it a line would follow the numerical error.
func (t Tint) lines() []float64 {
	return t.levels[slices.IndexFunc(t.levels, func(level float64) bool { return level >= t.limit }):]
}

// line is how a level is drawn: the limit stands out.
func (t Tint) line(level float64) canvas.LineStyle {
	if level == t.limit {
		return canvas.Stroke(palette.Ink, 1.6)
	}
	if palette.Luminance(t.of(math.Log(level))) < 0.25 {
		return canvas.Stroke(palette.Paper, 0.6)
	}
	return canvas.Stroke(palette.Quiet, 0.5)
}

// BarRoom is the height that the bar takes with all its words.
const BarRoom = canvas.TickSize * 5.2

// Bar draws the scale, its numbers in % below and the limit above.
func (t Tint) Bar(s *canvas.Sheet, room canvas.Rectangle) {
	inset := room.Size().X * 0.08
	box := canvas.Rectangle{
		Min: canvas.Point{X: room.Min.X + inset, Y: room.Min.Y + canvas.TickSize*2.8},
		Max: canvas.Point{X: room.Max.X - inset, Y: room.Min.Y + canvas.TickSize*3.7},
	}
	const dots = 512
	picture := image.NewNRGBA(image.Rect(0, 0, dots, 1))
	for i := range dots {
		picture.SetNRGBA(i, 0, t.of(math.Log(t.scale.Value((float64(i)+0.5)/dots))).NRGBA())
	}
	s.Picture(box, picture)
	s.Lines(canvas.Stroke(palette.Rule, 0.6), append(canvas.Corners(box), box.Min))
	at := func(content float64) canvas.Length {
		return box.Min.X + box.Size().X*canvas.Length(t.scale.Norm(content))
	}
	numbers := s.Style(canvas.TickSize, palette.Ink, false)
	end := box.Min.X - inset
	for _, level := range t.levels[:len(t.levels)-1] {
		x, text := at(level), words.Digits(100*level, 3)
		s.Segment(canvas.Stroke(palette.Rule, 1), x, box.Min.Y-tickLength, x, box.Min.Y)
		if half := numbers.Width(text) / 2; x-half > end+5 {
			s.Put(numbers, canvas.Point{X: x, Y: box.Min.Y - tickLength - 3}, canvas.Below, text)
			end = x + half
		}
	}
	x := at(t.limit)
	s.Segment(canvas.Stroke(palette.Ink, 2.4), x, box.Min.Y-3, x, box.Max.Y+4)
	s.Put(s.Style(canvas.TickSize, palette.Ink, true), canvas.Point{X: x, Y: box.Max.Y + canvas.TickSize*0.9}, canvas.Centred, "limit "+words.Percent(t.limit))
	s.Put(s.Style(canvas.LabelSize, palette.Ink, false), canvas.Point{X: canvas.Middle(box).X, Y: room.Min.Y + canvas.LabelSize*0.5}, canvas.Centred, "Moisture, % of dry weight")
}
