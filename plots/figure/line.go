package figure

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
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
	Of        string              // what the content is, such as "moisture at the nozzle"

	// Met and Likely are those of [Map].
	Met, Likely float64
}

func (f Line) frame() Frame    { return f.Frame }
func (f Line) height() float64 { return 440 }

func (f Line) check() error {
	if err := f.X.check(); err != nil {
		return err
	}
	if len(f.Content) != len(f.X.Values) {
		return fmt.Errorf("figure: %d contents for %d values of %s", len(f.Content), len(f.X.Values), f.X.Name)
	}
	if len(f.Low) != len(f.High) || f.Low != nil && len(f.Low) != len(f.Content) {
		return fmt.Errorf("figure: %d low and %d high contents for %d values of %s", len(f.Low), len(f.High), len(f.X.Values), f.X.Name)
	}
	if err := finite("content", join(f.Content, f.Low, f.High)...); err != nil {
		return err
	}
	if err := checkExcess(f.asMap().Excess, [][]float64{f.Content}); err != nil {
		return err
	}
	if err := checkRatio(f.asMap().Ratio, [][]float64{f.Content}); err != nil {
		return err
	}
	return positive("limit", f.Limit)
}

// keeps prints the content at a value with its 10 and 90 % points.
func (f Line) keeps(i int) string {
	if f.Low == nil {
		return percent(f.Content[i])
	}
	return percentSpan(f.Content[i], f.Low[i], f.High[i])
}

// asMap is the line as a map of one row.
func (f Line) asMap() Map {
	m := Map{X: f.X, Y: Axis{Values: []float64{0}}, Content: [][]float64{f.Content}, Limit: f.Limit, Met: f.Met, Likely: f.Likely}
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
	asMap := f.asMap()
	if fit, soft, doubtful := asMap.Fits(); soft > 0 {
		first, last := f.soft()
		text := fmt.Sprintf("At %d of %d values of the %s the limit of %s is met and the strand does not soften", fit, len(f.Content), f.X.Name, percent(f.Limit))
		switch {
		case fit == 0:
			text = fmt.Sprintf("No %s shown both meets the limit of %s and keeps the strand from softening", f.X.Name, percent(f.Limit))
		case doubtful > 0:
			text += fmt.Sprintf(" (at %d of them it may)", doubtful)
		}
		return text + fmt.Sprintf("; from %s to %s it softens", f.X.say(first), f.X.say(last))
	}
	return f.moist(asMap) + asMap.doubted()
}

// soft is the first and the last value at which the strand softens.
func (f Line) soft() (first, last float64) {
	found := false
	for i, x := range f.Excess {
		if x.Survival() != diffusion.Softens {
			continue
		}
		if last = f.X.Values[i]; !found {
			first, found = last, true
		}
	}
	return first, last
}

// moist is the headline of the moisture alone.
func (f Line) moist(asMap Map) string {
	di, _, wi, _ := asMap.extremes()
	driest, wettest := f.Content[di], f.Content[wi]
	switch {
	case driest > f.Limit:
		return fmt.Sprintf("No %s shown meets the limit of %s; the driest keeps %s, at %s", f.X.Name, percent(f.Limit), f.keeps(di), f.X.say(f.X.Values[di]))
	case wettest <= f.Limit:
		return fmt.Sprintf("The limit of %s is met at every %s shown; the wettest keeps %s, at %s", percent(f.Limit), f.X.Name, f.keeps(wi), f.X.say(f.X.Values[wi]))
	}
	if _, text, ok := asMap.asked(); ok {
		return fmt.Sprintf("The limit of %s asks for a %s", percent(f.Limit), text)
	}
	return fmt.Sprintf("The driest %s shown is %s: it keeps %s, the limit being %s", f.X.Name, f.X.say(f.X.Values[di]), f.keeps(di), percent(f.Limit))
}

// deepest is how far below the limit a logarithmic axis reaches.
const deepest = 1e-3

// steep is the ratio of wettest to driest above which the contents get a logarithmic axis.
const steep = 30

func (f Line) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	of := f.Of
	if of == "" {
		of = "moisture at the nozzle"
	}
	all := hundredfold(join(f.Content, f.Low, f.High, []float64{f.Limit}))
	y := contents(100*f.Limit, all)
	if low, high := bounds(all); low > 0 && high/low > steep {
		y = logFrom(all)
		y.min = max(y.min, 100*f.Limit*deepest)
	}
	texts := []string{"limit " + digits(100*f.Limit, 2) + nbsp + "%", "mean " + digits(100*f.Content[len(f.Content)-1], 2) + nbsp + "%"}
	a := axes{
		x: f.X.scale(), y: y, xLabel: f.X.label(), right: s.endRoom(texts...),
		yLabel: Axis{Name: of, Unit: "% of dry weight"}.label(),
	}
	if a.strip = f.X.Heat.strip(a.x); f.X.Heat == nil && f.hot() {
		a.strip = heatStrip
	}
	p := s.inside(room, a)
	f.shade(p)
	last := len(f.Content) - 1
	var labels []label
	end := func(v float64) vg.Point { return vg.Point{X: p.box.Max.X, Y: max(p.atY(100*v), p.box.Min.Y)} }
	if f.Low != nil {
		x, low := p.curve(f.X.Values, f.Low)
		_, high := p.curve(f.X.Values, f.High)
		p.band(x, low, high, doubted())
		labels = append(labels, label{text: "8 in 10", at: end((f.High[last] + f.Content[last]) / 2), color: quiet()})
	}
	p.grid()
	p.limit(100 * f.Limit)
	x, mean := p.curve(f.X.Values, f.Content)
	p.line(stroke(blue(), 3), x, mean)
	if f.X.Heat != nil {
		p.heatUpright(f.X.Heat, f.X.Unit)
	}
	p.frame(a)
	p.ends(append(labels,
		label{text: "mean " + digits(100*f.Content[last], 2) + nbsp + "%", at: end(f.Content[last]), color: blue(), bold: true},
		label{text: texts[0], at: end(f.Limit), color: ink(), bold: true}))
}

// curve goes smoothly through contents [kg/kg dry], which it gives in %.
func (p *panel) curve(x, content []float64) (fine, percents []float64) {
	at, y := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		at[i], y[i] = p.x.norm(x[i]), p.y.norm(math.Max(100*content[i], p.y.min))
	}
	shares := evenSteps(at[0], at[len(at)-1])
	for i, v := range through(at, y, shares) {
		fine, percents = append(fine, p.x.value(shares[i])), append(percents, p.y.value(v))
	}
	return fine, percents
}

// shade hatches and names where the strand softens, or may.
func (f Line) shade(p *panel) {
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
		r := p.box
		r.Min.X += p.box.Size().X * vg.Length(from) / steps
		r.Max.X = p.box.Min.X + p.box.Size().X*vg.Length(min(k, steps))/steps
		p.hatched(r, s)
		if f.X.Heat == nil {
			p.above(r, map[diffusion.Survival]string{diffusion.Softens: "softens", diffusion.Doubtful: "may soften"}[s])
		}
	}
}

// survival is that at a share of the axis.
func (f Line) survival(p *panel, share float64) diffusion.Survival {
	n := len(f.X.Values)
	i := 0
	for i < n-2 && p.x.norm(f.X.Values[i+1]) < share {
		i++
	}
	a, b := p.x.norm(f.X.Values[i]), p.x.norm(f.X.Values[i+1])
	w := (share - a) / (b - a)
	x, y := f.Excess[i], f.Excess[i+1]
	return diffusion.Excess{Yield: x.Yield + w*(y.Yield-x.Yield), Bear: x.Bear + w*(y.Bear-x.Bear)}.Survival()
}

func hundredfold(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = 100 * v
	}
	return out
}

// hot tells that the strand softens somewhere, or may.
func (f Line) hot() bool {
	return slices.ContainsFunc(f.Excess, func(x diffusion.Excess) bool { return x.Survival() != diffusion.Holds })
}
