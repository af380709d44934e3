package figure

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// Line is moisture over one axis, with the spread that the diffusivity allows.
type Line struct {
	Frame
	X         Axis
	Content   []float64            // [kg/kg dry]
	Low, High []float64            // driest and wettest over the scatter of the diffusivity [kg/kg dry]; nil for none
	Survives  []diffusion.Survival // nil where every strand holds
	Limit     float64              // [kg/kg dry]
	Of        string               // what the content is, such as "moisture at the nozzle"
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
	if err := checkSurvives(f.asMap().Survives, [][]float64{f.Content}); err != nil {
		return err
	}
	return positive("limit", f.Limit)
}

// asMap is the line as a map of one row.
func (f Line) asMap() Map {
	m := Map{X: f.X, Y: Axis{Values: []float64{0}}, Content: [][]float64{f.Content}, Limit: f.Limit}
	if f.Survives != nil {
		m.Survives = [][]diffusion.Survival{f.Survives}
	}
	return m
}

// Headline says where along the axis the limit is met, or how near the driest comes.
func (f Line) Headline() string {
	asMap := f.asMap()
	if fit, soft, _ := asMap.Fits(); soft > 0 {
		first, last := f.soft()
		text := fmt.Sprintf("%d of %d values of %s meet the limit of %s without softening", fit, len(f.Content), f.X.Name, percent(f.Limit))
		if fit == 0 {
			text = fmt.Sprintf("No %s shown both meets the limit of %s and keeps the strand from softening", f.X.Name, percent(f.Limit))
		}
		return text + fmt.Sprintf("; from %s to %s it softens", f.X.say(first), f.X.say(last)) + asMap.doubted()
	}
	return f.moist(asMap) + asMap.doubted()
}

// soft is the first and the last value at which the strand softens.
func (f Line) soft() (first, last float64) {
	found := false
	for i, s := range f.Survives {
		if s != diffusion.Softens {
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
		return fmt.Sprintf("No %s shown meets the limit of %s; the driest keeps %s, at %s", f.X.Name, percent(f.Limit), percent(driest), f.X.say(f.X.Values[di]))
	case wettest <= f.Limit:
		return fmt.Sprintf("The limit of %s is met at every %s shown; the wettest keeps %s, at %s", percent(f.Limit), f.X.Name, percent(wettest), f.X.say(f.X.Values[wi]))
	}
	if x, up, _, ok := asMap.crossing(); ok {
		if up {
			return fmt.Sprintf("The limit of %s asks for a %s of at least %s", percent(f.Limit), f.X.Name, f.X.bound(x, true))
		}
		return fmt.Sprintf("The limit of %s asks for a %s of at most %s", percent(f.Limit), f.X.Name, f.X.bound(x, false))
	}
	return fmt.Sprintf("The driest %s shown is %s: it keeps %s, the limit being %s", f.X.Name, f.X.say(f.X.Values[di]), percent(driest), percent(f.Limit))
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
	p := s.inside(room, a)
	f.shade(p)
	last := len(f.Content) - 1
	var labels []label
	end := func(v float64) vg.Point { return vg.Point{X: p.box.Max.X, Y: max(p.atY(100*v), p.box.Min.Y)} }
	if f.Low != nil {
		p.band(f.X.Values, hundredfold(f.Low), hundredfold(f.High), mix(sky(), paper(), 0.6))
		labels = append(labels, label{text: "data spread", at: end((f.High[last] + f.Content[last]) / 2), color: quiet()})
	}
	p.grid()
	p.limit(100 * f.Limit)
	p.line(stroke(blue(), 3), f.X.Values, hundredfold(f.Content))
	f.heat(p)
	p.frame(a)
	p.ends(append(labels,
		label{text: "mean " + digits(100*f.Content[last], 2) + nbsp + "%", at: end(f.Content[last]), color: blue(), bold: true},
		label{text: texts[0], at: end(f.Limit), color: ink(), bold: true}))
}

// shade hatches where the strand softens, or may, from half-way between the values.
func (f Line) shade(p *panel) {
	edge := func(i int) vg.Length {
		switch {
		case i <= 0:
			return p.box.Min.X
		case i >= len(f.X.Values):
			return p.box.Max.X
		}
		return (p.atX(f.X.Values[i-1]) + p.atX(f.X.Values[i])) / 2
	}
	for i, s := range f.Survives {
		if s == diffusion.Holds || i > 0 && f.Survives[i-1] == s {
			continue
		}
		end := i + 1
		for end < len(f.Survives) && f.Survives[end] == s {
			end++
		}
		r := p.box
		r.Min.X, r.Max.X = edge(i), edge(end)
		p.hatched(r, s)
	}
}

// heat draws where the strand gives way, on an axis of air temperatures.
func (f Line) heat(p *panel) {
	if f.X.Heat == nil {
		return
	}
	var passing []vg.Point
	for _, line := range [][]float64{f.Content, f.Low, f.High} {
		for i := 1; i < len(line); i++ {
			passing = append(passing, dense(p.at(f.X.Values[i-1], 100*line[i-1]), p.at(f.X.Values[i], 100*line[i]))...)
		}
	}
	p.heatLines(f.X.Heat, f.X.Unit, true, passing)
}

func hundredfold(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = 100 * v
	}
	return out
}
