package figure

import (
	"fmt"
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/diffusion"
	"strandry/materials"
)

// Heat is where a strand gives way, in the unit of an axis: up to Bears it holds, above Yields it certainly
// stretches or sticks.
type Heat struct{ Bears, Yields float64 }

func heatOf(r materials.Range) *Heat {
	return &Heat{Bears: r.Min - zeroCelsius, Yields: r.Max - zeroCelsius}
}

// words names the two ends; both are the same where a single temperature is known.
func (h *Heat) words(unit string) (bears, yields string) {
	if h.Bears == h.Yields {
		return "", "softens above " + digits(h.Yields, 3) + nbsp + unit
	}
	return "holds to " + digits(h.Bears, 3) + nbsp + unit, "softens above " + digits(h.Yields, 3) + nbsp + unit
}

// beyond is what an axis on which the strand holds up to the hottest value says of it; "" for one that reaches further.
func (h *Heat) beyond(hottest float64, unit string) string {
	if hottest > h.Bears {
		return ""
	}
	return " (the strand holds to " + digits(h.Bears, 3) + nbsp + unit + ")"
}

// hot is the colour of what gives way.
func hot() color.NRGBA { return rgb(0x7a1f0f) }

// softened is the ground of what is dry and yet no answer.
func softened() color.NRGBA { return rgb(0xd3d3d3) }

// hatch is the line over it.
func hatch() color.NRGBA { return rgb(0x8a8a8a) }

// heatLines draws where the strand begins and where it has certainly begun to give way, across the panel, each with
// its name where nothing passes.
func (p *panel) heatLines(h *Heat, unit string, upright bool, passing []vg.Point) {
	bears, yields := h.words(unit)
	style := p.s.style(tickSize, hot(), true)
	along := p.y
	if upright {
		along = p.x
	}
	for _, end := range [...]struct {
		value float64
		text  string
		first vg.Length // the side on which the name stands if it can
	}{{h.Bears, bears, -1}, {h.Yields, yields, 1}} {
		if end.text == "" || !along.holds(end.value) {
			continue
		}
		a, b := vg.Point{X: p.box.Min.X, Y: p.atY(end.value)}, vg.Point{X: p.box.Max.X, Y: p.atY(end.value)}
		if upright {
			a, b = vg.Point{X: p.atX(end.value), Y: p.box.Min.Y}, vg.Point{X: p.atX(end.value), Y: p.box.Max.Y}
		}
		p.s.StrokeLine2(stroke(paper(), 4.5), a.X, a.Y, b.X, b.Y)
		p.s.StrokeLine2(stroke(hot(), 2, 9, 3, 2, 3), a.X, a.Y, b.X, b.Y)
		p.name(style, end.text, a, b, end.first, upright, passing)
	}
}

// name sets a text beside a line from a to b.
func (p *panel) name(style draw.TextStyle, text string, a, b vg.Point, first vg.Length, upright bool, passing []vg.Point) {
	const places = 24
	var spots []anchored
	for _, side := range [...]vg.Length{first, -first} {
		if room := style.Width(text) + 12; upright && (a.X+side*room < p.box.Min.X || a.X+side*room > p.box.Max.X) {
			continue
		}
		for k := range places {
			at := between(b, a, (vg.Length(k)+0.6)/places)
			if upright {
				spots = append(spots, anchored{at: at.Add(vg.Point{X: 7 * side}), a: alignment{(float64(side) - 1) / 2, -0.5}})
			} else {
				spots = append(spots, anchored{at: at.Add(vg.Point{Y: tickSize * 0.75 * side}), a: toLeft()})
			}
		}
	}
	if len(spots) > 0 {
		p.clear(style, text, spots, passing)
	}
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
func fate(m *diffusion.Model, t *diffusion.Trace) string {
	e := t.Result.Endures(m)
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
	if f.Survives == nil {
		return diffusion.Holds
	}
	return f.Survives[j][i]
}

// checkSurvives refuses a grid of survivals of another shape than that of the contents.
func checkSurvives(all [][]diffusion.Survival, content [][]float64) error {
	if all == nil {
		return nil
	}
	if len(all) != len(content) {
		return fmt.Errorf("figure: %d rows of survival for %d of content", len(all), len(content))
	}
	for j, row := range all {
		if len(row) != len(content[j]) {
			return fmt.Errorf("figure: row %d has %d survivals for %d contents", j+1, len(row), len(content[j]))
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
	fit, soft, _ := f.Fits()
	switch {
	case soft == 0:
		return ""
	case fit == 0:
		return fmt.Sprintf("No design shown both meets the limit of %s and keeps the strand from softening", percent(f.Limit))
	}
	return fmt.Sprintf("%s of the designs shown meet the limit of %s and do not soften; another %s are as dry, but soften", f.share(fit), percent(f.Limit), f.share(soft))
}

// doubted is what a headline adds where designs within the limit may soften.
func (f Map) doubted() string {
	if _, _, doubtful := f.Fits(); doubtful > 0 {
		return fmt.Sprintf("; in %s of the designs it is doubtful whether the strand bears the heat", f.share(doubtful))
	}
	return ""
}
