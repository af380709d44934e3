package section

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/integrate/quad"
)

// circle is the basis on one circle. Below the surface it is what the basis at the surface becomes as a
// steady field, each mode less by exp(-m depth), and made one again at its own node and zero at the others. So a
// steady field whose surface the basis holds is held inside too, and the singularity at the edge
// does not have to be resolved along the radius.
type circle struct {
	depth float64   // Arcs times ln(R/r), up to a limit
	back  []float64 // a matrix: the functions at the surface, continued to here, times it are those of the circle
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

// powers fills out with the powers of exp(-depth), from the first on.
func powers(out []float64, depth float64) {
	each := math.Exp(-depth)
	now := each
	for i := range out {
		out[i] = now
		now *= each
	}
}

// inward gives the matrix that makes the amplitudes of the functions at the surface from values at the
// nodes of a circle at the given depth, row by row, and its norm: the largest sum of magnitudes in a row.
func (b *basis) inward(depth float64) (back []float64, norm float64) {
	n, decays := len(b.phi), make([]float64, damped(depth))
	powers(decays, depth)
	back = make([]float64, n*n)
	for a, phi := range b.phi {
		row := back[a*n : (a+1)*n]
		for j := range row {
			row[j] = b.p[0][j] + floats.Dot(decays, b.waves[a*n+j][:len(decays)])
		}
		if len(decays) == modes {
			b.addBeyond(row, depth, b.phi[b.edge]-phi)
		}
	}
	if !invert(back, n) {
		return back, math.Inf(1)
	}
	for a := range n {
		size := 0.0
		for _, v := range back[a*n : (a+1)*n] {
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
	n := len(b.phi)
	c := &circle{depth: depth, root: b.root}
	if depth == 0 {
		c.back = make([]float64, n*n)
		for a := range n {
			c.back[a*n+a] = 1
		}
		return c
	}
	c.back, _ = b.inward(depth)
	for side, root := range b.root {
		c.root[side] = make([]float64, n)
		for j, v := range root {
			for k, w := range c.back[j*n : (j+1)*n] {
				c.root[side][k] += v * w
			}
		}
	}
	return c
}

// assemble fills the matrices of the gaps.
func (g *Grid) assemble(r *Round) {
	b := r.basis
	n, angles, arcs := g.radial.Len(), len(b.phi), float64(g.shape.Arcs)
	depth := func(i int) float64 { return min(arcs*math.Log(g.radial.Radius()/g.radial.Node(i)), r.deepest) }
	size := 2 * angles
	g.gaps = make([]float64, (n-1)*size*size)
	gap := gap{basis: b, angles: angles, inner: b.at(depth(0)), tail: &r.tail}
	for i := range n - 1 {
		gap.outer = gap.inner
		if d := depth(i + 1); d < gap.inner.depth {
			gap.outer = b.at(d)
		}
		gap.q = g.gaps[i*size*size : (i+1)*size*size]
		gap.fill(math.Log(g.radial.Node(i+1)/g.radial.Node(i)), arcs, i == 0)
		gap.inner = gap.outer
	}
}

// gap joins two circles. Mode m of the steady field between them goes with r^(±Arcs m), and its flows are linear
// in its values on both circles.
type gap struct {
	q            []float64
	basis        *basis
	angles       int
	inner, outer *circle
	tail         *tail
	modal        modal
}

// modal is memory for what the modes bring: a weight for each mode, a number for each pair of functions of the surface.
type modal struct {
	inner, outer, across [modes]float64
	decays               [2][modes]float64
	sums                 [3][MaxAngles * MaxAngles]float64
	half                 [MaxAngles * MaxAngles]float64
}

// fill sets the matrix for circles that are width apart in ln r; innermost adds the disc inside.
func (g *gap) fill(width, arcs float64, innermost bool) {
	g.weigh(width, arcs, innermost)
	n := g.angles
	self, across := &g.modal.sums, g.modal.sums[2][:n*n]
	g.add(g.inner.back, self[0][:n*n], g.inner.back, 0, 0, -1)
	g.add(g.outer.back, self[1][:n*n], g.outer.back, n, n, -1)
	g.add(g.inner.back, across, g.outer.back, 0, n, 1)
	if g.outer.depth*modes <= vanishing {
		inner, outer, across := g.beyond(width, arcs, innermost)
		for side := range 2 {
			in, out := g.inner.root[side], g.outer.root[side]
			g.product(in, in, 0, 0, -inner)
			g.product(out, out, n, n, -outer)
			g.product(in, out, 0, n, across)
		}
	}
	mean := g.basis.p[0] // as the nodes have it
	g.product(mean, mean, 0, 0, -1/width)
	g.product(mean, mean, n, n, -1/width)
	g.product(mean, mean, 0, n, 1/width)
	g.close()
}

// weigh sums the products of the functions at the surface over the modes, each with what it draws from either circle and what it brings from one to the other.
func (g *gap) weigh(width, arcs float64, innermost bool) {
	l := &g.modal
	inner, outer := damped(g.inner.depth), damped(g.outer.depth)
	powers(l.decays[0][:inner], g.inner.depth)
	powers(l.decays[1][:outer], g.outer.depth)
	crossing := math.Exp(-arcs * width)
	q := 1.0
	for i := range outer { // the shallower, of more modes
		m := float64(i + 1)
		q *= crossing
		self, across := between(m*arcs, q)
		l.outer[i] = self * l.decays[1][i] * l.decays[1][i]
		if i >= inner {
			continue
		}
		l.across[i] = across * l.decays[0][i] * l.decays[1][i]
		if innermost {
			self += 2 * arcs * m
		}
		l.inner[i] = self * l.decays[0][i] * l.decays[0][i]
	}
	n := g.angles
	for a := range n {
		for b := a; b < n; b++ {
			p := g.basis.products[a*n+b]
			for k, w := range [...][]float64{l.inner[:inner], l.outer[:outer], l.across[:inner]} {
				sum := floats.Dot(w, p[:len(w)])
				l.sums[k][a*n+b], l.sums[k][b*n+a] = sum, sum
			}
		}
	}
}

// between gives what a unit of a mode on one circle draws from it and brings to the other, by its number times Arcs and exp(-that times the width).
func between(m, q float64) (self, across float64) {
	per := 2 * m / (1 - q*q)
	return per * (1 + q*q), per * 2 * q
}

// tail is a quadrature over the modes that are left out.
type tail struct{ m, weight [16]float64 }

func newTail() tail {
	const first = modes + 0.5
	var t tail
	var x, w [len(t.m)]float64
	quad.Legendre{}.FixedLocations(x[:], w[:], 0, 1)
	for i, u := range x {
		m := first / u
		t.m[i], t.weight[i] = m, w[i]*m/u/(8*math.Pi*m*m*m)
	}
	return t
}

// beyond sums over the modes that are left out, in which the functions go with their roots: the mean over the
// phases of a product of two is m^-3/(8π) for each side of the edge.
func (g *gap) beyond(width, arcs float64, innermost bool) (inner, outer, across float64) {
	for i, m := range g.tail.m {
		weight := g.tail.weight[i]
		self, other := between(m*arcs, math.Exp(-m*arcs*width))
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

// add gives to the matrix, from a row and a column on, so many times one circle's functions times sums over the modes times another's.
func (g *gap) add(one, sums, other []float64, row, column int, times float64) {
	n, size, half := g.angles, 2*g.angles, &g.modal.half
	clear(half[:n*n])
	for a := range n {
		out := half[a*n : (a+1)*n]
		for b, v := range sums[a*n : (a+1)*n] {
			for k, w := range other[b*n : (b+1)*n] {
				out[k] += v * w
			}
		}
	}
	for b := range n {
		in := half[b*n : (b+1)*n]
		for a, v := range one[b*n : (b+1)*n] {
			v *= times
			out := g.q[(row+a)*size+column : (row+a)*size+column+n]
			for k, w := range in {
				out[k] += v * w
			}
		}
	}
}

// product gives to the matrix, from a row and a column on, so many times the products of two rows.
func (g *gap) product(one, other []float64, row, column int, times float64) {
	size := 2 * g.angles
	for a, v := range one {
		v *= times
		out := g.q[(row+a)*size+column:]
		for b, w := range other {
			out[b] += v * w
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
