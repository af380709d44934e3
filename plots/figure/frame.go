package figure

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion/parallel"
	"strandry/plots/canvas"
	"strandry/plots/table"
	"strandry/plots/words"
	"strandry/scenarios"
)

// Frame is what every figure says about itself.
type Frame struct {
	Version string // of the program, such as "0.1.0"
	Setup   Setup  // what the figure holds for
	Notes   []string
}

// foot is the line below a figure.
func (f Frame) foot() string {
	by := ""
	if f.Version != "" {
		by = "strandry" + words.NBSP + f.Version
	}
	return strings.Join(slices.Concat(f.Setup.parts(), f.Notes, told(by)), " · ")
}

func (f Frame) frame() Frame { return f }

// Figure is one of the figures of this package.
type Figure interface {
	// Headline says what is seen, with its number.
	Headline() string
	frame() Frame
	height() canvas.Length // of the sheet
	check() error
	draw(s *canvas.Sheet, room canvas.Rectangle)
}

func encode(press *canvas.Press, f Figure, formats ...canvas.Format) ([][]byte, error) {
	if err := checked(f); err != nil {
		return nil, err
	}
	return press.Encode(page(f), formats...)
}

// Sheet is a figure with the name of its file, without an ending.
type Sheet struct {
	Name   string
	Figure Figure
}

// Drawing is what a sheet gives in each format, or why it cannot be drawn.
type Drawing struct {
	Files [][]byte
	Err   error
}

// EncodeAll draws sheets on all cores, in their order, each as files' bytes in the order of the formats, which are the same for the same data. It refuses data
// that are empty, ragged or not finite, and an unknown format; it gives up when the context ends.
func EncodeAll(ctx context.Context, sheets []Sheet, formats ...canvas.Format) ([]Drawing, error) {
	var press canvas.Press
	return parallel.Each(ctx, len(sheets), func(i int) (Drawing, error) {
		files, err := encode(&press, sheets[i].Figure, formats...)
		return Drawing{files, err}, nil
	})
}

// page is the figure between its headline and its foot.
func page(f Figure) canvas.Page {
	return canvas.Page{Headline: f.Headline(), Foot: f.frame().foot(), Height: f.height(), Draw: f.draw}
}

// errEmpty is given for a figure without data.
var errEmpty = errors.New("figure: no data")

// checked refuses a figure with any number that is not finite, and what its kind cannot draw.
func checked(f Figure) error {
	if err := table.Finite("the figure", f); err != nil {
		return err
	}
	return f.check()
}

// positive refuses values that a logarithmic axis cannot show.
func positive(what string, values ...float64) error {
	for i, v := range values {
		if v <= 0 {
			return fmt.Errorf("figure: %s: value %d is %g; a logarithmic axis needs numbers above zero", what, i+1, v)
		}
	}
	return nil
}

// rising refuses values that do not rise.
func rising(what string, values []float64) error {
	for i := 1; i < len(values); i++ {
		if !(values[i] > values[i-1]) {
			return fmt.Errorf("figure: %s: value %d is %g after %g; they must rise", what, i+1, values[i], values[i-1])
		}
	}
	return nil
}

// grid refuses rows of another shape than so many with so many values each.
func grid[T any](what string, all [][]T, rows, values int) error {
	if len(all) != rows {
		return fmt.Errorf("figure: %d rows of %s for %d", len(all), what, rows)
	}
	for j, row := range all {
		if len(row) != values {
			return fmt.Errorf("figure: %s: row %d has %d values for %d", what, j+1, len(row), values)
		}
	}
	return nil
}

// optional is [grid] for what may be nil.
func optional[T any](what string, all [][]T, rows, values int) error {
	if all == nil {
		return nil
	}
	return grid(what, all, rows, values)
}

// notNegative refuses numbers below zero.
func notNegative(what string, all ...[]float64) error {
	for j, row := range all {
		if low, _ := canvas.Bounds(row); low < 0 {
			return fmt.Errorf("figure: a %s of %g in row %d; none lies below zero", what, low, j+1)
		}
	}
	return nil
}

// FrameOf is the frame of a scenario.
func FrameOf(s *scenarios.Scenario, version string) Frame {
	return Frame{Version: version, Setup: setupOf(s)}
}
