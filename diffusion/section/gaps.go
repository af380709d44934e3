package section

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
)

// circle is the basis on one circle. Below the surface it is what the basis at the surface becomes as a
// steady field, each mode less by exp(-m depth), and made one again at its own node and zero at the others. So a
// steady field whose surface the basis holds is held inside too, and the singularity at the edge
// does not have to be resolved along the radius.
type circle struct {
	depth float64     // Arcs times ln(R/r), up to a limit
	p     [][]float64 // as in basis
	root  [2][]float64
}

// limits of the continuation.
const (
	amplified = 30   // the most that the continuation may amplify: beyond, it is not continued further
	shallow   = 1e-4 // a reach below this is none
	vanishing = 12   // exponent at which a mode is dropped
)

// damped is the number of modes that count at a depth.
func damped(depth float64) int {
	if depth*modes <= vanishing {
		return modes
	}
	return int(vanishing/depth) + 1
}

// inward gives the matrix that makes the amplitudes of the functions at the surface from values at the
// nodes of a circle at the given depth, and its norm: the largest sum of magnitudes in a row.
func (b *basis) inward(depth float64) (back *mat.Dense, norm float64) {
	n, count := len(b.phi), damped(depth)
	values := mat.NewDense(n, n, nil)
	for a, phi := range b.phi {
		row := values.RawRowView(a)
		copy(row, b.p[0])
		before, now, twice := 1.0, math.Cos(phi), 2*math.Cos(phi)
		decay := math.Exp(-depth)
		scale := 2 * decay
		for m := 1; m <= count; m++ {
			for j, p := range b.p[m] {
				row[j] += scale * now * p
			}
			before, now = now, twice*now-before
			scale *= decay
		}
		if count == modes {
			b.addBeyond(row, depth, b.phi[b.edge]-phi)
		}
	}
	back = mat.NewDense(n, n, nil)
	if back.Inverse(values) != nil {
		return back, math.Inf(1)
	}
	for a := range n {
		size := 0.0
		for _, v := range back.RawRowView(a) {
			size += math.Abs(v)
		}
		norm = max(norm, size)
	}
	return back, norm
}

// addBeyond adds to the values of the functions, at a depth and at an angle before the edge, what the modes beyond those that
// are summed bring: a function that goes with its roots r and s of the distance before and after the edge at φ has there the mean
// Re((s exp(3πi/4) + r exp(-3πi/4)) exp(i m φ))/(2 sqrt(π) m^1.5).
func (b *basis) addBeyond(values []float64, depth, before float64) {
	const first = modes + 0.5
	sum := beyondOne(complex(depth, -before)*first) / complex(2*math.Sqrt(math.Pi*first), 0)
	turn := cmplx.Exp(complex(0, 3*math.Pi/4))
	for j := range values {
		z := complex(b.root[1][j], 0)*turn + complex(b.root[0][j], 0)*cmplx.Conj(turn)
		values[j] += real(z * sum)
	}
}

// beyondOne is ∫ x^-1.5 exp(-z x) dx over x > 1, the exponential integral of order 3/2, for Re z >= 0: by its series, and further
// out by its continued fraction (DLMF 8.19.8 and 8.19.17; numbers from memory).
func beyondOne(z complex128) complex128 {
	const order = 1.5
	if cmplx.Abs(z) < 4 {
		sum := complex(-2*math.Sqrt(math.Pi), 0) * cmplx.Sqrt(z)
		term := complex(1, 0)
		for k := range 40 {
			sum -= term / complex(float64(k)+1-order, 0)
			term *= -z / complex(float64(k+1), 0)
		}
		return sum
	}
	tail := z
	for k := 40; k >= 1; k-- {
		f := float64(k)
		tail = z + complex(f-1+order, 0)/(1+complex(f, 0)/tail)
	}
	return cmplx.Exp(-z) / tail
}

// reach is the depth to which the basis can be continued.
func (b *basis) reach() float64 {
	if _, norm := b.inward(shallow); !(norm < amplified) {
		return 0
	}
	low, high := shallow, 1.0
	for range 12 {
		middle := math.Sqrt(low * high)
		if _, norm := b.inward(middle); norm < amplified {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// at is the basis on the circle at a depth.
func (b *basis) at(depth float64) *circle {
	if depth == 0 {
		return &circle{p: b.p, root: b.root}
	}
	n := len(b.phi)
	back, _ := b.inward(depth)
	c := &circle{depth: depth, p: make([][]float64, damped(depth)+1)}
	through := func(row []float64, scale float64) []float64 {
		out := make([]float64, n)
		for j, v := range row {
			for k, w := range back.RawRowView(j) {
				out[k] += scale * v * w
			}
		}
		return out
	}
	c.p[0] = b.p[0] // the mean as the nodes have it
	for m := 1; m < len(c.p); m++ {
		c.p[m] = through(b.p[m], math.Exp(-depth*float64(m)))
		addUp(c.p[m], b.edge, false)
	}
	c.root = [2][]float64{through(b.root[0], 1), through(b.root[1], 1)}
	return c
}

// assemble fills the matrices of the gaps.
func (g *Grid) assemble(b *basis) {
	n, angles, arcs := g.radial.Len(), len(b.phi), float64(g.shape.Arcs)
	deepest := b.reach()
	depth := func(i int) float64 { return min(arcs*math.Log(g.radial.Radius()/g.radial.Node(i)), deepest) }
	size := 2 * angles
	g.gaps = make([]float64, (n-1)*size*size)
	inner := b.at(depth(0))
	for i := range n - 1 {
		outer := inner
		if d := depth(i + 1); d < inner.depth {
			outer = b.at(d)
		}
		gap := gap{q: g.gaps[i*size*size : (i+1)*size*size], angles: angles, inner: inner, outer: outer}
		gap.fill(math.Log(g.radial.Node(i+1)/g.radial.Node(i)), arcs, i == 0)
		inner = outer
	}
}

// gap joins two circles. Mode m of the steady field between them goes with r^(±Arcs m), and its flows are linear
// in its values on both circles.
type gap struct {
	q            []float64
	angles       int
	inner, outer *circle
}

// fill sets the matrix for circles that are width apart in ln r; innermost adds the disc inside.
func (g *gap) fill(width, arcs float64, innermost bool) {
	for m := 1; m < max(len(g.inner.p), len(g.outer.p)); m++ {
		self, across := between(float64(m), width, arcs)
		disc := 0.0
		if innermost {
			disc = 2 * arcs * float64(m)
		}
		g.add(row(g.inner.p, m), row(g.outer.p, m), self+disc, self, across)
	}
	for side := range 2 {
		inner, outer, across := g.beyond(width, arcs, innermost)
		g.add(g.inner.root[side], nil, inner, 0, 0)
		g.add(nil, g.outer.root[side], 0, outer, 0)
		if across > 0 {
			g.add(g.inner.root[side], g.outer.root[side], 0, 0, across)
		}
	}
	g.add(g.inner.p[0], g.outer.p[0], 1/width, 1/width, 1/width)
	g.close()
}

func row(p [][]float64, m int) []float64 {
	if m < len(p) {
		return p[m]
	}
	return nil
}

// between gives what a unit of mode m on one circle draws from it and brings to the other.
func between(m, width, arcs float64) (self, across float64) {
	q := math.Exp(-m * arcs * width)
	per := 2 * arcs * m / (1 - q*q)
	return per * (1 + q*q), per * 2 * q
}

// beyond sums over the modes that are left out, in which the functions go with their roots: the mean over the
// phases of a product of two is m^-3/(8π) for each side of the edge.
func (g *gap) beyond(width, arcs float64, innermost bool) (inner, outer, across float64) {
	x, w := make([]float64, 16), make([]float64, 16)
	quad.Legendre{}.FixedLocations(x, w, 0, 1)
	const first = modes + 0.5
	for i, u := range x {
		m := first / u
		weight := w[i] * m / u / (8 * math.Pi * m * m * m)
		self, other := between(m, width, arcs)
		disc := 0.0
		if innermost {
			disc = 2 * arcs * m
		}
		inner += weight * (self + disc) * math.Exp(-2*m*g.inner.depth)
		outer += weight * self * math.Exp(-2*m*g.outer.depth)
		across += weight * other * math.Exp(-m*(g.inner.depth+g.outer.depth))
	}
	return inner, outer, across
}

// add takes from the matrix, above its diagonal, self times the products of functions on one circle and gives it across times
// those between the two.
func (g *gap) add(inner, outer []float64, selfInner, selfOuter, across float64) {
	n, size := g.angles, 2*g.angles
	for a, v := range inner {
		own, other := g.q[a*size+a:a*size+n], g.q[a*size+n:(a+1)*size]
		draws, brings := selfInner*v, across*v
		for b, w := range inner[a:] {
			own[b] -= draws * w
		}
		for b, w := range outer {
			other[b] += brings * w
		}
	}
	for a, v := range outer {
		own := g.q[(n+a)*size+n+a : (n+a+1)*size]
		draws := selfOuter * v
		for b, w := range outer[a:] {
			own[b] -= draws * w
		}
	}
}

// close makes the matrix symmetric, and sets its diagonal so that a uniform field draws nothing: then nothing is lost on
// the way either.
func (g *gap) close() {
	size := 2 * g.angles
	for a := range size {
		row := g.q[a*size : (a+1)*size]
		for b := range a {
			row[b] = g.q[b*size+a]
		}
		row[a] = 0
		sum := 0.0
		for _, v := range row {
			sum += v
		}
		row[a] = -sum
	}
}
