package section

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

// The steady flux from a core through n held arcs: a unit per radian brings the core to ln(R/r) plus the resistance that the
// covers add, (2/n) ln sec(π covered/2), exactly (conformal mapping; Philip, ZAMP 23 (1972) 353, from memory). Two arcs, and
// others. The steady field is held by the basis, so that the error falls by orders with each few angles.
func TestSteadyFlux(t *testing.T) {
	r, err := radial.NewGrid(1, 15, 3)
	require.NoError(t, err)
	for _, arcs := range []int{1, 2, 5} {
		for _, exposed := range []float64{0.1, 0.25, 0.5, 0.9} {
			added := 2 / float64(arcs) * math.Log(1/math.Cos(math.Pi*(1-exposed)/2))
			for angles, delta := range map[int]float64{CoarseAngles: 0.03, UsualAngles: 3e-3, RefinedAngles: 6e-4} {
				g, err := NewGrid(r, Shape{Exposed: exposed, Arcs: arcs}, angles)
				require.NoError(t, err)
				m := &March{}
				m.Start(g, 0)
				held := radial.Exchange(func(_, c, _ float64) (j, dc, dq float64) { return 1e10 * c, 1e10, 0 })
				m.bind(radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: held}, rosenbrock.Settings{})
				m.evaluateStart()
				require.True(t, m.assemble(0)) // no storage: the steady problem
				clear(m.scratch)
				copy(m.scratch, g.share)
				m.matrix.solve(m.scratch)
				got := g.Round(m.scratch, 0) + math.Log(r.Node(0))
				t.Logf("%d arcs, %g exposed, %d angles: %.6f of %.6f", arcs, exposed, angles, got, added)
				require.False(t, math.IsNaN(got))
				require.InDelta(t, 1, got/added, delta, "%d arcs, %g exposed, %d angles", arcs, exposed, angles)
			}
		}
	}
}

// On the real line the integral is that of the error function, 2 exp(-x) - 2 sqrt(π x) erfc(sqrt x) (by parts); off it, the
// series and the continued fraction meet.
func TestBeyondOne(t *testing.T) {
	for _, x := range []float64{0, 1e-6, 0.5, 3.9, 4.1, 20} {
		got := beyondOne(complex(x, 0))
		require.InDelta(t, 2*math.Exp(-x)-2*math.Sqrt(math.Pi*x)*math.Erfc(math.Sqrt(x)), real(got), 1e-13)
		require.InDelta(t, 0, imag(got), 1e-13)
	}
	for _, turn := range []float64{-1.5, -0.7, 0.7, 1.5} {
		inside, outside := beyondOne(cmplx.Rect(4-1e-9, turn)), beyondOne(cmplx.Rect(4+1e-9, turn))
		require.Less(t, cmplx.Abs(inside-outside), 1e-8)
	}
}

// The projections on the modes are those of a quadrature, and the continuation keeps what it continues: at a depth where the
// sum over the modes converges by itself, a steady field from the surface is the same at its nodes.
func TestContinuation(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, exposed := range []float64{0.1, 0.5, 0.9} {
		b := newBasis(exposed, UsualAngles)
		const n = 20000
		u := []float64{1, -0.5, 0.3, 0.8, -0.2, 0.6}
		var values [n]float64
		for k := range values {
			values[k] = surface(exposed, b, u, math.Pi*(float64(k)+0.5)/n)
		}
		steady := func(phi, depth float64) float64 { // by Poisson's kernel
			sum, q := 0.0, math.Exp(-depth)
			for k, value := range values {
				at := math.Pi * (float64(k) + 0.5) / n
				for _, side := range [2]float64{at - phi, at + phi} {
					sum += value * (1 - q*q) / (1 - 2*q*math.Cos(side) + q*q) / (2 * n)
				}
			}
			return sum
		}
		for _, depth := range []float64{0.003, 0.05} {
			back, _ := b.inward(depth)
			for a := range u {
				// The functions on the circle times the values there give back the amplitudes.
				got, delta := 0.0, 5e-3
				for j, phi := range b.phi {
					got += back[a*len(u)+j] * steady(phi, depth)
				}
				if a != b.edge { // where the modes that are left out count most
					delta = 2e-4
				}
				require.InDelta(t, u[a], got, delta, "%g exposed, depth %g", exposed, depth)
			}
		}
	}
}

// surface is the value at φ of the functions at the surface with amplitudes u, from the definition of X.
func surface(exposed float64, b *basis, u []float64, phi float64) float64 {
	span, y, from, step := exposed*math.Pi, phi, b.edge, -1
	if phi > span {
		span, y, step = math.Pi-span, math.Pi-phi, 1
	}
	root := func(y float64) float64 {
		return math.Sqrt(max(0, (math.Cos(y)-math.Cos(span))/(1-math.Cos(span))))
	}
	var x, values []float64
	for j := from; j >= 0 && j < len(u); j += step {
		at := b.phi[j]
		if step > 0 {
			at = math.Pi - at
		}
		x, values = append(x, root(at)), append(values, u[j])
	}
	sum, here := 0.0, root(y)
	for i, v := range values {
		for k := range x {
			if k != i {
				v *= (here - x[k]) / (x[i] - x[k])
			}
		}
		sum += v
	}
	return sum
}
