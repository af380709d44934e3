package figure

import (
	"fmt"
	"math"
	"slices"

	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/scenarios/validation/prove"
)

// Convergence is how the error of the solver falls with finer grids, beside how it falls with
// shorter steps, with the order measured and a line of the order stated.
type Convergence struct {
	Frame
	Orders []prove.Order
}

func (f Convergence) height() canvas.Length { return 450 }

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
		if a, b := fmt.Sprintf("%.1f", low), fmt.Sprintf("%.1f", high); a != b {
			return a + " to " + b
		}
		return fmt.Sprintf("%.1f", low)
	}
	return fmt.Sprintf("The error falls with order %s in space and %s in time", span(true), span(false))
}

func (f Convergence) draw(s *canvas.Sheet, room canvas.Rectangle) {
	const gap = 18
	for i, half := range canvas.Columns(room, 2, gap) {
		inSpace := i == 0
		refinement(s, half, f.part(inSpace), inSpace)
	}
}

// refinement draws the errors of one kind of refinement.
func refinement(s *canvas.Sheet, room canvas.Rectangle, orders []prove.Order, inSpace bool) {
	var counts, errors []float64
	for _, o := range orders {
		counts, errors = append(counts, counted(o)...), append(errors, o.Error...)
	}
	low, high := canvas.Bounds(counts)
	a := canvas.Axes{X: canvas.Scale{Min: low / 1.15, Max: high * 1.15, Log: true}, Y: canvas.LogOver(errors), XLabel: "Steps in time", YLabel: "Error of the mean"}
	if inSpace {
		a.XLabel = "Nodes along the radius"
	}
	a.Y.Max *= 3 // room for the labels
	a.Y.Min /= 3
	p := s.Panel(room, a)
	p.Grid()
	p.Frame()
	top := slices.IndexFunc(orders, func(o prove.Order) bool {
		return !slices.ContainsFunc(orders, func(other prove.Order) bool { return other.Error[0] > o.Error[0] })
	})
	for i, o := range orders {
		refined(p, o, lineColours()[i%len(lineColours())], i == top)
	}
}

func lineColours() []palette.Colour {
	return []palette.Colour{palette.Blue, palette.Vermilion, palette.Green, palette.Purple}
}

// refined draws one line of errors, its order beside it: above it, or below.
func refined(p *canvas.Panel, o prove.Order, c palette.Colour, above bool) {
	style := canvas.Stroke(c, 2.5)
	if !above {
		style.Dashes = canvas.Dashed()
	}
	p.Line(style, counted(o), o.Error)
	for _, at := range p.Points(counted(o), o.Error) {
		p.Disc(at, 3, c)
	}
	text := p.Style(canvas.TickSize, palette.Legible(c), true)
	k := len(o.Error) / 2
	at, order := p.At(counted(o)[k], o.Error[k]), fmt.Sprintf("order %.2f", o.Measured)
	const away, line = 8, canvas.TickSize * 1.2
	side, name, below := canvas.AboveRight, canvas.Point{X: away, Y: away + line}, canvas.Point{X: away, Y: away}
	if !above {
		side, name, below = canvas.BelowLeft, below.Scale(-1), name.Scale(-1)
	}
	p.Put(text, at.Add(name), side, o.Name)
	p.Put(text, at.Add(below), side, order)
}

// counted are the nodes or steps as numbers.
func counted(o prove.Order) []float64 {
	out := make([]float64, len(o.Count))
	for i, n := range o.Count {
		out[i] = float64(n)
	}
	return out
}
