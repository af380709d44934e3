package prove

import (
	"fmt"
	"math"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// Order is how the error of the content falls as the solver is refined.
type Order struct {
	Name     string    // the problem: "slowest mode" or "manufactured"
	InSpace  bool      // Size is a spacing; else a step in time
	Size     []float64 // falling: relative to the largest [-]
	Count    []int     // nodes, or steps
	Error    []float64 // of the mean against the closed form [unit of c]
	Measured float64   // slope of the error over the size, by least squares in the logarithms [-]
	Stated   float64   // order of the method, or the least that theory leaves
}

// Convergence refines the solver on two problems with a closed form, the slowest mode of
// a cylinder with a film and the manufactured solution with D = exp(1.2 c) in surroundings that
// vary: the grid first with the time exact, then the step on a grid so fine that the step
// makes the error.
func Convergence() ([]Order, error) {
	problems, err := smooth()
	if err != nil {
		return nil, err
	}
	var out []Order
	for _, refined := range []func(known) (Order, error){known.inSpace, known.inTime} {
		for _, p := range problems {
			o, err := refined(p)
			if err != nil {
				return nil, err
			}
			out = append(out, o)
		}
	}
	return out, nil
}

// known is a problem with a smooth closed form.
type known struct {
	name      string
	problem   radial.Problem
	at        func(x, t float64) float64
	mean      func(t float64) float64
	until     float64
	timeOrder float64 // stated of the mean
}

func smooth() ([]known, error) {
	const biot = 2
	mode, err := exact.FirstMode(biot)
	if err != nil {
		return nil, err
	}
	var made exact.Manufactured
	film := radial.Problem{
		Conductance: radial.Uniform(1), Potential: radial.Linear{},
		Surface: radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return biot * c, biot, 0 }),
	}
	return []known{
		{"slowest mode", film, mode.At, mode.Mean, 0.2, 4},
		{"manufactured", manufactured(), made.At, made.Mean, 0.5, 2},
	}, nil
}

// off is the error of the mean.
func (p known) off(nodes int, s rosenbrock.Settings) (float64, error) {
	m, err := solved(nodes, 2, s, func(x float64) float64 { return p.at(x, 0) }, p.problem, p.until)
	if err != nil {
		return 0, err
	}
	off := math.Abs(meanOf(m) - p.mean(p.until))
	if !(off > 0) || math.IsInf(off, 0) {
		return 0, fmt.Errorf("%s on %d nodes: an error of %g has no order", p.name, nodes, off)
	}
	return off, nil
}

func (p known) inSpace() (Order, error) {
	o := Order{Name: p.name, InSpace: true, Stated: 4}
	for _, nodes := range []int{8, 12, 16, 24, 32, 48, 64} {
		e, err := p.off(nodes, rosenbrock.Settings{Tolerance: 1e-10})
		if err != nil {
			return o, err
		}
		o.add(nodes, 1/(float64(nodes)-0.5), e) // the spacing goes with 1/(n - 1/2)
	}
	return o.fitted(), nil
}

// fine is a grid whose own error, below 1e-11, stays under that of the steps.
const fine = 250 // nodes

func (p known) inTime() (Order, error) {
	o := Order{Name: p.name, Stated: p.timeOrder}
	for _, steps := range []int{3, 4, 6, 8, 12, 16} {
		e, err := p.off(fine, rosenbrock.Settings{Steps: steps})
		if err != nil {
			return o, err
		}
		o.add(steps, 1/float64(steps), e)
	}
	return o.fitted(), nil
}

func (o *Order) add(count int, size, e float64) {
	o.Count, o.Size, o.Error = append(o.Count, count), append(o.Size, size), append(o.Error, e)
}

// fitted measures the slope and makes the sizes relative.
func (o Order) fitted() Order {
	var x, y, xx, xy float64
	n := float64(len(o.Size))
	largest := o.Size[0]
	for i := range o.Size {
		o.Size[i] /= largest
		lx, ly := math.Log(o.Size[i]), math.Log(o.Error[i])
		x, y, xx, xy = x+lx, y+ly, xx+lx*lx, xy+lx*ly
	}
	o.Measured = (n*xy - x*y) / (n*xx - x*x)
	return o
}
