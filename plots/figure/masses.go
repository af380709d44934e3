package figure

import (
	"fmt"

	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Masses is the water in a strand over time by its weighings, and by what was fitted to them. Where the weighings do not tell the diffusivity it is the change of
// the mass alone, which rests on nothing that was fitted.
type Masses struct {
	Frame
	Weighed
}

// Headline says whether the weighings tell how fast water moves, and how well.
func (f Masses) Headline() string {
	grave := f.grave()
	switch {
	case !f.Told && grave != "":
		return "These weighings cannot tell how fast water moves: " + grave
	case !f.Told:
		return "These weighings do not tell how fast water moves: no better than " + f.within()
	case grave != "":
		return fmt.Sprintf("Doubtful: %s; else how fast water moves is known %s", grave, f.within())
	}
	return fmt.Sprintf("How fast water moves in this strand is known %s at %s, nine times in ten", f.within(), words.Celsius(f.Temperature))
}

// share is a mass [kg] of a run on the upright axis [%]: the water over the dry mass, or the change since the first weighing over that.
func (f Masses) share(run int, mass float64) float64 {
	r := &f.Runs[run]
	if f.Told {
		return 100 * (mass/r.Dry.Value - 1)
	}
	return 100 * (mass/r.Points[0].Mass - 1)
}

// scale holds all runs but for weighings that are off.
func (f Masses) scale() canvas.Scale {
	var values []float64
	for i := range f.Runs {
		r, off := &f.Runs[i], f.far(i)
		for k, p := range r.Points {
			if !off[k] {
				values = append(values, f.share(i, p.Mass-f.Step/2), f.share(i, p.Mass+f.Step/2))
			}
			values = append(values, f.share(i, r.Band[k].Low), f.share(i, r.Band[k].High))
		}
		if f.Told {
			low, middle, high := f.rest(i)
			values = append(values, low, middle, high)
		}
	}
	return canvas.LinearOver(values)
}

// rest is where a run comes to rest [%], with the ends that the dry mass has nine times in ten.
func (f Masses) rest(run int) (low, middle, high float64) {
	r := &f.Runs[run]
	at := func(dry float64) float64 { return f.share(run, dry*(1+r.Equilibrium)) }
	return at(r.Dry.Low), at(r.Dry.Value), at(r.Dry.High)
}

func (f Masses) draw(s *canvas.Sheet, room canvas.Rectangle) {
	label := "Water, % of dry weight"
	if !f.Told {
		label = "Change of mass since the first weighing, % of it"
		if len(f.Runs) > 1 {
			label = "Change since the first, % of it"
		}
	}
	room = f.below(s, room)
	signs := func(barred bool) []sign { return append(f.signs(s, barred), f.numbers(s)...) }
	left := under(s, room, signs(false)) // whose words are the longer ones
	barred := false
	f.panels(s, left, false, f.scale(), label, func(p *canvas.Panel, run int, seconds float64) {
		barred = f.run(p, run, seconds) || barred
	})
	legend(s, room, signs(barred))
}

// signs explain what is drawn; barred tells whether half a step of the scale shows beside a dot.
func (f Masses) signs(s *canvas.Sheet, barred bool) []sign {
	weighing := sign{func(at canvas.Point) { s.Disc(at, 3, palette.Blue) }, "weighing; half a step of the scale is within the dot"}
	if barred {
		weighing = sign{func(at canvas.Point) { bar(s, at, 7); s.Disc(at, 3, palette.Blue) }, "weighing, half a step of the scale either way"}
	}
	if !f.Told {
		return []sign{weighing, {func(at canvas.Point) { swatch(s, at, palette.Doubted) }, "what would fit, nine times in ten"}}
	}
	across := func(style canvas.LineStyle, at canvas.Point) {
		s.Segment(style, at.X-signHalf, at.Y, at.X+signHalf, at.Y)
	}
	return []sign{weighing,
		{func(at canvas.Point) { swatch(s, at, palette.Doubted); across(canvas.Stroke(palette.Blue, 2), at) }, "fit, nine times in ten"},
		{func(at canvas.Point) { swatch(s, at, palette.Faint); across(restStyle(), at) }, "at rest in this air, as sure as the dry mass is"}}
}

// swatch is a piece of a band in a legend.
func swatch(s *canvas.Sheet, at canvas.Point, c palette.Colour) {
	d := canvas.Point{X: signHalf, Y: 5}
	s.Fill(canvas.Rectangle{Min: at.Sub(d), Max: at.Add(d)}, c)
}

func restStyle() canvas.LineStyle { return canvas.Stroke(palette.Ink, 1.6, canvas.Dashed()...) }

// bar is half a step of the scale either way.
func bar(s *canvas.Sheet, at canvas.Point, half canvas.Length) {
	const end canvas.Length = 2.5
	style := canvas.Stroke(palette.Mix(palette.Blue, palette.Paper, 0.35), 1.2)
	s.Segment(style, at.X, at.Y-half, at.X, at.Y+half)
	for _, y := range [...]canvas.Length{at.Y - half, at.Y + half} {
		s.Segment(style, at.X-end, y, at.X+end, y)
	}
}

// run draws one run, and tells whether half a step of the scale shows.
func (f Masses) run(p *canvas.Panel, run int, seconds float64) (barred bool) {
	r := &f.Runs[run]
	x, low := r.smooth(seconds, func(i int) float64 { return f.share(run, r.Band[i].Low) })
	_, high := r.smooth(seconds, func(i int) float64 { return f.share(run, r.Band[i].High) })
	_, middle := r.smooth(seconds, func(i int) float64 { return f.share(run, r.Band[i].Value) })
	if f.Told {
		low, middle, high := f.rest(run)
		ends := []float64{0, p.X.Max}
		p.Band(ends, []float64{low, low}, []float64{high, high}, palette.Faint)
		p.Line(restStyle(), ends, []float64{middle, middle})
	}
	p.Band(x, low, high, palette.Doubted)
	if f.Told {
		p.Line(canvas.Stroke(palette.Blue, 1.6), x, middle)
	}
	half := p.Box.Size().Y * canvas.Length((f.share(run, f.Step)-f.share(run, 0))/(p.Y.Max-p.Y.Min)) / 2
	barred = half > dotRadius(len(r.Points))+1
	var at []canvas.Point
	for _, w := range r.Points {
		q := kept(p, w.Time/seconds, f.share(run, w.Mass))
		if at = append(at, q); barred {
			bar(p.Sheet, q, half)
		}
	}
	dots(p, at)
	f.number(p, run, at)
	if f.Told {
		f.nameRest(p, run, append(p.Points(x, middle), rims(at)...))
	}
	return barred
}

// rims are points about the dots of weighings, which no word is to touch.
func rims(dots []canvas.Point) []canvas.Point {
	const reach canvas.Length = 7
	var out []canvas.Point
	for _, q := range dots {
		out = append(out, q, q.Add(canvas.Point{Y: reach}), q.Sub(canvas.Point{Y: reach}), q.Add(canvas.Point{X: reach}), q.Sub(canvas.Point{X: reach}))
	}
	return out
}

// nameRest says what the strand holds at rest, where that is clear of what passes.
func (f Masses) nameRest(p *canvas.Panel, run int, passing []canvas.Point) {
	const away canvas.Length = 5
	low, _, high := f.rest(run)
	var places []canvas.Spot
	for _, from := range [...]canvas.Length{0, 0.1, 0.2, 0.3, 0.4, 0.5} {
		left, right := p.Box.Min.X+6+from*p.Box.Size().X, p.Box.Max.X-2-from*p.Box.Size().X
		places = append(places, canvas.Spot{At: canvas.Point{X: left, Y: p.AtY(low) - away}, Side: canvas.BelowRight}, canvas.Spot{At: canvas.Point{X: right, Y: p.AtY(low) - away}, Side: canvas.BelowLeft},
			canvas.Spot{At: canvas.Point{X: left, Y: p.AtY(high) + away}, Side: canvas.AboveRight}, canvas.Spot{At: canvas.Point{X: right, Y: p.AtY(high) + away}, Side: canvas.AboveLeft})
	}
	p.Offer(p.Style(canvas.FooterSize, palette.Ink, true), "at rest: "+words.Percent(f.Runs[run].Equilibrium), places, passing)
}
