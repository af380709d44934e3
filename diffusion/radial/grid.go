package radial

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Grid is a set of nodes on 0 < r <= R, graded towards the surface, with the
// matrices of the compact scheme. It is read-only once built and may be shared
// between goroutines.
type Grid struct {
	r      []float64 // nodes, rising, the last at the surface [m]
	perLog []float64 // 1/ln(r[i+1]/r[i]), one for each gap
	weight []float64 // content weights: Σ weight c = ∫ c r dr [m²]

	mass
	lumped bool
}

// MinNodes and MaxNodes bound the size of a grid.
const (
	MinNodes = 6
	MaxNodes = 4096
)

// MaxStretch bounds the stretch of a grid.
const MaxStretch = 20

// NewGrid places n nodes on a cylinder of the given radius [m]. stretch, from 0
// to MaxStretch, draws them to the surface: with s even from the axis to the
// surface, 1 - r/R = sinh(a(1-s))/sinh(a) for a stretch of a, and zero is an even
// grid. The spacing is a/(n sinh(a)) of the radius at the surface and about a/n
// at the axis. More nodes at the same stretch refine the grid alike everywhere.
func NewGrid(radius float64, n int, stretch float64) (*Grid, error) {
	if !(radius > 0) || math.IsInf(radius, 0) {
		return nil, fmt.Errorf("radial: radius %g m: must be positive and finite", radius)
	}
	if n < MinNodes || n > MaxNodes {
		return nil, fmt.Errorf("radial: %d nodes: allowed %d to %d", n, MinNodes, MaxNodes)
	}
	if !(stretch >= 0) || stretch > MaxStretch {
		return nil, fmt.Errorf("radial: stretch %g: allowed 0 to %d", stretch, MaxStretch)
	}
	g := &Grid{
		r: make([]float64, n), perLog: make([]float64, n-1), weight: make([]float64, n),
		mass: newMass(n),
	}
	for i := range g.r {
		s := float64(n-1-i) / (float64(n) - 0.5) // 0 at the surface, 1 at the axis
		depth := s
		if stretch > 0 {
			depth = math.Sinh(stretch*s) / math.Sinh(stretch)
		}
		g.r[i] = radius * (1 - depth)
	}
	for i := range g.perLog {
		g.perLog[i] = 1 / math.Log(g.r[i+1]/g.r[i])
	}
	g.assemble()
	return g, nil
}

// assemble fills the mass matrix: entry (i, j) is ∫ φ_i ℓ_j r dr, with φ_i the
// test function of node i and ℓ_j the Lagrange polynomial of node j on the
// nodes i-1, i, i+1 (a straight line in r² at the axis).
func (g *Grid) assemble() {
	n := len(g.r)
	x, w := make([]float64, 8), make([]float64, 8)
	quad.Legendre{}.FixedLocations(x, w, 0, 1)
	for i := range n {
		add := func(r, amount float64) { g.spread(i, r, amount) }
		if i == 0 {
			for k := range x {
				add(g.r[0]*x[k], w[k]*g.r[0]*g.r[0]*x[k])
			}
		}
		for _, side := range [2]int{-1, 1} {
			j := i + side
			if j < 0 || j >= n {
				continue
			}
			width, logGap := math.Abs(g.r[j]-g.r[i]), math.Abs(math.Log(g.r[j]/g.r[i]))
			for k := range x {
				r := g.r[i] + (g.r[j]-g.r[i])*x[k]
				phi := math.Abs(math.Log(g.r[j]/r)) / logGap
				add(r, w[k]*width*phi*r)
			}
		}
	}
	for i := range n {
		g.weight[i] += g.diag[i]
		if i > 0 {
			g.weight[i-1] += g.lower[i]
		}
		if i < n-1 {
			g.weight[i+1] += g.upper[i]
		}
	}
	g.weight[n-3] += g.far
}

// spread adds amount times the value at radius r to row i, by interpolation
// between the nodes of that row.
func (g *Grid) spread(i int, r, amount float64) {
	n := len(g.r)
	switch i {
	case 0:
		a, b := g.r[0]*g.r[0], g.r[1]*g.r[1]
		u := (r*r - a) / (b - a)
		g.diag[0] += amount * (1 - u)
		g.upper[0] += amount * u
	case n - 1:
		a, b, c := parabola(g.r[n-3], g.r[n-2], g.r[n-1], r)
		g.far += amount * a
		g.lower[i] += amount * b
		g.diag[i] += amount * c
	default:
		a, b, c := parabola(g.r[i-1], g.r[i], g.r[i+1], r)
		g.lower[i] += amount * a
		g.diag[i] += amount * b
		g.upper[i] += amount * c
	}
}

// parabola gives the values at x of the three Lagrange polynomials on x0, x1, x2.
func parabola(x0, x1, x2, x float64) (a, b, c float64) {
	a = (x - x1) * (x - x2) / ((x0 - x1) * (x0 - x2))
	b = (x - x0) * (x - x2) / ((x1 - x0) * (x1 - x2))
	c = (x - x0) * (x - x1) / ((x2 - x0) * (x2 - x1))
	return a, b, c
}

// Len is the number of nodes.
func (g *Grid) Len() int { return len(g.r) }

// Radius is the radius of the cylinder [m].
func (g *Grid) Radius() float64 { return g.r[len(g.r)-1] }

// Node is the radius of node i [m].
func (g *Grid) Node(i int) float64 { return g.r[i] }

// Gap is the mean radius of the gap between nodes i and i+1 [m]: where a
// conductance that varies along the radius is to be taken.
func (g *Grid) Gap(i int) float64 { return math.Sqrt(g.r[i] * g.r[i+1]) }

// PerLog is 1/ln of the ratio of the radii of nodes i+1 and i [-].
func (g *Grid) PerLog(i int) float64 { return g.perLog[i] }

// Content is ∫ c r dr from the axis to the surface [m² times the unit of c].
func (g *Grid) Content(c []float64) float64 {
	sum := 0.0
	for i, w := range g.weight {
		sum += w * c[i]
	}
	return sum
}

// Mean is the area mean of c over the section.
func (g *Grid) Mean(c []float64) float64 {
	return 2 * g.Content(c) / (g.Radius() * g.Radius())
}

// Centre is the value on the axis, by the even polynomial of fourth degree through the three
// innermost nodes. Its slope there, in r², is held between none and twice that between the first two, so
// that a front which nears them is not extrapolated; on a lumped grid it is none.
func (g *Grid) Centre(c []float64) float64 {
	if g.lumped {
		return c[0]
	}
	x0, x1, x2 := g.r[0]*g.r[0], g.r[1]*g.r[1], g.r[2]*g.r[2]
	inner, outer := (c[1]-c[0])/(x1-x0), (c[2]-c[1])/(x2-x1)
	slope := inner - (outer-inner)/(x2-x0)*x1
	if inner < 0 {
		slope = min(max(slope, 2*inner), 0)
	} else {
		slope = max(min(slope, 2*inner), 0)
	}
	return c[0] - slope*x0
}

// Spacing is the distance between the two outermost nodes [m].
func (g *Grid) Spacing() float64 { return g.r[len(g.r)-1] - g.r[len(g.r)-2] }
