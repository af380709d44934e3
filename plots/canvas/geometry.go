package canvas

import "gonum.org/v1/plot/vg"

// Lengths are in points, the origin is at the lower left.
type (
	Length    = vg.Length
	Point     = vg.Point
	Rectangle = vg.Rectangle
)

// Grown is the rectangle with so much more on each side.
func Grown(r Rectangle, by Length) Rectangle {
	d := Point{X: by, Y: by}
	return Rectangle{Min: r.Min.Sub(d), Max: r.Max.Add(d)}
}

// Middle is the middle of a rectangle.
func Middle(r Rectangle) Point { return r.Min.Add(r.Max).Scale(0.5) }

// Corners go round a rectangle from the lower left.
func Corners(r Rectangle) []Point {
	return []Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// Holds tells that a point is inside a rectangle.
func Holds(r Rectangle, p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Within tells that a rectangle lies in another.
func Within(r, outer Rectangle) bool { return Holds(outer, r.Min) && Holds(outer, r.Max) }

// Between is the point at a share of the way from a to b.
func Between(a, b Point, share Length) Point { return a.Add(b.Sub(a).Scale(share)) }

// Along are points on the way from a to b, so close that a word between them would be seen to cover the line.
func Along(a, b Point) []Point {
	const steps = 40
	out := make([]Point, steps+1)
	for k := range out {
		out[k] = Between(a, b, Length(k)/steps)
	}
	return out
}

// Columns parts a rectangle into so many of the same width, with gaps between them.
func Columns(r Rectangle, count int, gap Length) []Rectangle {
	width := (r.Size().X - gap*Length(count-1)) / Length(count)
	out := make([]Rectangle, count)
	for i := range out {
		out[i] = r
		out[i].Min.X += Length(i) * (width + gap)
		out[i].Max.X = out[i].Min.X + width
	}
	return out
}
