package figure

import (
	"errors"
	"fmt"
	"slices"

	"strandry/diffusion/machine"
	"strandry/materials/humidair"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Filling is the dew point that a bed of desiccant holds while it fills, up to the one that it has to hold.
type Filling struct {
	Frame
	Kind      string    // of desiccant
	Mass      float64   // dry [kg]
	Hours     []float64 // since it was fresh
	Dew       []float64 // dew or frost point that it holds then [K]
	Target    float64   // the same, that it has to hold [K]
	Life      float64   // until it holds that no longer [h]
	Low, High float64   // between these the life lies nine times in ten, by the doubt of the isotherm alone [h]
}

const secondsInHour = 3600

// FillingOf draws up how a bed fills; else the reason is told for which there is nothing to draw.
func FillingOf(b *machine.Filled, f Frame) (out Filling, reason string) {
	switch {
	case !b.Used:
		return out, "no air goes over a desiccant that is stated"
	case b.Life.Never:
		return out, "the bed holds its dew point for good: no water reaches it then"
	case b.Life.Seconds == 0 || len(b.Fill) < 2:
		return out, "the bed never holds the dew point that is wanted"
	}
	out = Filling{
		Frame: f, Kind: b.Bed.Isotherm.Kind.String(), Mass: b.Bed.DryMass, Target: humidair.DewPoint(b.Target),
		Life: b.Life.Seconds / secondsInHour, Low: b.Low / secondsInHour, High: b.High / secondsInHour,
	}
	for _, s := range b.Fill {
		if n := len(out.Hours); n > 0 && s.Time/secondsInHour <= out.Hours[n-1] {
			continue // a step of the isotherm, that takes no time
		}
		out.Hours, out.Dew = append(out.Hours, s.Time/secondsInHour), append(out.Dew, s.DewPoint)
	}
	if len(out.Hours) < 2 {
		return out, "the bed is full at once"
	}
	return out, ""
}

func (f Filling) height() canvas.Length { return 420 }

func (f Filling) check() error {
	if len(f.Hours) < 2 || len(f.Dew) != len(f.Hours) {
		return errEmpty
	}
	if f.Low < 0 || f.Low > f.Life || f.High < f.Life {
		return fmt.Errorf("figure: a life of %g h that lies between %g and %g h", f.Life, f.Low, f.High)
	}
	return errors.Join(positive("life", f.Life), positive("dew point", append(slices.Clone(f.Dew), f.Target)...), rising("hours", f.Hours))
}

// Headline says how long the dew point is held.
func (f Filling) Headline() string {
	unit, by := f.unit()
	in := func(x float64) string { return words.Digits(x*by, 2) }
	return fmt.Sprintf("%s of %s holds a dew point of %s for %s (%s to %s) %s", massOf(f.Mass), f.Kind, words.Celsius(f.Target), in(f.Life), in(f.Low), in(f.High), unit)
}

// unit is that in which its times read best, and what an hour is in it.
func (f Filling) unit() (name string, hour float64) {
	const most, day = 72, 24
	if f.High > most {
		return "days", 1.0 / day
	}
	return "h", 1
}

// massOf prints a mass [kg].
func massOf(kg float64) string {
	if kg < 1 {
		return words.Digits(1000*kg, 3) + words.NBSP + "g"
	}
	return words.Digits(kg, 3) + words.NBSP + "kg"
}

func (f Filling) draw(s *canvas.Sheet, room canvas.Rectangle) {
	target := f.Target - words.ZeroCelsius
	dew := make([]float64, len(f.Dew))
	for i, d := range f.Dew {
		dew[i] = d - words.ZeroCelsius
	}
	unit, hour := f.unit()
	texts := [2]string{"wanted " + words.Celsius(f.Target), "at first " + words.Celsius(f.Dew[0])}
	a := canvas.Axes{
		X: canvas.Scale{Max: 1.05 * hour * max(f.High, f.Life)}, Y: canvas.LinearOver(append([]float64{target}, dew...)),
		XLabel: "Time since the bed was fresh, " + unit, YLabel: "Dew point that it holds, °C", Right: s.EndRoom(texts[0]),
	}
	p := s.Panel(room, a)
	p.Grid()
	times, early, late := make([]float64, len(f.Hours)), make([]float64, len(f.Hours)), make([]float64, len(f.Hours))
	for i, t := range f.Hours {
		times[i], early[i], late[i] = t*hour, t*hour*f.Low/f.Life, t*hour*f.High/f.Life
	}
	under := p.Points(late, dew)
	slices.Reverse(under)
	p.Polygon(palette.Doubted, append(p.Points(early, dew), under...))
	p.Limit(target)
	p.Line(canvas.Stroke(palette.Blue, 3.2), times, dew)
	p.Frame()
	p.Ends([]canvas.Label{{Text: texts[0], At: canvas.Point{X: p.Box.Max.X, Y: p.AtY(target)}, Colour: palette.Ink, Bold: true}})
	names(p, times, late, dew, texts[1])
}

// names tells the line from the band, where there is room.
func names(p *canvas.Panel, times, late, dew []float64, first string) {
	var passing []canvas.Point
	for i := 1; i < len(dew); i++ {
		passing = append(passing, canvas.Along(p.At(times[i-1], dew[i-1]), p.At(times[i], dew[i]))...)
	}
	offer := func(text string, c palette.Colour, bold bool, at canvas.Point) {
		var spots []canvas.Spot
		for _, by := range []canvas.Length{10, 26, 44} {
			spots = append(spots, canvas.Spot{At: at.Add(canvas.Point{X: by, Y: -by / 2}), Side: canvas.BelowRight}, canvas.Spot{At: at.Add(canvas.Point{X: by}), Side: canvas.Right})
		}
		p.Offer(p.Style(canvas.LabelSize, c, bold), text, spots, passing)
	}
	offer(first, palette.Legible(palette.Blue), true, p.At(times[0], dew[0]))
	middle := len(dew) / 2
	offer("nine times in ten", palette.Quiet, false, p.At(late[middle], dew[middle]))
}
