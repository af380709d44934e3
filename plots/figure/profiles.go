package figure

import (
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Profiles is the moisture from the surface to the centre at several places of the path.
type Profiles struct {
	Frame
	Design *diffusion.Design
	Trace  *diffusion.Trace
	Odds   *diffusion.Odds // of the content at the nozzle; nil where they are not known
}

func (f Profiles) height() canvas.Length { return 460 }
func (f Profiles) check() error          { return checkTrace(f.Design, f.Trace) }

// Headline compares what centre and mean lose on the way.
func (f Profiles) Headline() string {
	first, last := f.Trace.Points[0], f.Trace.Points[len(f.Trace.Points)-1]
	return fmt.Sprintf("From start to nozzle the centre of %s goes from %s to %s, its mean from %s to %s",
		f.Design.Material.Name, words.Percent(first.Centre), words.Percent(last.Centre), words.Percent(first.Mean), atNozzle(f.Trace, f.Odds)) + heatWarning(f.Design, f.Trace)
}

// mostPlaces is how many profiles can be told apart.
const mostPlaces = 6

// places are the indices of the points shown, rising: the start, the ends of the zones, the nozzle, and
// between them those that halve the widest steps of the mean.
func (f Profiles) places() []int {
	points := f.Trace.Points
	last := len(points) - 1
	chosen := []int{0}
	for i := 1; i < last && len(chosen) < mostPlaces-1; i++ {
		if points[i].Zone != points[i+1].Zone && points[i].Position > points[0].Position {
			chosen = append(chosen, i)
		}
	}
	chosen = append(chosen, last)
	for len(chosen) < mostPlaces {
		at, widest := 0, 0.0
		for k := 1; k < len(chosen); k++ {
			step := points[chosen[k-1]].Mean - points[chosen[k]].Mean
			if step = max(step, -step); step > widest && chosen[k] > chosen[k-1]+1 {
				at, widest = k, step
			}
		}
		if at == 0 {
			break
		}
		between := halfway(points, chosen[at-1], chosen[at])
		chosen = append(chosen[:at], append([]int{between}, chosen[at:]...)...)
	}
	return chosen
}

// halfway is the point between two others whose mean is nearest to half-way.
func halfway(points []diffusion.Point, a, b int) int {
	want := (points[a].Mean + points[b].Mean) / 2
	best, least := a+1, 0.0
	for i := a + 1; i < b; i++ {
		d := points[i].Mean - want
		if d = max(d, -d); i == a+1 || d < least {
			best, least = i, d
		}
	}
	return best
}

func (f Profiles) name(i int) string {
	points, p := f.Trace.Points, f.Trace.Points[i]
	switch {
	case i == 0:
		return "start"
	case i == len(points)-1:
		return words.Place(p.Position) + ", nozzle"
	case points[i+1].Zone != p.Zone:
		return words.Place(p.Position) + ", " + words.Clipped(f.Design.Path[p.Zone].Name, 10) + " ends"
	}
	return words.Place(p.Position)
}

// section is the radius [m] and the content [kg/kg dry] from the centre to the surface.
func section(t *diffusion.Trace, point int) (radius, content []float64) {
	p := t.Points[point]
	if t.Radius[0] <= 0 {
		return t.Radius, p.Profile
	}
	return append([]float64{0}, t.Radius...), append([]float64{p.Centre}, p.Profile...)
}

// inward are the values from the surface to the centre.
func inward(x []float64) []float64 {
	out := slices.Clone(x)
	slices.Reverse(out)
	return out
}

func (f Profiles) draw(s *canvas.Sheet, room canvas.Rectangle) {
	limit := 100 * f.Design.Limit
	radius, _ := section(f.Trace, 0)
	surface := radius[len(radius)-1]
	depth := each(inward(radius), func(r float64) float64 { return 1000 * (surface - r) })
	chosen := f.places()
	var curves [][]float64
	texts := []string{"limit " + words.Digits(limit, 2) + words.NBSP + "%"}
	for _, i := range chosen {
		_, profile := section(f.Trace, i)
		curves, texts = append(curves, each(inward(profile), hundredfold)), append(texts, f.name(i))
	}
	a := canvas.Axes{
		X: canvas.Scale{Min: 0, Max: 1000 * surface}, Y: percents(append(curves, []float64{limit})...),
		XLabel: "Depth below the surface, mm (centre at " + words.Digits(1000*surface, 3) + ")", YLabel: "Moisture, % of dry weight", Right: s.EndRoom(texts...),
	}
	p := s.Panel(room, a)
	p.Grid()
	p.Limit(limit)
	colors := palette.Ordered(len(curves))
	var labels []canvas.Label
	var lines [][]canvas.Point
	for k, curve := range curves {
		style := canvas.Stroke(colors[k], 2.2)
		if k == len(curves)-1 {
			style.Width = 3.4
		}
		p.Line(style, depth, curve)
		l := canvas.Label{Text: texts[k+1], At: p.At(depth[len(depth)-1], curve[len(curve)-1]), Colour: colors[k], Bold: k == len(curves)-1}
		labels = append(labels, l)
		lines = append(lines, p.Points(depth, curve))
	}
	p.Frame()
	atLimit := canvas.Label{Text: texts[0], At: canvas.Point{X: p.Box.Max.X, Y: p.AtY(limit)}, Colour: palette.Ink, Bold: true}
	if !humped(lines) {
		p.Ends(append(labels, atLimit))
		return
	}
	p.Ends([]canvas.Label{atLimit})
	peaks(p, labels, lines, p.AtY(limit))
}

// humped tells whether most lines end well below their highest places, where their names
// would run together.
func humped(lines [][]canvas.Point) bool {
	count := 0
	for _, line := range lines {
		top := line[0].Y
		for _, q := range line {
			top = max(top, q.Y)
		}
		if top-line[len(line)-1].Y > 2*canvas.LabelSize {
			count++
		}
	}
	return 2*count > len(lines)
}

// peaks names lines beside their highest places, clear of the limit; the last line chooses first.
func peaks(p *canvas.Panel, labels []canvas.Label, lines [][]canvas.Point, limit canvas.Length) {
	passing := []canvas.Point{}
	trail := func(a, b canvas.Point, steps int) {
		for k := range steps {
			passing = append(passing, canvas.Between(a, b, canvas.Length(k)/canvas.Length(steps)))
		}
	}
	trail(canvas.Point{X: p.Box.Min.X, Y: limit}, canvas.Point{X: p.Box.Max.X, Y: limit}, 200)
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			trail(line[i-1], line[i], 12)
		}
	}
	for k := len(lines) - 1; k >= 0; k-- {
		p.Place(p.Style(canvas.LabelSize, palette.Legible(labels[k].Colour), labels[k].Bold), labels[k].Text, beside(lines[k]), passing)
	}
}

// beside lists places to the right of and above a line, from its highest place on, nearest first.
func beside(line []canvas.Point) []canvas.Spot {
	top := 0
	for i, q := range line {
		if q.Y > line[top].Y {
			top = i
		}
	}
	spots := []canvas.Spot{{At: line[top].Add(canvas.Point{X: 8, Y: 6}), Side: canvas.Right}}
	for _, away := range [...]canvas.Length{8, 13, 20, 30, 42} {
		for i := top; i < len(line)-1; i++ {
			for part := range 4 {
				q := canvas.Between(line[i], line[i+1], canvas.Length(part)/4)
				spots = append(spots, canvas.Spot{At: q.Add(canvas.Point{X: away, Y: away * 0.7}), Side: canvas.Right, From: &q})
			}
		}
	}
	return spots
}
