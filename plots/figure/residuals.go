package figure

import (
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/estimation"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strandry/scenarios/studies/fit"
)

// Residuals is what a fit leaves of the weighings, in steps of the scale over time by its root, which spreads out a drying: a shape in it is one that
// the model does not have.
type Residuals struct {
	Frame
	Weighed
}

// Headline says whether what is left has a shape.
func (f Residuals) Headline() string {
	if shape := slices.IndexFunc(f.Findings, func(found fit.Finding) bool { return found.Kind == fit.Shape }); shape >= 0 {
		leave := "leave"
		if !f.Findings[shape].Grave() {
			leave = "may leave"
		}
		const least = 0.001 // that is told from the draws that there are
		often := "less than once in 1000 times"
		if f.Lack.Probability > least {
			often = fmt.Sprintf("about once in %s times", words.Digits(math.Floor(1/f.Lack.Probability), 1))
		}
		return fmt.Sprintf("The weighings %s a shape that no diffusivity gives: chance makes one like it %s", leave, often)
	}
	off := 0
	for i := range f.Runs {
		off += len(f.far(i))
	}
	switch {
	case off == 1:
		return "One weighing is far off and hides whether the fit leaves a shape: see to it first"
	case off > 1:
		return fmt.Sprintf("%d weighings are far off and hide whether the fit leaves a shape: see to them first", off)
	case f.Lack == (estimation.Lack{Probability: 1}): // nothing was tested
		return fmt.Sprintf("Too few weighings to see a shape in what the fit leaves: they scatter about it by %s of the scale", steps(f.spread()))
	case !f.Told:
		return "The fit leaves no shape, but these weighings do not tell how fast water moves"
	}
	return fmt.Sprintf("The fit leaves no shape that chance would not: the weighings scatter about it by %s of the scale", steps(f.spread()))
}

// steps prints a number of them.
func steps(x float64) string {
	text := words.Digits(x, 2)
	if text == "1" {
		return "1" + words.NBSP + "step"
	}
	return text + words.NBSP + "steps"
}

// spread of the residuals in steps of the scale, the root of the mean of their squares, but for weighings that are off.
func (f Residuals) spread() float64 {
	sum, count := 0.0, 0
	for i := range f.Runs {
		off := f.far(i)
		for k, r := range f.Runs[i].Residuals {
			if !off[k] {
				sum += r * r / f.Step / f.Step
				count++
			}
		}
	}
	return math.Sqrt(sum / math.Max(float64(count), 1))
}

// scale holds all residuals but for those of weighings that are off, and a step either way.
func (f Residuals) scale() canvas.Scale {
	most := 1.0
	for i := range f.Runs {
		off := f.far(i)
		for k, r := range f.Runs[i].Residuals {
			if !off[k] {
				most = math.Max(most, math.Abs(r)/f.Step)
			}
		}
	}
	const room = 1.2
	return canvas.Scale{Min: -room * most, Max: room * most}
}

func (f Residuals) draw(s *canvas.Sheet, room canvas.Rectangle) {
	label := "Shown less predicted, steps of the scale"
	if len(f.Runs) > 1 {
		label = "Shown less predicted, steps"
	}
	room = f.below(s, room)
	signs := append([]sign{
		{func(at canvas.Point) { s.Disc(at, 3, palette.Blue) }, "weighing"},
		{func(at canvas.Point) { swatch(s, at, palette.Doubted) }, "half a step either way, which rounding makes"},
	}, f.numbers(s)...)
	legend(s, room, signs)
	f.panels(s, under(s, room, signs), true, f.scale(), label, f.run)
}

// run draws what is left of one run.
func (f Residuals) run(p *canvas.Panel, run int, seconds float64) {
	r := &f.Runs[run]
	ends := []float64{0, p.X.Max}
	p.Band(ends, []float64{-0.5, -0.5}, []float64{0.5, 0.5}, palette.Doubted)
	p.Line(canvas.Stroke(palette.Ink, 1.2), ends, []float64{0, 0})
	var x, y []float64
	var at []canvas.Point
	for i, w := range r.Points {
		x, y = append(x, w.Time/seconds), append(y, r.Residuals[i]/f.Step)
		at = append(at, kept(p, x[i], y[i]))
	}
	p.Line(canvas.Stroke(palette.Mix(palette.Blue, palette.Paper, 0.5), 1.1), x, y)
	dots(p, at)
	f.number(p, run, at)
}
