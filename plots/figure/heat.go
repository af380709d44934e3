package figure

import (
	"fmt"
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/palette"
)

// Heat is where a strand gives way, in the unit of an axis: up to Bears it holds, above Yields it all but surely
// stretches or sticks.
type Heat struct{ Bears, Yields float64 }

func heatOf(r materials.Range) *Heat {
	return &Heat{Bears: r.Min - zeroCelsius, Yields: r.Max - zeroCelsius}
}

// beyond is what an axis on which the strand holds up to the hottest value says of it; "" for one that reaches further.
func (h *Heat) beyond(hottest float64, unit string) string {
	if hottest > h.Bears {
		return ""
	}
	return " (the strand holds to " + digits(h.Bears, 3) + nbsp + unit + ")"
}

// hot is the colour of what gives way.
func hot() color.NRGBA { return rgb(palette.Softens.Mark()) }

// softened is the ground of what is dry and yet no answer.
func softened() color.NRGBA { return rgb(palette.Softens.Day().Ground) }

// hatch is the line over it.
func hatch() color.NRGBA { return mix(hot(), paper(), 0.35) }

// heatUpright draws where the strand begins and where it has all but surely begun to give way across an axis of x, and
// names it above the panel, in a strip of [heatStrip].
func (p *panel) heatUpright(h *Heat, unit string) {
	from, to := p.box.Max.X, p.box.Min.X
	for _, value := range [...]float64{h.Bears, h.Yields} {
		if x := p.atX(value); p.x.holds(value) {
			p.heatLine(vg.Point{X: x, Y: p.box.Min.Y}, vg.Point{X: x, Y: p.box.Max.Y + 3})
			from, to = min(from, x), max(to, x)
		}
	}
	if from > to {
		return
	}
	text := "strand softens above " + digits(h.Yields, 3) + nbsp + unit
	if h.Bears < h.Yields {
		text = "strand gives way at " + digits(h.Bears, 3) + " to " + digits(h.Yields, 3) + nbsp + unit
	}
	style := p.s.style(tickSize, hot(), true)
	half := style.Width(text) / 2
	x := min(max((from+to)/2, p.box.Min.X+half), p.box.Max.X-half)
	p.s.put(style, vg.Point{X: x, Y: p.box.Max.Y + heatStrip*0.6}, centred(), text)
}

// above names a column of the panel in the strip above it, if it is wide enough.
func (p *panel) above(r vg.Rectangle, text string) {
	if style := p.s.style(tickSize, hot(), true); style.Width(text) < r.Size().X {
		p.s.put(style, vg.Point{X: middle(r).X, Y: p.box.Max.Y + heatStrip*0.6}, centred(), text)
	}
}

// heatStrip is the room above a panel for the name of its heat.
const heatStrip = tickSize * 1.4

// strip is the room that the name takes above an axis of x; none where the strand holds all along.
func (h *Heat) strip(x scale) vg.Length {
	if h != nil && (x.holds(h.Bears) || x.holds(h.Yields)) {
		return heatStrip
	}
	return 0
}

// heatLevel draws the same across an axis of y.
func (p *panel) heatLevel(h *Heat) {
	for _, value := range [...]float64{h.Bears, h.Yields} {
		if y := p.atY(value); p.y.holds(value) {
			p.heatLine(vg.Point{X: p.box.Min.X, Y: y}, vg.Point{X: p.box.Max.X, Y: y})
		}
	}
}

// heatNames names the lines of [panel.heatLevel], each on its own side of them and where nothing passes.
func (p *panel) heatNames(h *Heat, unit string, passing []vg.Point) {
	level := func(value float64) []vg.Point {
		y := p.atY(value)
		return dense(vg.Point{X: p.box.Min.X, Y: y}, vg.Point{X: p.box.Max.X, Y: y})
	}
	passing = append(append(passing, level(h.Bears)...), level(h.Yields)...)
	if near := p.atY(h.Yields) - p.atY(h.Bears); h.Bears < h.Yields && near < 2*tickSize && p.y.holds(h.Yields) {
		p.heatName("gives way at "+digits(h.Bears, 3)+" to "+digits(h.Yields, 3)+nbsp+unit, h.Yields, 1, passing)
		return
	}
	if h.Bears < h.Yields {
		p.heatName("holds to "+digits(h.Bears, 3)+nbsp+unit, h.Bears, -1, passing)
	}
	p.heatName("softens above "+digits(h.Yields, 3)+nbsp+unit, h.Yields, 1, passing)
}

// heatName sets a text below (-1) or above (1) the line at a value, or on its other side.
func (p *panel) heatName(text string, value float64, first vg.Length, passing []vg.Point) {
	if !p.y.holds(value) {
		return
	}
	const places = 24
	var spots []anchored
	for _, side := range [...]vg.Length{first, -first} {
		for k := range places {
			x := p.box.Max.X - p.box.Size().X*(vg.Length(k)+0.6)/places
			spots = append(spots, anchored{at: vg.Point{X: x, Y: p.atY(value) + tickSize*0.75*side}, a: toLeft()})
		}
	}
	p.clear(p.s.style(tickSize, hot(), true), text, spots, passing)
}

func (p *panel) heatLine(a, b vg.Point) {
	p.s.StrokeLine2(stroke(paper(), 4.5), a.X, a.Y, b.X, b.Y)
	p.s.StrokeLine2(stroke(hot(), 2, 9, 3, 2, 3), a.X, a.Y, b.X, b.Y)
}

// hatched rules a rectangle with slanting lines, the denser the surer it is that the strand gives way.
func (p *panel) hatched(r vg.Rectangle, s diffusion.Survival) {
	pitch, c := vg.Length(14), mix(hatch(), paper(), 0.35)
	if s == diffusion.Softens {
		p.s.fill(r, softened())
		pitch, c = 6, hatch()
	}
	canvas := draw.Canvas{Canvas: p.s.Canvas.Canvas, Rectangle: r}
	height := r.Size().Y
	for x := r.Min.X - height; x < r.Max.X; x += pitch {
		canvas.StrokeLines(stroke(c, 0.8), canvas.ClipLinesXY([]vg.Point{{X: x, Y: r.Min.Y}, {X: x + height, Y: r.Max.Y}})...)
	}
}

// fate is what the end of a headline says of a strand that does not surely survive its path; "" for one that does.
func fate(m *diffusion.Design, t *diffusion.Trace) string {
	e := t.Result.Endures(&m.Model)
	at := celsius(e.Strand) + " in " + e.Zone
	if e.Zone == "" {
		at = celsius(e.Strand) + " as it sets off"
	}
	switch {
	case e.Survival == diffusion.Softens:
		return fmt.Sprintf("; but it softens, at %s", at)
	case e.Running():
		return fmt.Sprintf("; it holds only while it runs, the air of %s being at %s", e.Zone, celsius(e.Air))
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

// checkExcess refuses a heat of another shape than that of the contents, or that is no number.
func checkExcess(all [][]diffusion.Excess, content [][]float64) error {
	if all == nil {
		return nil
	}
	if len(all) != len(content) {
		return fmt.Errorf("figure: %d rows of heat for %d of content", len(all), len(content))
	}
	for j, row := range all {
		if len(row) != len(content[j]) {
			return fmt.Errorf("figure: row %d has %d heats for %d contents", j+1, len(row), len(content[j]))
		}
		for _, x := range row {
			if err := finite("heat", x.Yield, x.Bear); err != nil {
				return err
			}
		}
	}
	return nil
}

// share prints a part of the designs of a map in %.
func (f Map) share(count int) string {
	return digits(100*float64(count)/float64(len(f.X.Values)*len(f.Y.Values)), 2) + nbsp + "%"
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
		return fmt.Sprintf("No design shown both meets the limit of %s and keeps the strand from softening", percent(f.Limit))
	}
	return fmt.Sprintf("%s of the designs shown meet the limit of %s and do not soften%s; another %s are as dry, but soften", f.share(fit), percent(f.Limit), may, f.share(soft))
}

// doubted is what a headline adds where designs within the limit may soften.
func (f Map) doubted() string {
	if _, _, doubtful := f.Fits(); doubtful > 0 {
		return fmt.Sprintf("; in %s of the designs the strand may soften", f.share(doubtful))
	}
	return ""
}
