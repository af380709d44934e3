package figure

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/diffusion"
)

// Map is moisture over two axes, with its limit.
type Map struct {
	Frame
	X, Y    Axis
	Content [][]float64           // [kg/kg dry]; Content[j][i] at X.Values[i], Y.Values[j]
	Limit   float64               // [kg/kg dry]
	Excess  [][]diffusion.Excess  // of the heat; Excess[j][i] belongs to Content[j][i]; nil where every strand holds
	Of      string                // what the content is, such as "moisture at the nozzle"
	Here    *Mark                 // the scenario's own design; nil for none
	Ratio   [][]diffusion.Between // 10 and 90 % points of the content over the limit [-]; nil where they are not known
	Start   float64               // content that the strand sets off with, at which no line is drawn [kg/kg dry]
	// What searches have found at the scenario's own Y, in place of what is read off the map: the X that just meets the limit at the medians, and that from
	// which on it is met nine times in ten; 0 for none.
	Met, Likely float64
}

// Mark is a place on a map, in the units of its axes.
type Mark struct{ X, Y float64 }

func (f Map) frame() Frame    { return f.Frame }
func (f Map) height() float64 { return 500 }

func (f Map) check() error {
	for _, a := range [...]Axis{f.X, f.Y} {
		if err := a.check(); err != nil {
			return err
		}
	}
	if len(f.Content) != len(f.Y.Values) {
		return fmt.Errorf("figure: %d rows of content for %d values of %s", len(f.Content), len(f.Y.Values), f.Y.Name)
	}
	for j, row := range f.Content {
		if len(row) != len(f.X.Values) {
			return fmt.Errorf("figure: row %d has %d contents for %d values of %s", j+1, len(row), len(f.X.Values), f.X.Name)
		}
		if err := finite("content", row...); err != nil {
			return err
		}
		for _, v := range row {
			if v < 0 {
				return fmt.Errorf("figure: a content of %g in row %d; none lies below zero", v, j+1)
			}
		}
	}
	if f.Here != nil {
		if err := finite("the scenario's own design", f.Here.X, f.Here.Y); err != nil {
			return err
		}
	}
	if err := checkExcess(f.Excess, f.Content); err != nil {
		return err
	}
	if err := checkRatio(f.Ratio, f.Content); err != nil {
		return err
	}
	return positive("limit", f.Limit)
}

// checkRatio refuses ends of another shape than that of the contents, or that are no ratios.
func checkRatio(all [][]diffusion.Between, content [][]float64) error {
	if all != nil && len(all) != len(content) {
		return fmt.Errorf("figure: %d rows of ratios for %d of content", len(all), len(content))
	}
	for j, row := range all {
		if len(row) != len(content[j]) {
			return fmt.Errorf("figure: row %d has %d ratios for %d contents", j+1, len(row), len(content[j]))
		}
		for _, r := range row {
			if err := positive("content over limit", r.Low, r.High); err != nil {
				return err
			}
		}
	}
	return nil
}

// extremes are the driest and the wettest design, as indices and contents.
func (f Map) extremes() (di, dj, wi, wj int) {
	for j, row := range f.Content {
		for i, v := range row {
			if v < f.Content[dj][di] {
				di, dj = i, j
			}
			if v > f.Content[wj][wi] {
				wi, wj = i, j
			}
		}
	}
	return di, dj, wi, wj
}

// Headline says where the limit runs, or how far from it the nearest design is.
func (f Map) Headline() string {
	if text := f.heated(); text != "" {
		return text
	}
	return f.moist() + f.doubted()
}

// moist is the headline of the moisture alone.
func (f Map) moist() string {
	di, dj, wi, wj := f.extremes()
	at := func(i, j int) string {
		return fmt.Sprintf("%s at %s %s, %s %s", percent(f.Content[j][i]), f.X.Name, f.X.say(f.X.Values[i]), f.Y.Name, f.Y.say(f.Y.Values[j]))
	}
	switch {
	case f.Content[dj][di] > f.Limit:
		return fmt.Sprintf("No design shown meets the limit of %s; the driest keeps %s", percent(f.Limit), at(di, dj))
	case f.Content[wj][wi] <= f.Limit:
		return fmt.Sprintf("Every design shown meets the limit of %s; the wettest keeps %s", percent(f.Limit), at(wi, wj))
	}
	if y, text, ok := f.asked(); ok {
		return fmt.Sprintf("At a %s of %s the limit of %s asks for a %s", f.Y.Name, f.Y.say(y), percent(f.Limit), text)
	}
	count := 0
	for _, row := range f.Content {
		for _, v := range row {
			if v <= f.Limit {
				count++
			}
		}
	}
	share := float64(count) / float64(len(f.X.Values)*len(f.Y.Values))
	return fmt.Sprintf("%s %% of the designs shown meet the limit of %s; the driest keeps %s", digits(100*share, 2), percent(f.Limit), at(di, dj))
}

// part is the share of the way from content a to b at which a level lies, by logarithms
// where they exist.
func part(a, b, level float64) float64 {
	if a > 0 && b > 0 && level > 0 {
		return math.Log(level/a) / math.Log(b/a)
	}
	return (level - a) / (b - a)
}

func (f Map) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	of := f.Of
	if of == "" {
		of = "moisture at the nozzle"
	}
	style := s.style(tickSize, quiet(), false)
	room.Max.Y -= tickSize
	under := vg.Point{X: room.Min.X, Y: room.Max.Y + tickSize*0.4}
	room.Max.Y -= 4
	a := axes{x: f.X.scale(), y: f.Y.scale(), xLabel: f.X.label(), yLabel: f.Y.label(), right: keyRoom}
	a.strip = f.X.Heat.strip(a.x)
	p := s.inside(room, a)
	m := newFilled(p, f.X.Values, f.Y.Values, f.Content, f.Limit, f.Start)
	m.warm(f.X.Values, f.Y.Values, f.Excess)
	m.doubt(f.X.Values, f.Y.Values, f.Ratio)
	words := "Colour: " + of + ", %, at the medians"
	if m.belt != nil && len(m.belt.lines[0])+len(m.belt.lines[1]) > 0 {
		words += ". Dashes: " + beltWords()[0] + ", " + beltWords()[1]
	}
	s.put(style, under, toRight(), words)
	m.paint()
	if f.X.Heat != nil {
		p.heatUpright(f.X.Heat, f.X.Unit)
	}
	if f.Y.Heat != nil {
		p.heatLevel(f.Y.Heat)
	}
	here := f.Here != nil && p.x.holds(f.Here.X) && p.y.holds(f.Here.Y)
	if here {
		f.reserve(p)
	}
	m.draw()
	if f.Y.Heat != nil {
		p.heatNames(f.Y.Heat, f.Y.Unit, m.passing())
	}
	if here {
		f.here(p)
	}
	m.regions()
	p.frame(a)
	m.key(p.box.Max.X + 14)
}

const asGiven = "as given"

// hereLabel is where the name of the scenario's own design stands, and its style.
func (f Map) hereLabel(p *panel) (style draw.TextStyle, at vg.Point, a alignment) {
	style = p.s.style(tickSize, ink(), true)
	at = p.at(f.Here.X, f.Here.Y)
	if at.X+12+style.Width(asGiven) > p.box.Max.X-4 {
		return style, at.Sub(vg.Point{X: 12}), toLeft()
	}
	return style, at.Add(vg.Point{X: 12}), toRight()
}

// reserve keeps the room of the scenario's own design free of other labels.
func (f Map) reserve(p *panel) {
	at := p.at(f.Here.X, f.Here.Y)
	p.s.take(vg.Rectangle{Min: at.Sub(vg.Point{X: 9, Y: 9}), Max: at.Add(vg.Point{X: 9, Y: 9})})
	style, at, a := f.hereLabel(p)
	p.s.take(grown(box(style, at, a, asGiven), 6))
}

// here rings the scenario's own design and names it.
func (f Map) here(p *panel) {
	at := p.at(f.Here.X, f.Here.Y)
	p.dot(at, 7, paper())
	p.dot(at, 5.5, ink())
	p.dot(at, 3, paper())
	style, at, a := f.hereLabel(p)
	p.s.fill(grown(box(style, at, a, asGiven), 3), paper())
	p.s.put(style, at, a, asGiven)
}
