package figure

import (
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/moisture"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Heatmap is the moisture over radius and place on the path.
type Heatmap struct {
	Frame
	Design *diffusion.Design
	Trace  *diffusion.Trace
}

func (f Heatmap) height() canvas.Length { return 470 }

func (f Heatmap) check() error {
	if err := checkTrace(f.Design, f.Trace); err != nil {
		return err
	}
	if x, _ := f.columns(); len(x) < 2 {
		return errEmpty
	}
	return nil
}

// Headline tells how much of the section is within the limit where the strand is driest.
func (f Heatmap) Headline() string { return f.moist() + heatWarning(f.Design, f.Trace) }

func (f Heatmap) moist() string {
	points := f.Trace.Points
	best := 0
	for i, p := range points {
		if p.Mean <= points[best].Mean {
			best = i
		}
	}
	p, name, limit := points[best], f.Design.Material.Name, words.Percent(f.Design.Limit)
	depth, share := f.within(best)
	at := "At its driest, after " + words.Place(p.Position) + ", "
	switch {
	case share > 1-1e-9:
		return at + fmt.Sprintf("the whole section of %s is within the limit of %s", name, limit)
	case share == 0:
		return at + fmt.Sprintf("no part of %s is within the limit of %s: its skin holds %s, its centre %s", name, limit, words.Percent(p.Skin), words.Percent(p.Centre))
	case depth > 0:
		return at + fmt.Sprintf("the outer %s%smm of %s (%s%s%% of the section) is within the limit of %s; the centre holds %s",
			words.Digits(1000*depth, 2), words.NBSP, name, words.Digits(100*share, 2), words.NBSP, limit, words.Percent(p.Centre))
	}
	return at + fmt.Sprintf("%s%s%% of the section of %s is within the limit of %s; the skin holds %s, the centre %s",
		words.Digits(100*share, 2), words.NBSP, name, limit, words.Percent(p.Skin), words.Percent(p.Centre))
}

// within is the share of the section that is within the limit, and, where that is its skin alone, how deep
// it is [m].
func (f Heatmap) within(point int) (depth, share float64) {
	r, profile := section(f.Trace, point)
	n, limit := len(r)-1, f.Design.Limit
	crossings, at := 0, 0.0
	for i := range n {
		inside, next := profile[i] <= limit, profile[i+1] <= limit
		a, b := r[i], r[i+1]
		if inside != next {
			crossings++
			at = a + (b-a)*(limit-profile[i])/(profile[i+1]-profile[i])
			if inside {
				b = at
			} else {
				a = at
			}
		}
		if inside || next {
			share += (b*b - a*a) / (r[n] * r[n])
		}
	}
	if crossings == 1 && profile[n] <= limit {
		depth = r[n] - at
	}
	return depth, share
}

// columns are the places of the path, each once, and the profiles there. What lies a
// million times below the wettest content counts as that, so that the steps of the map
// can be ratios.
func (f Heatmap) columns() (x []float64, profiles [][]float64) {
	most := f.Design.Limit
	for _, p := range f.Trace.Points {
		_, high := canvas.Bounds(p.Profile)
		most = math.Max(most, high)
	}
	for k, p := range f.Trace.Points {
		if n := len(x); n > 0 && p.Position <= x[n-1] {
			continue
		}
		_, contents := section(f.Trace, k)
		profile := make([]float64, len(contents))
		for i, v := range contents {
			profile[i] = math.Max(v, most*1e-6)
		}
		x, profiles = append(x, p.Position), append(profiles, profile)
	}
	return x, profiles
}

func (f Heatmap) draw(s *canvas.Sheet, room canvas.Rectangle) {
	x, profiles := f.columns()
	radius, _ := section(f.Trace, 0)
	radius = each(radius, func(r float64) float64 { return 1000 * r })
	z := make([][]float64, len(radius))
	for j := range radius {
		for i := range x {
			z[j] = append(z[j], profiles[i][j])
		}
	}
	style := s.Style(canvas.TickSize, palette.Quiet, false)
	room.Max.Y -= canvas.TickSize
	s.Put(style, canvas.Point{X: room.Min.X, Y: room.Max.Y + canvas.TickSize*0.4}, canvas.Right, "Colour: moisture in the strand at the medians of what is in doubt, % of dry weight")
	room.Max.Y -= 4
	a := canvas.Axes{
		X: canvas.Scale{Min: x[0], Max: x[len(x)-1]}, Y: canvas.Scale{Min: radius[0], Max: radius[len(radius)-1]},
		XLabel: "Place on the path, m", YLabel: "Radius, mm (centre at 0)", Right: moisture.KeyRoom, Strip: canvas.TickSize * 1.2,
	}
	p := s.Panel(room, a)
	m := moisture.NewMap(p, moisture.Grid{X: x, Y: radius, Content: z, Limit: f.Design.Limit, Start: f.Trace.Points[0].Centre})
	m.Paint()
	f.borders(p)
	m.Contours()
	m.Regions()
	p.Frame()
	m.Key()
	nameZones(p, f.Design, p.Box.Max.Y+canvas.TickSize*0.65, false)
}

// borders draws where one zone ends and the next begins.
func (f Heatmap) borders(p *canvas.Panel) {
	from := 0.0
	for i := range f.Design.Path {
		if i > 0 {
			x := p.AtX(from)
			p.Segment(canvas.Stroke(palette.Paper, 2.4), x, p.Box.Min.Y, x, p.Box.Max.Y)
			p.Segment(canvas.Stroke(palette.Quiet, 1, 4, 3), x, p.Box.Min.Y, x, p.Box.Max.Y+canvas.TickSize*1.1)
		}
		from += f.Design.Path[i].Length
	}
}
