package figure

import (
	"fmt"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Heat is where a strand gives way, in the unit of an axis: up to Bears it holds, above Yields it all but surely
// stretches or sticks.
type Heat struct{ Bears, Yields float64 }

func heatOf(r materials.Range) *Heat {
	return &Heat{Bears: r.Min - words.ZeroCelsius, Yields: r.Max - words.ZeroCelsius}
}

// beyond is what an axis on which the strand holds up to the hottest value says of it; "" for one that reaches further.
func (h *Heat) beyond(hottest float64, unit string) string {
	if hottest > h.Bears {
		return ""
	}
	return " (the strand holds to " + words.Digits(h.Bears, 3) + words.NBSP + unit + ")"
}

// values are where the strand begins, and where it has all but surely begun to give way.
func (h *Heat) values() [2]float64 { return [...]float64{h.Bears, h.Yields} }

// span is the range over which it does, in words.
func (h *Heat) span(unit string) string {
	return "gives way at " + words.Digits(h.Bears, 3) + " to " + words.Digits(h.Yields, 3) + words.NBSP + unit
}

// upright draws where the strand gives way across an axis of x, and names it above the panel, in a strip of [heatStrip].
func (h *Heat) upright(p *canvas.Panel, unit string) {
	from, to := p.Box.Max.X, p.Box.Min.X
	for _, value := range h.values() {
		if x := p.AtX(value); p.X.Holds(value) {
			heatLine(p, canvas.Point{X: x, Y: p.Box.Min.Y}, canvas.Point{X: x, Y: p.Box.Max.Y + 3})
			from, to = min(from, x), max(to, x)
		}
	}
	if from > to {
		return
	}
	text := "strand softens above " + words.Digits(h.Yields, 3) + words.NBSP + unit
	if h.Bears < h.Yields {
		text = "strand " + h.span(unit)
	}
	style := p.Style(canvas.TickSize, palette.Softens.Mark(), true)
	half := style.Width(text) / 2
	x := min(max((from+to)/2, p.Box.Min.X+half), p.Box.Max.X-half)
	p.Put(style, canvas.Point{X: x, Y: p.Box.Max.Y + heatStrip*0.6}, canvas.Centred, text)
}

// nameAbove names a column of the panel in the strip above it, if it is wide enough.
func nameAbove(p *canvas.Panel, r canvas.Rectangle, text string) {
	if style := p.Style(canvas.TickSize, palette.Softens.Mark(), true); style.Width(text) < r.Size().X {
		p.Put(style, canvas.Point{X: canvas.Middle(r).X, Y: p.Box.Max.Y + heatStrip*0.6}, canvas.Centred, text)
	}
}

// heatStrip is the room above a panel for the name of its heat.
const heatStrip = canvas.TickSize * 1.4

// strip is the room that the name takes above an axis of x; none where the strand holds all along.
func (h *Heat) strip(x canvas.Scale) canvas.Length {
	if h != nil && (x.Holds(h.Bears) || x.Holds(h.Yields)) {
		return heatStrip
	}
	return 0
}

// level draws the same across an axis of y.
func (h *Heat) level(p *canvas.Panel) {
	for _, value := range h.values() {
		if y := p.AtY(value); p.Y.Holds(value) {
			heatLine(p, canvas.Point{X: p.Box.Min.X, Y: y}, canvas.Point{X: p.Box.Max.X, Y: y})
		}
	}
}

// name names the lines of [Heat.level], each on its own side of them and where nothing passes.
func (h *Heat) name(p *canvas.Panel, unit string, passing []canvas.Point) {
	for _, value := range h.values() {
		y := p.AtY(value)
		passing = append(passing, canvas.Along(canvas.Point{X: p.Box.Min.X, Y: y}, canvas.Point{X: p.Box.Max.X, Y: y})...)
	}
	if near := p.AtY(h.Yields) - p.AtY(h.Bears); h.Bears < h.Yields && near < 2*canvas.TickSize && p.Y.Holds(h.Yields) {
		heatName(p, h.span(unit), h.Yields, 1, passing)
		return
	}
	if h.Bears < h.Yields {
		heatName(p, "holds to "+words.Digits(h.Bears, 3)+words.NBSP+unit, h.Bears, -1, passing)
	}
	heatName(p, "softens above "+words.Digits(h.Yields, 3)+words.NBSP+unit, h.Yields, 1, passing)
}

// heatName sets a text below (-1) or above (1) the line at a value, or on its other side.
func heatName(p *canvas.Panel, text string, value float64, first canvas.Length, passing []canvas.Point) {
	if !p.Y.Holds(value) {
		return
	}
	const places = 24
	var spots []canvas.Spot
	for _, side := range [...]canvas.Length{first, -first} {
		for k := range places {
			x := p.Box.Max.X - p.Box.Size().X*(canvas.Length(k)+0.6)/places
			spots = append(spots, canvas.Spot{At: canvas.Point{X: x, Y: p.AtY(value) + canvas.TickSize*0.75*side}, Side: canvas.Left})
		}
	}
	p.Place(p.Style(canvas.TickSize, palette.Softens.Mark(), true), text, spots, passing)
}

func heatLine(p *canvas.Panel, a, b canvas.Point) {
	p.Segment(canvas.Stroke(palette.Paper, 4.5), a.X, a.Y, b.X, b.Y)
	p.Segment(canvas.Stroke(palette.Softens.Mark(), 2, 9, 3, 2, 3), a.X, a.Y, b.X, b.Y)
}

// hatched rules a rectangle with slanting lines, the denser the surer it is that the strand gives way.
func hatched(p *canvas.Panel, r canvas.Rectangle, s diffusion.Survival) {
	pitch, c := canvas.Length(14), palette.Mix(palette.Hatch(), palette.Paper, 0.35)
	if s == diffusion.Softens {
		p.Fill(r, palette.Softens.Day().Ground)
		pitch, c = 6, palette.Hatch()
	}
	height := r.Size().Y
	for x := r.Min.X - height; x < r.Max.X; x += pitch {
		p.LinesWithin(r, canvas.Stroke(c, 0.8), []canvas.Point{{X: x, Y: r.Min.Y}, {X: x + height, Y: r.Max.Y}})
	}
}

// heatWarning is what the end of a headline says of a strand that does not surely survive its path; "" for one that does.
func heatWarning(m *diffusion.Design, t *diffusion.Trace) string {
	e := t.Result.Endures(&m.Model)
	at := words.Celsius(e.Strand) + " in " + e.Zone
	if e.Zone == "" {
		at = words.Celsius(e.Strand) + " as it sets off"
	}
	switch {
	case e.Survival == diffusion.Softens:
		return fmt.Sprintf("; but it softens, at %s", at)
	case e.Running():
		return fmt.Sprintf("; it holds only while it runs, the air of %s being at %s", e.Zone, words.Celsius(e.Air))
	case e.Survival == diffusion.Doubtful:
		return fmt.Sprintf("; but it may soften, at %s", at)
	}
	return ""
}

// Fits counts the designs within the limit that do not soften, those within it that do, and of the first those that
// may.
func (f Map) Fits() (fit, soft, doubtful int) {
	for j, row := range f.Content {
		for i, v := range row {
			switch s := f.survives(i, j); {
			case v > f.Limit:
			case s == diffusion.Softens:
				soft++
			case s == diffusion.Doubtful:
				doubtful++
				fit++
			default:
				fit++
			}
		}
	}
	return fit, soft, doubtful
}

func (f Map) survives(i, j int) diffusion.Survival {
	if f.Excess == nil {
		return diffusion.Holds
	}
	return f.Excess[j][i].Survival()
}

// share prints a part of the designs of a map in %.
func (f Map) share(count int) string {
	return words.Digits(100*float64(count)/float64(len(f.X.Values)*len(f.Y.Values)), 2) + words.NBSP + "%"
}

// heated is the headline of a map on which some designs within the limit soften; "" for another.
func (f Map) heated() string {
	fit, soft, doubtful := f.Fits()
	may := ""
	if doubtful > 0 {
		may = " (" + f.share(doubtful) + " may)"
	}
	switch {
	case soft == 0:
		return ""
	case fit == 0:
		return fmt.Sprintf("No design shown both meets the limit of %s and keeps the strand from softening", words.Percent(f.Limit))
	}
	return fmt.Sprintf("%s of the designs shown meet the limit of %s and do not soften%s; another %s are as dry, but soften", f.share(fit), words.Percent(f.Limit), may, f.share(soft))
}

// doubted is what a headline adds where designs within the limit may soften.
func (f Map) doubted() string {
	if _, _, doubtful := f.Fits(); doubtful > 0 {
		return fmt.Sprintf("; in %s of the designs the strand may soften", f.share(doubtful))
	}
	return ""
}
