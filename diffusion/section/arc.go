package section

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
)

// arc is one part of the half sector, the exposed or the covered one, with y the angle from its middle and span
// the angle from there to the edge. Its coordinate is
//
//	X = sqrt((cos y - cos span)/(1 - cos span)),
//
// one in the middle, even about it, and zero at the edge, where it goes with the root of the distance.
type arc struct {
	span  float64
	x     []float64   // X of its nodes, from zero at the edge
	terms [][]float64 // the node functions as polynomials: Σ terms[j][k] X^k
	whole []float64   // ∫ X^k dy over the arc
}

// newArc places nodes so that ∫ f dy is exact for polynomials f(X) up to twice the degree:
// Gauss and Radau's, with the edge as a node.
func newArc(span float64, degree int) *arc {
	a := &arc{span: span, x: make([]float64, degree+1), whole: make([]float64, degree+3)}
	x, dy := a.points()
	for i, v := range x {
		w := dy[i]
		for k := range a.whole {
			a.whole[k] += w
			w *= v
		}
		dy[i] *= v // the free nodes are those of Gauss for X dy
	}
	gauss(x, dy, a.x[1:])
	for j := range a.x {
		a.terms = append(a.terms, lagrange(a.x, j))
	}
	return a
}

// points are places X and weights dy of a quadrature over the arc. They are even in the root of the distance from
// the edge, in panels that halve towards it: an arc that closes nearly round has its mirror image close
// behind the edge.
func (a *arc) points() (x, dy []float64) {
	const panels, each = 14, 12
	at, weight := make([]float64, each), make([]float64, each)
	quad.Legendre{}.FixedLocations(at, weight, 0, 1)
	x, dy = make([]float64, 0, panels*each), make([]float64, 0, panels*each)
	half := math.Sin(a.span / 2)
	for p := range panels {
		high := math.Ldexp(1, -p)
		low := high / 2
		if p == panels-1 {
			low = 0
		}
		for i, u := range at {
			v := low + (high-low)*u
			d := a.span * v * v
			x = append(x, math.Sqrt(math.Sin(a.span-d/2)*math.Sin(d/2))/half)
			dy = append(dy, (high-low)*weight[i]*2*a.span*v)
		}
	}
	return x, dy
}

// gauss finds the nodes of the quadrature of Gauss for a weight that is given at points x: the eigenvalues of
// the matrix of the recurrence of its polynomials (Golub & Welsch, Mathematics of Computation 23 (1969) 221).
func gauss(x, weight, nodes []float64) {
	n := len(nodes)
	if n == 0 {
		return
	}
	jacobi := mat.NewSymDense(n, nil)
	before, now := make([]float64, len(x)), make([]float64, len(x))
	for i := range now {
		now[i] = 1
	}
	last := 0.0
	for k := range n {
		norm, first := 0.0, 0.0
		for i, p := range now {
			norm += weight[i] * p * p
			first += weight[i] * p * p * x[i]
		}
		centre, ratio := first/norm, 0.0
		if k > 0 {
			ratio = norm / last
			jacobi.SetSym(k-1, k, math.Sqrt(ratio))
		}
		jacobi.SetSym(k, k, centre)
		for i, p := range now {
			before[i], now[i] = p, (x[i]-centre)*p-ratio*before[i]
		}
		last = norm
	}
	var eigen mat.EigenSym
	eigen.Factorize(jacobi, false)
	eigen.Values(nodes)
}

// lagrange gives the coefficients of the polynomial that is one at node j and zero at the others.
func lagrange(x []float64, j int) []float64 {
	p := make([]float64, len(x))
	p[0] = 1
	for i, v := range x {
		if i == j {
			continue
		}
		scale := 1 / (x[j] - v)
		for k := len(p) - 1; k > 0; k-- {
			p[k] = (p[k-1] - v*p[k]) * scale
		}
		p[0] *= -v * scale
	}
	return p
}

// angle is that of node j from the middle of the arc.
func (a *arc) angle(j int) float64 {
	return 2 * math.Asin(math.Sin(a.span/2)*math.Sqrt(1-a.x[j]*a.x[j]))
}

// root is the factor of the root of the distance from the edge in node function j.
func (a *arc) root(j int) float64 {
	if len(a.x) == 1 || a.span > math.Pi*(1-1e-9) {
		return 0
	}
	return a.terms[j][1] / math.Sqrt(math.Tan(a.span/2))
}

// project adds ∫ psi_j cos(m y) dy / π for each node function j to out[m][place(j)]. opposite counts m y from the
// opposite end, π - y.
//
// The integrals of X^k follow from m to m: with p = k/2 the derivative of (cos y - cos span)^(p+1) sin(m y) vanishes
// at both ends, so that (m+p+1) I[m+1] + (m-p-1) I[m-1] = 2 m cos(span) I[m].
func (a *arc) project(out [][]float64, opposite bool, place func(j int) int) {
	c := math.Cos(a.span)
	rise := 2 * math.Pow(math.Sin(a.span/2), 2) // 1 - cos span
	for k := range a.x {
		p := float64(k) / 2
		before, now := a.whole[k], rise*a.whole[k+2]+c*a.whole[k]
		for m := range out {
			value := before / math.Pi
			if opposite && m%2 == 1 {
				value = -value
			}
			for j, t := range a.terms {
				out[m][place(j)] += value * t[k]
			}
			f := float64(m + 1)
			before, now = now, (2*f*c*now-(f-p-1)*before)/(f+p+1)
		}
	}
}
