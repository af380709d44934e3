package checked

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/root"
)

// Factor is that on the diffusivity with which the model, at the medians of all else, gives what was measured [-].
type Factor struct {
	Value     float64 // zero where none from a thousandth to a thousand does
	Low, High float64 // for the 10 and the 90 % point of what was measured; zero where there is none that low or high
}

// farthest is the logarithm of the greatest factor that is looked at, and the inverse of the least.
const farthest = 3 * math.Ln10

// factor finds it. Where several would do it is the one nearest to one.
func factor(w *diffusion.March, d *diffusion.Design, s diffusion.Settings, of Quantity, measured Estimate) Factor {
	c := curve{march: w, model: d.Model, settings: s.Coarser(), of: of}
	c.look()
	if len(c.walk) < 2 {
		return Factor{}
	}
	low, high := c.root(measured.Low), c.root(measured.High)
	if c.walk[0].Y > c.walk[len(c.walk)-1].Y { // the faster, the less
		low, high = high, low
	}
	if low > high && high > 0 {
		low, high = high, low
	}
	return Factor{c.root(measured.Value), low, high}
}

// curve is a quantity over the logarithm of a factor on the diffusivity.
type curve struct {
	march    *diffusion.March
	model    diffusion.Model
	settings diffusion.Settings
	of       Quantity
	walk     root.Walk
}

func (c *curve) at(log float64) (float64, error) {
	m := c.model
	m.Material.Diffusivity.ReferenceValue.Value *= math.Exp(log)
	var r diffusion.Result
	err := c.march.Run(&m, c.settings, &r)
	return value(c.of, r.Start.Mean, r.Nozzle.Mean), err
}

// look finds the curve at some factors; those without an answer are left out.
func (c *curve) look() {
	const steps = 6 // to each side
	for i := -steps; i <= steps; i++ {
		x := farthest * float64(i) / steps
		if y, err := c.at(x); err == nil {
			c.walk = append(c.walk, root.Place{X: x, Y: y})
		}
	}
}

// root is the factor at which the quantity is this; zero for none.
func (c *curve) root(wanted float64) float64 {
	type gap struct{ from, to root.Place }
	var gaps []gap
	for i := 1; i < len(c.walk); i++ {
		gaps = append(gaps, gap{c.walk[i-1], c.walk[i]})
	}
	slices.SortStableFunc(gaps, func(a, b gap) int {
		return cmp.Compare(math.Abs(a.from.X+a.to.X), math.Abs(b.from.X+b.to.X))
	})
	const near = 2e-3 // of the logarithm
	for _, g := range gaps {
		b := root.Bracket{A: g.from.X, B: g.to.X, AtA: g.from.Y - wanted, AtB: g.to.Y - wanted}
		x, err := root.Find(func(x float64) (float64, error) {
			y, err := c.at(x)
			return y - wanted, err
		}, b, root.Tolerance{Width: near})
		if err == nil {
			return math.Exp(x)
		}
	}
	return 0
}
