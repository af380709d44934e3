package moisture

import (
	"image"
	"math"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/field"
	"strandry/plots/palette"
)

// Disc is one section of a strand, finely interpolated over the sector and laid round by its symmetry.
type Disc struct {
	arcs    int
	exposed float64
	field   field.Field // of the logarithm of the content; u is the radius, v the angle from the middle of an exposed arc to that of a covered one
}

// driestShown is the share of the wettest content below which all counts as that, so that there are ratios.
const driestShown = 1e-6

// NewDisc interpolates the logarithm of the content, monotonically between the nodes: first round, with the mirror images beyond
// the ends of the sector, then along the radius from the axis.
func NewDisc(s *diffusion.Section) *Disc {
	const anglesDrawn, partsOfGaps = 96, 4
	d := &Disc{arcs: s.Arcs, exposed: s.Exposed}
	_, most := canvas.Bounds(s.Content...)
	least := math.Max(most*driestShown, 1e-12)
	for j := range anglesDrawn + 1 {
		d.field.V = append(d.field.V, float64(j)/anglesDrawn)
	}
	var circles [][]float64 // by radius
	for _, row := range s.Content {
		circles = append(circles, round(s, row, least, d.field.V))
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
			d.field.U = append(d.field.U, radius[i]+(radius[i+1]-radius[i])*float64(k)/partsOfGaps)
		}
	}
	d.field.U = append(d.field.U, 1)
	for j := range d.field.V {
		ray := make([]float64, len(radius))
		for i := range radius {
			ray[i] = circles[i][j]
		}
		d.field.Z = append(d.field.Z, field.Smooth(radius, ray, d.field.U))
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
	return field.Smooth(x, y, at)
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

// Bounds are the driest and the wettest content [kg/kg dry].
func (d *Disc) Bounds() (low, high float64) {
	low, high = canvas.Bounds(d.field.Z...)
	return math.Exp(low), math.Exp(high)
}

// Round a disc [pt].
const (
	coverWidth canvas.Length = 9
	coverGap   canvas.Length = 2.5
)

// Draw fits the disc into a room, the middle of a covered arc at the bottom and named there.
func (d *Disc) Draw(s *canvas.Sheet, room canvas.Rectangle, t Tint) {
	name := canvas.TickSize * 1.3
	outer := min(room.Size().X/2-3, (room.Size().Y-name)/2)
	radius := outer - coverWidth - coverGap
	centre := canvas.Point{X: canvas.Middle(room).X, Y: canvas.Middle(room).Y + name/2}
	d.paint(s, centre, radius, t)
	for _, level := range t.lines() {
		d.contour(s, centre, radius, t, level)
	}
	s.Lines(canvas.Stroke(palette.Quiet, 0.7), arc(centre, radius, 0, 2*math.Pi))
	half := (1 - d.exposed) * math.Pi / float64(d.arcs)
	for k := range d.arcs {
		at := downwards + 2*math.Pi*float64(k)/float64(d.arcs)
		ring := arc(centre, radius+coverGap, at-half, at+half)
		outside := arc(centre, radius+coverGap+coverWidth, at+half, at-half)
		s.Polygon(palette.Ink, append(ring, outside...))
	}
	s.Put(s.Style(canvas.TickSize, palette.Ink, false), canvas.Point{X: centre.X, Y: centre.Y - outer - canvas.TickSize*0.8}, canvas.Centred, "covered")
}

// downwards is the direction of the middle of the first covered arc [rad].
const downwards = -math.Pi / 2

// arc are points on a circle from one direction to another.
func arc(centre canvas.Point, radius canvas.Length, from, to float64) []canvas.Point {
	n := int(math.Ceil(math.Abs(to-from)/0.03)) + 1
	out := make([]canvas.Point, n+1)
	for i := range out {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		out[i] = centre.Add(canvas.Point{X: radius * canvas.Length(cos), Y: radius * canvas.Length(sin)})
	}
	return out
}

// paint fills the disc, three dots to the point; the rim covers its edge.
func (d *Disc) paint(s *canvas.Sheet, centre canvas.Point, radius canvas.Length, t Tint) {
	size := int(6 * radius)
	picture := image.NewNRGBA(image.Rect(0, 0, size, size))
	for row := range size {
		y := 1 - 2*(float64(row)+0.5)/float64(size)
		for column := range (size + 1) / 2 {
			x := 2*(float64(column)+0.5)/float64(size) - 1
			c := palette.Paper
			if x*x+y*y <= 1 {
				c = t.of(d.at(x, y))
			}
			picture.SetNRGBA(column, row, c.NRGBA())
			picture.SetNRGBA(size-1-column, row, c.NRGBA()) // a cover at the bottom leaves left and right alike
		}
	}
	reach := canvas.Point{X: radius, Y: radius}
	s.Picture(canvas.Rectangle{Min: centre.Sub(reach), Max: centre.Add(reach)}, picture)
}

// at is the logarithm of the content at a place of the disc, in radii from its centre.
func (d *Disc) at(x, y float64) float64 {
	sector := 2 * math.Pi / float64(d.arcs)
	turn := math.Mod(math.Atan2(y, x)-downwards+2*math.Pi, sector)
	r, v := math.Hypot(x, y), 1-2*math.Min(turn, sector-turn)/sector
	return d.field.At(r, v)
}

// contour draws one level in each sector and its mirror image.
func (d *Disc) contour(s *canvas.Sheet, centre canvas.Point, radius canvas.Length, t Tint, level float64) {
	half := math.Pi / float64(d.arcs)
	for _, line := range d.field.Contours(math.Log(level)) {
		for k := range 2 * d.arcs {
			side := 1 - 2*float64(k%2)
			points := make([]canvas.Point, len(line))
			for i, at := range line {
				sin, cos := math.Sincos(downwards + float64(k/2)*2*half + side*(1-at.V)*half)
				r := radius * canvas.Length(at.U)
				points[i] = centre.Add(canvas.Point{X: r * canvas.Length(cos), Y: r * canvas.Length(sin)})
			}
			s.Lines(t.line(level), points)
		}
	}
}
