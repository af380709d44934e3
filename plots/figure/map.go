package figure

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/moisture"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Map is moisture over two axes, with its limit.
type Map struct {
	Frame
	X, Y    Axis
	Content [][]float64           // [kg/kg dry]; Content[j][i] at X.Values[i], Y.Values[j]
	Limit   float64               // [kg/kg dry]
	Excess  [][]diffusion.Excess  // of the heat; Excess[j][i] belongs to Content[j][i]; nil where every strand holds
	Here    *Mark                 // the scenario's own design; nil for none
	Ratio   [][]diffusion.Between // 10 and 90 % points of the content over the limit [-]; nil where they are not known
	Start   float64               // content that the strand sets off with, at which no line is drawn [kg/kg dry]
	// What searches have found at the scenario's own Y, in place of what is read off the map: the X that just meets the limit at the medians, and that from
	// which on it is met nine times in ten; 0 for none.
	Met, Reliable float64
}

// Mark is a place on a map, in the units of its axes.
type Mark struct{ X, Y float64 }

func (f Map) height() canvas.Length { return 500 }

func (f Map) check() error {
	return errors.Join(f.X.check(), f.Y.check(), f.checkRows(), notNegative("content", f.Content...))
}

// checkRows refuses what does not belong to the values of the axes.
func (f Map) checkRows() error {
	rows, values := len(f.Y.Values), len(f.X.Values)
	err := errors.Join(positive("limit", f.Limit), grid("content", f.Content, rows, values), optional("heat", f.Excess, rows, values), optional("ratio", f.Ratio, rows, values))
	for _, r := range slices.Concat(f.Ratio...) {
		err = errors.Join(err, positive("content over limit", r.Low, r.High))
	}
	return err
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
		return fmt.Sprintf("%s at %s %s, %s %s", words.Percent(f.Content[j][i]), f.X.Name, f.X.say(f.X.Values[i]), f.Y.Name, f.Y.say(f.Y.Values[j]))
	}
	switch {
	case f.Content[dj][di] > f.Limit:
		return fmt.Sprintf("No design shown meets the limit of %s; the driest keeps %s", words.Percent(f.Limit), at(di, dj))
	case f.Content[wj][wi] <= f.Limit:
		return fmt.Sprintf("Every design shown meets the limit of %s; the wettest keeps %s", words.Percent(f.Limit), at(wi, wj))
	}
	if y, text, ok := f.threshold(); ok {
		return fmt.Sprintf("At a %s of %s the limit of %s asks for a %s", f.Y.Name, f.Y.say(y), words.Percent(f.Limit), text)
	}
	fit, _, _ := f.Fits() // and none of them softens
	share := float64(fit) / float64(len(f.X.Values)*len(f.Y.Values))
	return fmt.Sprintf("%s %% of the designs shown meet the limit of %s; the driest keeps %s", words.Digits(100*share, 2), words.Percent(f.Limit), at(di, dj))
}

// part is the share of the way from content a to b at which a level lies, by logarithms
// where they exist.
func part(a, b, level float64) float64 {
	if a > 0 && b > 0 && level > 0 {
		return math.Log(level/a) / math.Log(b/a)
	}
	return (level - a) / (b - a)
}

func (f Map) draw(s *canvas.Sheet, room canvas.Rectangle) {
	style := s.Style(canvas.TickSize, palette.Quiet, false)
	room.Max.Y -= canvas.TickSize
	under := canvas.Point{X: room.Min.X, Y: room.Max.Y + canvas.TickSize*0.4}
	room.Max.Y -= 4
	a := canvas.Axes{X: f.X.scale(), Y: f.Y.scale(), XLabel: f.X.label(), YLabel: f.Y.label(), Right: moisture.KeyRoom}
	a.Strip = f.X.Heat.strip(a.X)
	p := s.Panel(room, a)
	m := moisture.NewMap(p, moisture.Grid{X: f.X.Values, Y: f.Y.Values, Content: f.Content, Limit: f.Limit, Start: f.Start, Excess: f.Excess, Ratio: f.Ratio})
	key := "Colour: moisture at the nozzle, %, at the medians"
	if dashes := m.Dashes(); dashes != "" {
		key += ". " + dashes
	}
	s.Put(style, under, canvas.Right, key)
	m.Paint()
	if f.X.Heat != nil {
		f.X.Heat.upright(p, f.X.Unit)
	}
	if f.Y.Heat != nil {
		f.Y.Heat.level(p)
	}
	here := f.Here != nil && p.X.Holds(f.Here.X) && p.Y.Holds(f.Here.Y)
	if here {
		f.reserve(p)
	}
	m.Contours()
	if f.Y.Heat != nil {
		f.Y.Heat.name(p, f.Y.Unit, m.Passing())
	}
	if here {
		f.here(p)
	}
	m.Regions()
	p.Frame()
	m.Key()
}

const asGiven = "as given"

// hereLabel is where the name of the scenario's own design stands, and its style.
func (f Map) hereLabel(p *canvas.Panel) (style canvas.TextStyle, at canvas.Point, a canvas.Side) {
	style = p.Style(canvas.TickSize, palette.Ink, true)
	at = p.At(f.Here.X, f.Here.Y)
	if at.X+12+style.Width(asGiven) > p.Box.Max.X-4 {
		return style, at.Sub(canvas.Point{X: 12}), canvas.Left
	}
	return style, at.Add(canvas.Point{X: 12}), canvas.Right
}

// reserve keeps the room of the scenario's own design free of other labels.
func (f Map) reserve(p *canvas.Panel) {
	at := p.At(f.Here.X, f.Here.Y)
	p.Take(canvas.Rectangle{Min: at.Sub(canvas.Point{X: 9, Y: 9}), Max: at.Add(canvas.Point{X: 9, Y: 9})})
	style, at, a := f.hereLabel(p)
	p.Take(canvas.Grown(canvas.TextBox(style, at, a, asGiven), 6))
}

// here rings the scenario's own design and names it.
func (f Map) here(p *canvas.Panel) {
	at := p.At(f.Here.X, f.Here.Y)
	p.Disc(at, 7, palette.Paper)
	p.Disc(at, 5.5, palette.Ink)
	p.Disc(at, 3, palette.Paper)
	style, at, a := f.hereLabel(p)
	p.Fill(canvas.Grown(canvas.TextBox(style, at, a, asGiven), 3), palette.Paper)
	p.Put(style, at, a, asGiven)
}
