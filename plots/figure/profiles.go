package figure

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// Profiles is the moisture from the surface to the centre at several places of the path.
type Profiles struct {
	Frame
	Model *diffusion.Design
	Trace *diffusion.Trace
	Odds  *diffusion.Odds // of the content at the nozzle; nil where they are not known
}

func (f Profiles) frame() Frame    { return f.Frame }
func (f Profiles) height() float64 { return 460 }
func (f Profiles) check() error    { return checkTrace(f.Model, f.Trace) }

// Headline compares what centre and mean lose on the way.
func (f Profiles) Headline() string {
	first, last := f.Trace.Points[0], f.Trace.Points[len(f.Trace.Points)-1]
	return fmt.Sprintf("From start to nozzle the centre of %s goes from %s to %s, its mean from %s to %s",
		f.Model.Material.Name, percent(first.Centre), percent(last.Centre), percent(first.Mean), atNozzle(f.Trace, f.Odds)) + fate(f.Model, f.Trace)
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
		return place(p.Position) + ", nozzle"
	case points[i+1].Zone != p.Zone:
		return place(p.Position) + ", " + clippedRunes(f.Model.Path[p.Zone].Name, 10) + " ends"
	}
	return place(p.Position)
}

func clippedRunes(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

// section is the radius [m] and the content [kg/kg dry] from the centre to the surface.
func section(t *diffusion.Trace, point int) (radius, content []float64) {
	p := t.Points[point]
	if t.Radius[0] <= 0 {
		return t.Radius, p.Profile
	}
	return append([]float64{0}, t.Radius...), append([]float64{p.Centre}, p.Profile...)
}

func (f Profiles) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	limit := 100 * f.Model.Limit
	radius, _ := section(f.Trace, 0)
	surface := radius[len(radius)-1]
	var depth []float64
	for i := len(radius) - 1; i >= 0; i-- {
		depth = append(depth, 1000*(surface-radius[i]))
	}
	chosen := f.places()
	var curves [][]float64
	texts := []string{"limit " + digits(limit, 2) + nbsp + "%"}
	for _, i := range chosen {
		_, profile := section(f.Trace, i)
		curve := make([]float64, len(profile))
		for k := range profile {
			curve[k] = 100 * profile[len(profile)-1-k]
		}
		curves, texts = append(curves, curve), append(texts, f.name(i))
	}
	a := axes{
		x: scale{min: 0, max: 1000 * surface}, y: contents(limit, curves...),
		xLabel: "Depth below the surface, mm (centre at " + digits(1000*surface, 3) + ")", yLabel: "Moisture, % of dry weight", right: s.endRoom(texts...),
	}
	p := s.inside(room, a)
	p.grid()
	p.limit(limit)
	colors := ordered(len(curves))
	var labels []label
	var lines [][]vg.Point
	for k, curve := range curves {
		style := stroke(colors[k], 2.2)
		if k == len(curves)-1 {
			style.Width = 3.4
		}
		p.line(style, depth, curve)
		l := label{text: texts[k+1], at: p.at(depth[len(depth)-1], curve[len(curve)-1]), color: colors[k], bold: k == len(curves)-1}
		labels = append(labels, l)
		lines = append(lines, p.points(depth, curve))
	}
	p.frame(a)
	atLimit := label{text: texts[0], at: vg.Point{X: p.box.Max.X, Y: p.atY(limit)}, color: ink(), bold: true}
	if !humped(lines) {
		p.ends(append(labels, atLimit))
		return
	}
	p.ends([]label{atLimit})
	p.peaks(labels, lines, p.atY(limit))
}

// humped tells whether most lines end well below their highest places, where their names
// would run together.
func humped(lines [][]vg.Point) bool {
	count := 0
	for _, line := range lines {
		top := line[0].Y
		for _, q := range line {
			top = max(top, q.Y)
		}
		if top-line[len(line)-1].Y > 2*labelSize {
			count++
		}
	}
	return 2*count > len(lines)
}

// peaks names lines beside their highest places, clear of the limit; the last line chooses first.
func (p *panel) peaks(labels []label, lines [][]vg.Point, limit vg.Length) {
	passing := []vg.Point{}
	trail := func(a, b vg.Point, steps int) {
		for k := range steps {
			passing = append(passing, between(a, b, vg.Length(k)/vg.Length(steps)))
		}
	}
	trail(vg.Point{X: p.box.Min.X, Y: limit}, vg.Point{X: p.box.Max.X, Y: limit}, 200)
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			trail(line[i-1], line[i], 12)
		}
	}
	for k := len(lines) - 1; k >= 0; k-- {
		p.clear(p.s.style(labelSize, legible(labels[k].color), labels[k].bold), labels[k].text, beside(lines[k]), passing)
	}
}

// beside lists places to the right of and above a line, from its highest place on, nearest first.
func beside(line []vg.Point) []anchored {
	top := 0
	for i, q := range line {
		if q.Y > line[top].Y {
			top = i
		}
	}
	spots := []anchored{{at: line[top].Add(vg.Point{X: 8, Y: 6}), a: toRight()}}
	for _, away := range [...]vg.Length{8, 13, 20, 30, 42} {
		for i := top; i < len(line)-1; i++ {
			for part := range 4 {
				q := between(line[i], line[i+1], vg.Length(part)/4)
				spots = append(spots, anchored{at: q.Add(vg.Point{X: away, Y: away * 0.7}), a: toRight(), from: &q})
			}
		}
	}
	return spots
}
