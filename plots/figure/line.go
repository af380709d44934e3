package figure

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/field"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Line is moisture over one axis, with the band in which it lies eight times in ten.
type Line struct {
	Frame
	X         Axis
	Content   []float64           // [kg/kg dry]
	Low, High []float64           // its 10 and 90 % points [kg/kg dry]; nil where they are not known
	Excess    []diffusion.Excess  // of the heat; nil where every strand holds
	Limit     float64             // [kg/kg dry]
	Ratio     []diffusion.Between // 10 and 90 % points of the content over the limit [-]; nil where they are not known
	Of        string              // what the content is; "" for the moisture at the nozzle
	Says      string              // the headline; "" for the one that the data give

	// Met and Reliable are those of [Map].
	Met, Reliable float64
}

func (f Line) height() canvas.Length { return 440 }

func (f Line) check() error {
	err := errors.Join(f.X.check(), f.asMap().checkRows())
	if f.Low != nil || f.High != nil {
		err = errors.Join(err, grid("low and high content", [][]float64{f.Low, f.High}, 2, len(f.X.Values)))
	}
	return err
}

// keeps prints the content at a value with its 10 and 90 % points.
func (f Line) keeps(i int) string {
	if f.Low == nil {
		return words.Percent(f.Content[i])
	}
	return words.PercentSpan(f.Content[i], f.Low[i], f.High[i])
}

// asMap is the line as a map of one row.
func (f Line) asMap() Map {
	m := Map{X: f.X, Y: Axis{Values: []float64{0}}, Content: [][]float64{f.Content}, Limit: f.Limit, Met: f.Met, Reliable: f.Reliable}
	if f.Excess != nil {
		m.Excess = [][]diffusion.Excess{f.Excess}
	}
	if f.Ratio != nil {
		m.Ratio = [][]diffusion.Between{f.Ratio}
	}
	return m
}

// Headline says where along the axis the limit is met, or how near the driest comes.
func (f Line) Headline() string {
	if f.Says != "" {
		return f.Says
	}
	asMap := f.asMap()
	if fit, soft, doubtful := asMap.Fits(); soft > 0 {
		first, last := f.soft()
		text := fmt.Sprintf("At %d of %d values of the %s the limit of %s is met and the strand does not soften", fit, len(f.Content), f.X.Name, words.Percent(f.Limit))
		switch {
		case fit == 0:
			text = fmt.Sprintf("No %s shown both meets the limit of %s and keeps the strand from softening", f.X.Name, words.Percent(f.Limit))
		case doubtful > 0:
			text += fmt.Sprintf(" (at %d of them it may)", doubtful)
		}
		return text + fmt.Sprintf("; from %s to %s it softens", f.X.say(first), f.X.say(last))
	}
	return f.moist(asMap) + asMap.doubted()
}

// soft is the first and the last value at which the strand softens.
func (f Line) soft() (first, last float64) {
	all := runs(len(f.Excess), func(i int) bool { return f.Excess[i].Survival() == diffusion.Softens })
	return f.X.Values[all[0][0]], f.X.Values[all[len(all)-1][1]-1]
}

// moist is the headline of the moisture alone.
func (f Line) moist(asMap Map) string {
	di, _, wi, _ := asMap.extremes()
	driest, wettest := f.Content[di], f.Content[wi]
	switch {
	case driest > f.Limit:
		return fmt.Sprintf("No %s shown meets the limit of %s; the driest keeps %s, at %s", f.X.Name, words.Percent(f.Limit), f.keeps(di), f.X.say(f.X.Values[di]))
	case wettest <= f.Limit:
		return fmt.Sprintf("The limit of %s is met at every %s shown; the wettest keeps %s, at %s", words.Percent(f.Limit), f.X.Name, f.keeps(wi), f.X.say(f.X.Values[wi]))
	}
	if _, text, ok := asMap.threshold(); ok {
		return fmt.Sprintf("The limit of %s asks for a %s", words.Percent(f.Limit), text)
	}
	return fmt.Sprintf("The driest %s shown is %s: it keeps %s, the limit being %s", f.X.Name, f.X.say(f.X.Values[di]), f.keeps(di), words.Percent(f.Limit))
}

// deepest is how far below the limit a logarithmic axis reaches.
const deepest = 1e-3

// steep is the ratio of wettest to driest above which the contents get a logarithmic axis.
const steep = 30

func (f Line) draw(s *canvas.Sheet, room canvas.Rectangle) {
	all := each(slices.Concat(f.Content, f.Low, f.High, []float64{f.Limit}), hundredfold)
	y := percents(all)
	if low, high := canvas.Bounds(all); low > 0 && high/low > steep {
		y = canvas.LogOver(all)
		y.Min = max(y.Min, 100*f.Limit*deepest)
	}
	texts := []string{"limit " + words.Digits(100*f.Limit, 2) + words.NBSP + "%", "mean " + words.Digits(100*f.Content[len(f.Content)-1], 2) + words.NBSP + "%"}
	a := canvas.Axes{
		X: f.X.scale(), Y: y, XLabel: f.X.label(), Right: s.EndRoom(texts...),
		YLabel: Axis{Name: cmp.Or(f.Of, "moisture at the nozzle"), Unit: "% of dry weight"}.label(),
	}
	if a.Strip = f.X.Heat.strip(a.X); f.X.Heat == nil && slices.ContainsFunc(f.Excess, func(x diffusion.Excess) bool { return x.Survival() != diffusion.Holds }) {
		a.Strip = heatStrip // where it softens, or may
	}
	p := s.Panel(room, a)
	f.shade(p)
	last := len(f.Content) - 1
	var labels []canvas.Label
	end := func(v float64) canvas.Point { return canvas.Point{X: p.Box.Max.X, Y: max(p.AtY(100*v), p.Box.Min.Y)} }
	if f.Low != nil {
		x, low := curve(p, f.X.Values, f.Low)
		_, high := curve(p, f.X.Values, f.High)
		p.Band(x, low, high, palette.Doubted)
		labels = append(labels, canvas.Label{Text: "8 in 10", At: end((f.High[last] + f.Content[last]) / 2), Colour: palette.Quiet})
	}
	p.Grid()
	p.Limit(100 * f.Limit)
	x, mean := curve(p, f.X.Values, f.Content)
	p.Line(canvas.Stroke(palette.Blue, 3), x, mean)
	if f.X.Heat != nil {
		f.X.Heat.upright(p, f.X.Unit)
	}
	p.Frame()
	p.Ends(append(labels,
		canvas.Label{Text: "mean " + words.Digits(100*f.Content[last], 2) + words.NBSP + "%", At: end(f.Content[last]), Colour: palette.Blue, Bold: true},
		canvas.Label{Text: texts[0], At: end(f.Limit), Colour: palette.Ink, Bold: true}))
}

// curve goes smoothly through contents [kg/kg dry], which it gives in %.
func curve(p *canvas.Panel, x, content []float64) (fine, inPercent []float64) {
	at, y := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		at[i], y[i] = p.X.Norm(x[i]), p.Y.Norm(math.Max(100*content[i], p.Y.Min))
	}
	shares := evenSteps(at[0], at[len(at)-1])
	for i, v := range field.Through(at, y, shares) {
		fine, inPercent = append(fine, p.X.Value(shares[i])), append(inPercent, p.Y.Value(v))
	}
	return fine, inPercent
}

// shade hatches and names where the strand softens, or may.
func (f Line) shade(p *canvas.Panel) {
	if f.Excess == nil {
		return
	}
	const steps = 480
	at := func(k int) diffusion.Survival { return f.survival(p, float64(k)/steps) }
	for k := 0; k <= steps; {
		from, s := k, at(k)
		for k <= steps && at(k) == s {
			k++
		}
		if s == diffusion.Holds {
			continue
		}
		r := p.Box
		r.Min.X += p.Box.Size().X * canvas.Length(from) / steps
		r.Max.X = p.Box.Min.X + p.Box.Size().X*canvas.Length(min(k, steps))/steps
		hatched(p, r, s)
		if f.X.Heat == nil {
			nameAbove(p, r, map[diffusion.Survival]string{diffusion.Softens: "softens", diffusion.Doubtful: "may soften"}[s])
		}
	}
}

// survival is that at a share of the axis.
func (f Line) survival(p *canvas.Panel, share float64) diffusion.Survival {
	n := len(f.X.Values)
	i := 0
	for i < n-2 && p.X.Norm(f.X.Values[i+1]) < share {
		i++
	}
	a, b := p.X.Norm(f.X.Values[i]), p.X.Norm(f.X.Values[i+1])
	w := (share - a) / (b - a)
	x, y := f.Excess[i], f.Excess[i+1]
	return diffusion.Excess{Yield: x.Yield + w*(y.Yield-x.Yield), Bear: x.Bear + w*(y.Bear-x.Bear)}.Survival()
}
