package section

import (
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/radial"
)

// Shape tells which part of the perimeter takes part in the exchange.
type Shape struct {
	Exposed float64 // share of the perimeter, 0.01 to 1
	Arcs    int     // into how many equal parts the rest is divided, evenly round, 1 to 8
}

// Bounds of a shape and of the number of angles.
const (
	MinExposed = 0.01
	MaxArcs    = 8
	MinAngles  = 3
	MaxAngles  = 12
)

// Angles to choose from; package doc tells their errors.
const (
	CoarseAngles  = 4
	UsualAngles   = 6
	RefinedAngles = 9
)

func (s Shape) check() error {
	switch {
	case !(s.Exposed >= MinExposed && s.Exposed <= 1):
		return fmt.Errorf("section: exposed share %g: allowed %g to 1", s.Exposed, MinExposed)
	case s.Arcs < 1 || s.Arcs > MaxArcs:
		return fmt.Errorf("section: %d arcs: allowed 1 to %d", s.Arcs, MaxArcs)
	}
	return nil
}

// Grid is a set of nodes in r and θ on the sector between the middle of an exposed arc and the middle of the
// next covered one, with the matrices of the scheme. It is read-only once built and may be shared between
// goroutines. A field on it stands at [i*Angles()+a], i the radius and a the angle.
type Grid struct {
	radial *radial.Grid
	shape  Shape

	phi     []float64 // Arcs times the angle of the nodes, 0 to π
	share   []float64 // of the perimeter that a node stands for; adds up to one
	open    []float64 // the exposed part of it
	exposed int       // number of nodes that are exposed, the edge with them
	weight  []float64 // content weights of all nodes: Σ weight c = ∫ c r dr, averaged over the angle [m²]

	gaps []float64 // for each gap a symmetric matrix on the nodes of its two circles: flow = conductance × matrix × G
}

// Round is what a grid has round a circle: the nodes of a shape and their functions, which grids of any radii share. It is read-only once built.
type Round struct {
	shape   Shape
	basis   *basis
	deepest float64 // to which the functions are continued, as a depth of a [circle]
	tail    tail
}

// NewRound places the given number of angles for one shape. How many of them lie in the covered part follows from the shape.
func NewRound(shape Shape, angles int) (*Round, error) {
	if err := shape.check(); err != nil {
		return nil, err
	}
	if angles < MinAngles || angles > MaxAngles {
		return nil, fmt.Errorf("section: %d angles: allowed %d to %d", angles, MinAngles, MaxAngles)
	}
	b := newBasis(shape.Exposed, angles)
	return &Round{shape: shape, basis: b, deepest: b.reach(), tail: newTail()}, nil
}

// NewGrid crosses a radial grid with the given number of angles for one shape, see [NewRound] and [Round.Cross].
func NewGrid(r *radial.Grid, shape Shape, angles int) (*Grid, error) {
	round, err := NewRound(shape, angles)
	if err != nil {
		return nil, err
	}
	return round.Cross(r)
}

// Cross makes the grid on the circles of a radial one. It takes a tenth of a millisecond or less, and grows with the square of the angles.
func (r *Round) Cross(along *radial.Grid) (*Grid, error) {
	if along == nil {
		return nil, fmt.Errorf("section: no radial grid")
	}
	b := r.basis
	g := &Grid{radial: along, shape: r.shape, phi: b.phi, share: b.p[0], open: b.open, exposed: b.edge + 1}
	g.weight = make([]float64, 0, along.Len()*len(g.share))
	for _, w := range along.Weights() {
		for _, s := range g.share {
			g.weight = append(g.weight, w*s)
		}
	}
	g.assemble(r)
	return g, nil
}

// Angles is the number of nodes on each circle.
func (g *Grid) Angles() int { return len(g.phi) }

// Len is the number of all nodes.
func (g *Grid) Len() int { return len(g.weight) }

// Angle is the angle of nodes a from the middle of an exposed arc [rad]; it rises to the middle of the covered arc,
// which no node has.
func (g *Grid) Angle(a int) float64 { return g.phi[a] / float64(g.shape.Arcs) }

// Content is ∫ c r dr averaged over the angle [m² times the unit of c].
func (g *Grid) Content(c []float64) float64 {
	sum := 0.0
	for i, w := range g.weight {
		sum += w * c[i]
	}
	return sum
}

// Mean is the area mean of c over the section.
func (g *Grid) Mean(c []float64) float64 {
	return 2 * g.Content(c) / (g.radial.Radius() * g.radial.Radius())
}

// Round is the mean of c over the circle of radial node i.
func (g *Grid) Round(c []float64, i int) float64 {
	sum, m := 0.0, len(g.share)
	for a, s := range g.share {
		sum += s * c[i*m+a]
	}
	return sum
}

// Skin is the mean of c over the surface, covered parts included.
func (g *Grid) Skin(c []float64) float64 { return g.Round(c, g.radial.Len()-1) }

// basis are functions of the angle φ = Arcs θ on a circle, one for each node, that add up to one: on each arc
// polynomials in its X. They hold the root of the distance from the edge by which the field behind a
// cover rises.
type basis struct {
	phi, open []float64
	edge      int         // the node on the edge
	p         [][]float64 // [m][node]: the mean of the function times cos(m φ)
	root      [2][]float64

	// Over the modes from the first on, for each pair of a node and a function: twice the p of the function times cos(m φ) of the node; and for each pair of functions that rises
	// the product of their p.
	waves, products [][]float64
}

// modes is the number of angular modes that are summed; what lies beyond is known by its leading term.
const modes = 300

// newBasis divides the nodes so that each part has as many as it needs.
func newBasis(exposed float64, angles int) *basis {
	degree := float64(angles - 1)
	covered := 0
	if exposed < 1 {
		ratio := math.Pow((1-exposed)/exposed, 0.45)
		covered = int(math.Floor(degree*ratio/(1+ratio) + 0.5))
		covered = max(1, min(covered, angles-2))
	}
	b := &basis{edge: angles - 1 - covered, phi: make([]float64, angles), open: make([]float64, angles)}
	b.p = slices.Collect(slices.Chunk(make([]float64, (modes+1)*angles), angles))
	b.root = [2][]float64{make([]float64, angles), make([]float64, angles)}
	front := newArc(exposed*math.Pi, b.edge)
	before := func(j int) int { return b.edge - j }
	front.project(b.p, false, before)
	copy(b.open, b.p[0])
	for j := range front.x {
		b.phi[before(j)], b.root[0][before(j)] = front.angle(j), front.root(j)
	}
	if covered > 0 {
		b.cover((1-exposed)*math.Pi, covered)
	}
	for m, p := range b.p {
		addUp(p, b.edge, m == 0)
	}
	b.pair()
	return b
}

// pair fills in waves and products.
func (b *basis) pair() {
	n := len(b.phi)
	b.waves, b.products = make([][]float64, n*n), make([][]float64, n*n)
	all := slices.Collect(slices.Chunk(make([]float64, (n*n+n*(n+1)/2)*modes), modes))
	for a, phi := range b.phi {
		for j := range n {
			b.waves[a*n+j], all = all[0], all[1:]
			if j >= a {
				b.products[a*n+j], all = all[0], all[1:]
			}
		}
		before, now, twice := 1.0, math.Cos(phi), 2*math.Cos(phi)
		for i, p := range b.p[1:] {
			for j, v := range p {
				b.waves[a*n+j][i] = 2 * now * v
			}
			for j := a; j < n; j++ {
				b.products[a*n+j][i] = p[a] * p[j]
			}
			before, now = now, twice*now-before
		}
	}
}

// cover adds the covered arc.
func (b *basis) cover(span float64, degree int) {
	back := newArc(span, degree)
	after := func(j int) int { return b.edge + j }
	back.project(b.p, true, after)
	for j := range back.x {
		b.phi[after(j)], b.root[1][after(j)] = math.Pi-back.angle(j), back.root(j)
	}
}

// addUp corrects what rounding has left of the sum of all functions: one, whose only mode is the mean.
func addUp(p []float64, edge int, mean bool) {
	sum := 0.0
	for _, v := range p {
		sum += v
	}
	if mean {
		sum--
	}
	p[edge] -= sum
}
