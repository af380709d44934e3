package figure

import (
	"image"
	"math"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/plot/vg"

	"strandry/diffusion"
)

// roundel is one section, finely interpolated over the sector and laid round by its symmetry.
type roundel struct {
	arcs    int
	exposed float64
	field   field // of the logarithm of the content; u is the radius, v the angle from the middle of an exposed arc to that of a covered one
}

// driestShown is the share of the wettest content below which all counts as that, so that there are ratios.
const driestShown = 1e-6

// newRoundel interpolates the logarithm of the content, monotonically between the nodes: first round, with the mirror images beyond
// the ends of the sector, then along the radius from the axis.
func newRoundel(s *diffusion.Section) *roundel {
	const anglesDrawn, partsOfGaps = 96, 4
	d := &roundel{arcs: s.Arcs, exposed: s.Exposed}
	most := 0.0
	for _, row := range s.Content {
		_, high := bounds(row)
		most = math.Max(most, high)
	}
	least := math.Max(most*driestShown, 1e-12)
	for j := range anglesDrawn + 1 {
		d.field.v = append(d.field.v, float64(j)/anglesDrawn)
	}
	var circles [][]float64 // by radius
	for _, row := range s.Content {
		circles = append(circles, round(s, row, least, d.field.v))
	}
	surface := s.Radius[len(s.Radius)-1]
	var radius []float64
	if s.Radius[0] > 0 {
		radius = append(radius, 0)
		circles = append([][]float64{axis(s, circles)}, circles...)
	}
	for _, r := range s.Radius {
		radius = append(radius, r/surface)
	}
	for i := 0; i+1 < len(radius); i++ {
		for k := range partsOfGaps {
			d.field.u = append(d.field.u, radius[i]+(radius[i+1]-radius[i])*float64(k)/partsOfGaps)
		}
	}
	d.field.u = append(d.field.u, 1)
	for j := range d.field.v {
		ray := make([]float64, len(radius))
		for i := range radius {
			ray[i] = circles[i][j]
		}
		d.field.z = append(d.field.z, smooth(radius, ray, d.field.u))
	}
	return d
}

// round interpolates one circle at shares of the sector.
func round(s *diffusion.Section, contents []float64, least float64, at []float64) []float64 {
	var x, y []float64
	n := len(s.Angle)
	add := func(angle, content float64) {
		if len(x) == 0 || angle > x[len(x)-1]+1e-9 {
			x, y = append(x, angle), append(y, math.Log(math.Max(content, least)))
		}
	}
	share := func(a int) float64 { return s.Angle[a] * float64(s.Arcs) / math.Pi }
	for a := n - 1; a >= 0; a-- {
		add(-share(a), contents[a])
	}
	for a := range n {
		add(share(a), contents[a])
	}
	for a := n - 1; a >= 0; a-- {
		add(2-share(a), contents[a])
	}
	return smooth(x, y, at)
}

// axis is the value on the axis, the same in all directions, from the means of the two innermost circles as a + b r².
func axis(s *diffusion.Section, circles [][]float64) []float64 {
	mean := func(i int) float64 {
		sum := 0.0
		for _, v := range circles[i] {
			sum += v
		}
		return sum / float64(len(circles[i]))
	}
	a, b := s.Radius[0]*s.Radius[0], s.Radius[1]*s.Radius[1]
	value := mean(0) + (mean(0)-mean(1))*a/(b-a)
	out := make([]float64, len(circles[0]))
	for j := range out {
		out[j] = value
	}
	return out
}

// bulge is how far a curve may pass beyond two equal neighbours: an image and its mirror image, with the true extreme between them.
const bulge = 0.05

// smooth is a cubic through points at rising places: the slopes of parabolas through three of them, held so that nothing passes
// beyond its neighbours (Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238) but for the bulge.
func smooth(x, y, at []float64) []float64 {
	last := len(x) - 1
	rise := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	slopes := make([]float64, len(x))
	slopes[0], slopes[last] = rise(0), rise(last-1)
	for i := 1; i < last; i++ {
		before, after := rise(i-1), rise(i)
		near, far := x[i]-x[i-1], x[i+1]-x[i]
		most := 0.0
		switch {
		case before*after > 0:
			most = 3 * math.Min(math.Abs(before), math.Abs(after))
		case before == 0:
			most = 4 * bulge / near
		case after == 0:
			most = 4 * bulge / far
		}
		slopes[i] = math.Max(-most, math.Min(most, (before*far+after*near)/(near+far)))
	}
	var cubic interp.PiecewiseCubic
	cubic.FitWithDerivatives(x, y, slopes)
	out := make([]float64, len(at))
	for i, v := range at {
		out[i] = cubic.Predict(v)
	}
	return out
}

// bounds are the driest and the wettest content.
func (d *roundel) bounds() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, ray := range d.field.z {
		l, h := bounds(ray)
		low, high = math.Min(low, l), math.Max(high, h)
	}
	return math.Exp(low), math.Exp(high)
}

// Round a disc [pt].
const (
	coverWidth vg.Length = 9
	coverGap   vg.Length = 2.5
)

// draw fits the disc into a room, the middle of a covered arc at the bottom and named there.
func (d *roundel) draw(s *sheet, room vg.Rectangle, t tint) {
	name := tickSize * 1.3
	outer := min(room.Size().X/2-3, (room.Size().Y-name)/2)
	radius := outer - coverWidth - coverGap
	centre := vg.Point{X: middle(room).X, Y: middle(room).Y + name/2}
	d.paint(s, centre, radius, t)
	for _, level := range t.lines() {
		d.contour(s, centre, radius, t, level)
	}
	s.StrokeLines(stroke(quiet(), 0.7), arc(centre, radius, 0, 2*math.Pi))
	half := (1 - d.exposed) * math.Pi / float64(d.arcs)
	for k := range d.arcs {
		at := downwards + 2*math.Pi*float64(k)/float64(d.arcs)
		ring := arc(centre, radius+coverGap, at-half, at+half)
		outside := arc(centre, radius+coverGap+coverWidth, at+half, at-half)
		s.FillPolygon(ink(), append(ring, outside...))
	}
	s.put(s.style(tickSize, ink(), false), vg.Point{X: centre.X, Y: centre.Y - outer - tickSize*0.8}, centred(), "covered")
}

// downwards is the direction of the middle of the first covered arc [rad].
const downwards = -math.Pi / 2

// arc are points on a circle from one direction to another.
func arc(centre vg.Point, radius vg.Length, from, to float64) []vg.Point {
	n := int(math.Ceil(math.Abs(to-from)/0.03)) + 1
	out := make([]vg.Point, n+1)
	for i := range out {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		out[i] = centre.Add(vg.Point{X: radius * vg.Length(cos), Y: radius * vg.Length(sin)})
	}
	return out
}

// paint fills the disc, three dots to the point; the rim covers its edge.
func (d *roundel) paint(s *sheet, centre vg.Point, radius vg.Length, t tint) {
	size := int(6 * radius)
	picture := image.NewNRGBA(image.Rect(0, 0, size, size))
	for row := range size {
		for column := range size {
			x, y := 2*(float64(column)+0.5)/float64(size)-1, 1-2*(float64(row)+0.5)/float64(size)
			c := paper()
			if math.Hypot(x, y) <= 1 {
				c = t.of(d.at(x, y))
			}
			picture.SetNRGBA(column, row, c)
		}
	}
	reach := vg.Point{X: radius, Y: radius}
	s.DrawImage(vg.Rectangle{Min: centre.Sub(reach), Max: centre.Add(reach)}, picture)
}

// at is the content at a place of the disc, in radii from its centre.
func (d *roundel) at(x, y float64) float64 {
	sector := 2 * math.Pi / float64(d.arcs)
	turn := math.Mod(math.Atan2(y, x)-downwards+2*math.Pi, sector)
	r, v := math.Hypot(x, y), 1-2*math.Min(turn, sector-turn)/sector
	f := d.field
	return math.Exp(f.within(cell(f.u, r), cell(f.v, v), r, v))
}

// contour draws one level in each sector and its mirror image.
func (d *roundel) contour(s *sheet, centre vg.Point, radius vg.Length, t tint, level float64) {
	half := math.Pi / float64(d.arcs)
	for _, line := range d.field.contours(math.Log(level)) {
		for k := range 2 * d.arcs {
			side := 1 - 2*float64(k%2)
			points := make([]vg.Point, len(line))
			for i, at := range line {
				sin, cos := math.Sincos(downwards + float64(k/2)*2*half + side*(1-at.v)*half)
				r := radius * vg.Length(at.u)
				points[i] = centre.Add(vg.Point{X: r * vg.Length(cos), Y: r * vg.Length(sin)})
			}
			s.StrokeLines(t.line(level), points)
		}
	}
}
