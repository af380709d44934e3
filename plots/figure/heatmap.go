package figure

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// HeatMap is the moisture over radius and place on the path.
type HeatMap struct {
	Frame
	Model *diffusion.Design
	Trace *diffusion.Trace
}

func (f HeatMap) frame() Frame    { return f.Frame }
func (f HeatMap) height() float64 { return 470 }

func (f HeatMap) check() error {
	if err := checkTrace(f.Model, f.Trace); err != nil {
		return err
	}
	if x, _ := f.columns(); len(x) < 2 {
		return errEmpty
	}
	return nil
}

// Headline tells how much of the section is within the limit where the strand is driest.
func (f HeatMap) Headline() string { return f.moist() + fate(f.Model, f.Trace) }

func (f HeatMap) moist() string {
	points := f.Trace.Points
	best := 0
	for i, p := range points {
		if p.Mean <= points[best].Mean {
			best = i
		}
	}
	p, name, limit := points[best], f.Model.Material.Name, percent(f.Model.Limit)
	depth, share := f.within(best)
	at := "At its driest, after " + place(p.Position) + ", "
	switch {
	case share > 1-1e-9:
		return at + fmt.Sprintf("the whole section of %s is within the limit of %s", name, limit)
	case share == 0:
		return at + fmt.Sprintf("no part of %s is within the limit of %s: its skin holds %s, its centre %s", name, limit, percent(p.Skin), percent(p.Centre))
	case depth > 0:
		return at + fmt.Sprintf("the outer %s%smm of %s (%s%s%% of the section) is within the limit of %s; the centre holds %s",
			digits(1000*depth, 2), nbsp, name, digits(100*share, 2), nbsp, limit, percent(p.Centre))
	}
	return at + fmt.Sprintf("%s%s%% of the section of %s is within the limit of %s; the skin holds %s, the centre %s",
		digits(100*share, 2), nbsp, name, limit, percent(p.Skin), percent(p.Centre))
}

// within is the share of the section that is within the limit, and, where that is its skin alone, how deep
// it is [m].
func (f HeatMap) within(point int) (depth, share float64) {
	r, profile := section(f.Trace, point)
	n, limit := len(r)-1, f.Model.Limit
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
func (f HeatMap) columns() (x []float64, profiles [][]float64) {
	most := f.Model.Limit
	for _, p := range f.Trace.Points {
		_, high := bounds(p.Profile)
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

func (f HeatMap) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	x, profiles := f.columns()
	metre, _ := section(f.Trace, 0)
	radius := make([]float64, len(metre))
	z := make([][]float64, len(radius))
	for j, r := range metre {
		radius[j] = 1000 * r
		for i := range x {
			z[j] = append(z[j], profiles[i][j])
		}
	}
	style := s.style(tickSize, quiet(), false)
	room.Max.Y -= tickSize
	s.put(style, vg.Point{X: room.Min.X, Y: room.Max.Y + tickSize*0.4}, toRight(), "Colour: moisture in the strand at the medians of what is in doubt, % of dry weight")
	room.Max.Y -= 4
	a := axes{
		x: scale{min: x[0], max: x[len(x)-1]}, y: scale{min: radius[0], max: radius[len(radius)-1]},
		xLabel: "Place on the path, m", yLabel: "Radius, mm (centre at 0)", right: keyRoom, strip: tickSize * 1.2,
	}
	p := s.inside(room, a)
	m := newFilled(p, x, radius, z, f.Model.Limit, f.Trace.Points[0].Centre)
	m.paint()
	f.borders(p)
	m.draw()
	m.regions()
	p.frame(a)
	m.key(p.box.Max.X + 14)
	nameZones(p, f.Model, p.box.Max.Y+tickSize*0.65, false)
}

// borders draws where one zone ends and the next begins.
func (f HeatMap) borders(p *panel) {
	from := 0.0
	for i := range f.Model.Path {
		if i > 0 {
			x := p.atX(from)
			p.s.StrokeLine2(stroke(paper(), 2.4), x, p.box.Min.Y, x, p.box.Max.Y)
			p.s.StrokeLine2(stroke(quiet(), 1, 4, 3), x, p.box.Min.Y, x, p.box.Max.Y+tickSize*1.1)
		}
		from += f.Model.Path[i].Length
	}
}
