package figure

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"strandry/scenarios/validation/prove"
)

// Convergence is how the error of the solver falls with finer grids, beside how it falls with
// shorter steps, with the order measured and a line of the order stated.
type Convergence struct {
	Frame
	Orders []prove.Order
}

func (f Convergence) frame() Frame    { return f.Frame }
func (f Convergence) height() float64 { return 450 }

func (f Convergence) check() error {
	for _, inSpace := range []bool{true, false} {
		if len(f.part(inSpace)) == 0 {
			return errEmpty
		}
	}
	for _, o := range f.Orders {
		if len(o.Size) < 2 || len(o.Count) != len(o.Size) || len(o.Error) != len(o.Size) {
			return fmt.Errorf("figure: %s: %d sizes, %d counts and %d errors; two or more of each are needed", o.Name, len(o.Size), len(o.Count), len(o.Error))
		}
		if err := positive(o.Name, append(counted(o), o.Error...)...); err != nil {
			return err
		}
		if err := rising(o.Name, counted(o)); err != nil {
			return err
		}
		if err := finite(o.Name, o.Measured, o.Stated); err != nil {
			return err
		}
	}
	return nil
}

// part are the orders in space, or those in time.
func (f Convergence) part(inSpace bool) []prove.Order {
	var out []prove.Order
	for _, o := range f.Orders {
		if o.InSpace == inSpace {
			out = append(out, o)
		}
	}
	return out
}

// Headline gives the orders measured.
func (f Convergence) Headline() string {
	span := func(inSpace bool) string {
		low, high := math.Inf(1), math.Inf(-1)
		for _, o := range f.part(inSpace) {
			low, high = math.Min(low, o.Measured), math.Max(high, o.Measured)
		}
		if a, b := order(low), order(high); a != b {
			return a + " to " + b
		}
		return order(low)
	}
	return fmt.Sprintf("The error falls with order %s in space and %s in time", span(true), span(false))
}

func order(x float64) string { return fmt.Sprintf("%.1f", x) }

func (f Convergence) draw(s *sheet, headline string) {
	const gap vg.Length = 18
	room := s.framed(f.Frame, headline)
	for i, inSpace := range []bool{true, false} {
		half := room
		width := (room.Size().X - gap) / 2
		half.Min.X += vg.Length(i) * (width + gap)
		half.Max.X = half.Min.X + width
		s.refinement(half, f.part(inSpace), inSpace)
	}
}

// refinement draws the errors of one kind of refinement.
func (s *sheet) refinement(room vg.Rectangle, orders []prove.Order, inSpace bool) {
	var counts, errors []float64
	for _, o := range orders {
		counts, errors = append(counts, counted(o)...), append(errors, o.Error...)
	}
	low, high := bounds(counts)
	a := axes{x: scale{min: low / 1.15, max: high * 1.15, log: true}, y: logFrom(errors), xLabel: "Steps in time", yLabel: "Error of the mean"}
	if inSpace {
		a.xLabel = "Nodes along the radius"
	}
	a.y.max *= 3 // room for the labels
	a.y.min /= 3
	p := s.inside(room, a)
	p.grid()
	p.frame(a)
	top := 0
	for i, o := range orders {
		if o.Error[0] > orders[top].Error[0] {
			top = i
		}
	}
	for i, o := range orders {
		p.refined(o, lineColors()[i%len(lineColors())], i == top)
	}
}

func lineColors() []color.NRGBA { return []color.NRGBA{blue(), vermilion(), green(), purple()} }

// refined draws one line of errors, its order beside it: above it, or below.
func (p *panel) refined(o prove.Order, c color.NRGBA, above bool) {
	style := stroke(c, 2.5)
	if !above {
		style.Dashes = dashed()
	}
	p.line(style, counted(o), o.Error)
	for _, at := range p.points(counted(o), o.Error) {
		p.dot(at, 3, c)
	}
	text := p.s.style(tickSize, legible(c), true)
	k := len(o.Error) / 2
	if above {
		p.s.put(text, p.at(counted(o)[k], o.Error[k]).Add(vg.Point{X: 8, Y: 8 + tickSize*1.2}), alignment{0, 0}, o.Name)
		p.s.put(text, p.at(counted(o)[k], o.Error[k]).Add(vg.Point{X: 8, Y: 8}), alignment{0, 0}, "order "+order2(o.Measured))
		return
	}
	p.s.put(text, p.at(counted(o)[k], o.Error[k]).Sub(vg.Point{X: 8, Y: 8}), alignment{-1, -1}, o.Name)
	p.s.put(text, p.at(counted(o)[k], o.Error[k]).Sub(vg.Point{X: 8, Y: 8 + tickSize*1.2}), alignment{-1, -1}, "order "+order2(o.Measured))
}

func order2(x float64) string { return fmt.Sprintf("%.2f", x) }

// counted are the nodes or steps as numbers.
func counted(o prove.Order) []float64 {
	out := make([]float64, len(o.Count))
	for i, n := range o.Count {
		out[i] = float64(n)
	}
	return out
}
