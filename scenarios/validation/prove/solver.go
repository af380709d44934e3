package prove

import (
	"math"

	"strandry/diffusion/exact"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

const solverFamily = "radial solver"

// solved marches a problem from a start given over the relative radius.
func solved(nodes int, stretch float64, s rosenbrock.Settings, start func(x float64) float64, p radial.Problem, until float64) (*radial.March, error) {
	g, err := radial.NewGrid(1, nodes, stretch)
	if err != nil {
		return nil, err
	}
	m := &radial.March{}
	m.Start(g, 0)
	for i := range m.C {
		m.C[i] = start(g.Node(i))
	}
	return m, m.Advance(p, until, s)
}

// usual are the settings of the whole program's default, with a stretch in the middle.
func usual(start func(x float64) float64, p radial.Problem, until float64) (*radial.March, error) {
	return solved(18, 3.5, rosenbrock.Settings{Tolerance: 1e-3}, start, p, until)
}

func flat(c float64) func(float64) float64 { return func(float64) float64 { return c } }

// solver sets the radial solver against what the whole program cannot state: sources, a given
// surface and a diffusivity that vanishes.
func solver() []Check {
	ramp := origin{solverFamily, "surface rising linearly: Laplace inversion (independent code); Crank (1975), ch. 5", Computed, promise()}
	var out []Check
	for _, r := range []driving{{0, 0.05, 0.0155223909719}, {0, 0.2, 0.112628482571}, {0, 1, 0.875368230642}} {
		out = append(out, ramp.check(r.name(), "mean", "-", r.mean, taken(func() (*radial.March, error) {
			p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: radial.Prescribed(r.surface)}
			return usual(flat(0), p, r.fourier)
		}, meanOf)))
	}
	return append(append(append(out, madeUp()...), front()...), steadySource()...)
}

// taken takes one number of a march.
func taken(march func() (*radial.March, error), number func(*radial.March) float64) func() (float64, error) {
	return func() (float64, error) {
		m, err := march()
		if err != nil {
			return 0, err
		}
		return number(m), nil
	}
}

func meanOf(m *radial.March) float64    { return m.Grid.Mean(m.C) }
func centreOf(m *radial.March) float64  { return m.Grid.Centre(m.C) }
func surfaceOf(m *radial.March) float64 { return m.C[len(m.C)-1] }

// manufactured is the problem that has exact.Manufactured as its solution.
func manufactured() radial.Problem {
	var made exact.Manufactured
	return radial.Problem{
		Conductance: radial.Uniform(1), Potential: radial.Exponential(1.2),
		Surface: radial.Exchange(func(t, c, _ float64) (j, dc, dq float64) {
			return made.Film() * (c - made.Surroundings(t)), made.Film(), 0
		}),
		Source: func(t float64, r, s []float64) {
			for i := range r {
				s[i] = made.Source(r[i], t)
			}
		},
	}
}

func madeUp() []Check {
	o := origin{solverFamily,
		"manufactured solution c = 0.4 + 0.5 exp(-t)(1 - 0.6 x²), D = exp(1.2 c), film and air that vary: closed form",
		Computed, promise()}
	var out []Check
	for _, r := range []struct {
		name                  string
		until                 float64
		mean, centre, surface float64
	}{
		{"t = 0.5", 0.5, 0.6122857309, 0.7032653299, 0.5213061319},
		{"t = 2", 2, 0.4473673491, 0.4676676416, 0.4270670566},
	} {
		run := func() (*radial.March, error) {
			var made exact.Manufactured
			return usual(func(x float64) float64 { return made.At(x, 0) }, manufactured(), r.until)
		}
		out = append(out,
			o.check(r.name, "mean", "-", r.mean, taken(run, meanOf)),
			o.check(r.name, "centre", "-", r.centre, taken(run, centreOf)),
			o.check(r.name, "surface", "-", r.surface, taken(run, surfaceOf)))
	}
	return out
}

// squared is the potential of the diffusivity 2 c.
type squared struct{}

func (squared) Potential(c, g, slope []float64) {
	for i, v := range c {
		g[i], slope[i] = v*math.Abs(v), 2*math.Abs(v)
	}
}

// front is a fixed amount that spreads with D = 2 c behind a sharp front.
func front() []Check {
	const until, peak = 15, 0.0025
	o := origin{solverFamily,
		"moving front, D = 2 c: Barenblatt (1952), closed form (from memory, verified against the equation)",
		Computed, absolute(5e-3*peak, "0.5 % of the peak: the front is a kink that a grid of 100 nodes rounds off")}
	// At t = 16: t^(-1/2) (0.01 - r² t^(-1/2)/16).
	run := func() (*radial.March, error) {
		shape := exact.Front{Amplitude: 0.01}
		sealed := radial.Exchange(func(_, _, _ float64) (j, dc, dq float64) { return 0, 0, 0 })
		p := radial.Problem{Conductance: radial.Uniform(1), Potential: squared{}, Surface: sealed}
		return solved(100, 0, rosenbrock.Settings{Tolerance: 1e-4}, func(x float64) float64 { return shape.At(x, 1) }, p, until)
	}
	kept := o
	kept.tolerance = relative(1e-2, "the kink lies between two nodes at the start: 1 % of the amount")
	return []Check{
		o.check("t = 16", "c at r = 0", "-", peak, taken(run, centreOf)),
		o.check("t = 16", "c at r = 0.6", "-", 0.00109375, taken(run, func(m *radial.March) float64 { return between(m, 0.6) })),
		kept.check("t = 16", "mean", "-", 8e-4, taken(run, meanOf)),
	}
}

// between is the field at a relative radius, on the straight line between two nodes.
func between(m *radial.March, x float64) float64 {
	for i := range len(m.C) - 1 {
		if low, high := m.Grid.Node(i), m.Grid.Node(i+1); low <= x && x <= high {
			return m.C[i] + (m.C[i+1]-m.C[i])*(x-low)/(high-low)
		}
	}
	return math.NaN()
}

func steadySource() []Check {
	o := origin{solverFamily,
		"steady rod with a source, D = exp(2 c): boundary-value solver at 1e-13 (independent code)", Computed, promise()}
	run := func() (*radial.March, error) {
		p := radial.Problem{
			Conductance: radial.Uniform(1), Potential: radial.Exponential(2),
			Surface: radial.Prescribed(func(float64) float64 { return 0.1 }),
			Source: func(_ float64, r, s []float64) {
				for i := range r {
					s[i] = 1.6
				}
			},
		}
		return usual(flat(0.1), p, 8)
	}
	return []Check{
		o.check("t = 8", "mean", "-", 0.2364787139396523, taken(run, meanOf)),
		o.check("t = 8", "centre", "-", 0.3518958525688208, taken(run, centreOf)),
	}
}
