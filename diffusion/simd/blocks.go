package simd

import "math"

// The functions of this file work on blocks of four by four, row by row, and on parts of four of a vector: a circle of four nodes each.

// Flow sets f to what flows to the nodes of each circle over the gaps between them: for gap i between circles i and i+1, k_i times its matrix times the eight values on
// both. The matrix is symmetric to the bit, and is read by its columns. k has one for each gap, q 64, f and g four for each circle.
func Flow(f, k, g, q []float64) {
	gaps := len(k)
	f, g, q = f[:4*gaps+4], g[:4*gaps+4], q[:64*gaps]
	if gaps > 0 && four() {
		flowFour(&f[0], &k[0], &g[0], &q[0], gaps)
		return
	}
	flowOne(f, k, g, q)
}

// flowOne is Flow, one after the other.
func flowOne(f, k, g, q []float64) {
	var outer [4]float64 // what the outer circle of the gap before has got
	for i, ki := range k {
		q, v, out := (*[64]float64)(q[64*i:]), (*[8]float64)(g[4*i:]), (*[4]float64)(f[4*i:])
		v0, v1, v2, v3, v4, v5, v6, v7 := ki*v[0], ki*v[1], ki*v[2], ki*v[3], ki*v[4], ki*v[5], ki*v[6], ki*v[7]
		for a := range 4 {
			m := (*[8]float64)(q[8*a:])
			out[a] = outer[a] + (((m[0]*v0 + m[1]*v1) + (m[2]*v2 + m[3]*v3)) + ((m[4]*v4 + m[5]*v5) + (m[6]*v6 + m[7]*v7)))
			m = (*[8]float64)(q[8*a+32:])
			outer[a] = ((m[0]*v0 + m[1]*v1) + (m[2]*v2 + m[3]*v3)) + ((m[4]*v4 + m[5]*v5) + (m[6]*v6 + m[7]*v7))
		}
	}
	copy(f[4*len(k):], outer[:])
}

// Mass sets the circles of out, but for the first and the last, to f plus the share of each node times lower_i, diag_i and upper_i times v on the circle before,
// on it and on the one after. out, f and v have four for each circle, lower, diag and upper one.
func Mass(out, f, v, lower, diag, upper []float64, share *[4]float64) {
	circles := len(diag)
	out, f, v, lower, upper = out[:4*circles], f[:4*circles], v[:4*circles], lower[:circles], upper[:circles]
	if circles >= 3 && four() {
		massFour(&out[0], &f[0], &v[0], &lower[0], &diag[0], &upper[0], circles, share)
		return
	}
	massOne(out, f, v, lower, diag, upper, share)
}

// massOne is Mass, one after the other.
func massOne(out, f, v, lower, diag, upper []float64, share *[4]float64) {
	for i := 1; i < len(diag)-1; i++ {
		at := 4 * i
		before, here, after := (*[4]float64)(v[at-4:]), (*[4]float64)(v[at:]), (*[4]float64)(v[at+4:])
		for a := range 4 {
			out[at+a] = f[at+a] + share[a]*(lower[i]*before[a]+diag[i]*here[a]+upper[i]*after[a])
		}
	}
}

// Join takes k times the matrix q of a gap, each column times the slope of its node, from own and next, and sets above and below to the parts beside them.
func Join(own, above, below, next *[16]float64, q *[64]float64, k float64, inner, outer *[4]float64) {
	if four() {
		joinFour(own, above, below, next, q, k, inner, outer)
		return
	}
	joinOne(own, above, below, next, q, k, inner, outer)
}

// joinOne is Join, one after the other.
func joinOne(own, above, below, next *[16]float64, q *[64]float64, k float64, inner, outer *[4]float64) {
	i0, i1, i2, i3 := k*inner[0], k*inner[1], k*inner[2], k*inner[3]
	o0, o1, o2, o3 := k*outer[0], k*outer[1], k*outer[2], k*outer[3]
	for a := 0; a < 16; a += 4 {
		near, away := (*[8]float64)(q[2*a:]), (*[8]float64)(q[2*a+32:])
		self, up, down, far := (*[4]float64)(own[a:]), (*[4]float64)(above[a:]), (*[4]float64)(below[a:]), (*[4]float64)(next[a:])
		*self = [4]float64{self[0] - i0*near[0], self[1] - i1*near[1], self[2] - i2*near[2], self[3] - i3*near[3]}
		*up = [4]float64{0 - o0*near[4], 0 - o1*near[5], 0 - o2*near[6], 0 - o3*near[7]}
		*down = [4]float64{0 - i0*away[0], 0 - i1*away[1], 0 - i2*away[2], 0 - i3*away[3]}
		*far = [4]float64{far[0] - o0*away[4], far[1] - o1*away[5], far[2] - o2*away[6], far[3] - o3*away[7]}
	}
}

// Carry replaces back by inverse times back, and takes to times that from on.
func Carry(to, inverse, back, on *[16]float64) {
	if four() {
		carryFour(to, inverse, back, on)
		return
	}
	carryOne(to, inverse, back, on)
}

// carryOne is Carry, one after the other.
func carryOne(to, inverse, back, on *[16]float64) {
	product(back, inverse, back)
	var less [16]float64
	product(&less, to, back)
	for a, v := range less {
		on[a] -= v
	}
}

// product sets out to a times b; out may be b.
func product(out, a, b *[16]float64) {
	m := *b
	for i := 0; i < 16; i += 4 {
		v, row := (*[4]float64)(a[i:]), (*[4]float64)(out[i:])
		v0, v1, v2, v3 := v[0], v[1], v[2], v[3]
		row[0] = (v0*m[0] + v1*m[4]) + (v2*m[8] + v3*m[12])
		row[1] = (v0*m[1] + v1*m[5]) + (v2*m[9] + v3*m[13])
		row[2] = (v0*m[2] + v1*m[6]) + (v2*m[10] + v3*m[14])
		row[3] = (v0*m[3] + v1*m[7]) + (v2*m[11] + v3*m[15])
	}
}

// Invert replaces a block by its inverse, by Gauss and Jordan's elimination along the diagonal; false where a pivot is zero or not finite, and the block then holds
// nothing of use.
func Invert(a *[16]float64) (sound bool) {
	if four() {
		return invertFour(a)
	}
	return invertOne(a)
}

// invertOne is Invert, one after the other.
func invertOne(a *[16]float64) (sound bool) {
	for k := range 4 {
		row := (*[4]float64)(a[4*k:])
		pivot := 1 / row[k]
		if pivot == 0 || !(math.Abs(pivot) < math.Inf(1)) {
			return false
		}
		row[k] = 1
		r0, r1, r2, r3 := row[0]*pivot, row[1]*pivot, row[2]*pivot, row[3]*pivot
		*row = [4]float64{r0, r1, r2, r3}
		for i := 1; i < 4; i++ {
			other := (*[4]float64)(a[4*((k+i)&3):])
			f := other[k]
			other[k] = 0
			other[0] -= f * r0
			other[1] -= f * r1
			other[2] -= f * r2
			other[3] -= f * r3
		}
	}
	return true
}

// Solve replaces the right-hand side by the solution of a system that has been factorised from both ends towards the middle row, last/2: on holds the inverses of the
// pivots, below before the middle and above after it the blocks of the matrix, and above before and below after it those times the inverse of their pivot; farBack
// that of the third column from the end in the last row. Four rows of blocks or more.
func Solve(x, below, on, above []float64, farBack *[16]float64) {
	rows := len(x) / 4
	x, below, on, above = x[:4*rows], below[:16*rows], on[:16*rows], above[:16*rows]
	if rows < 4 {
		panic("simd: fewer than four rows of blocks")
	}
	if four() {
		solveFour(&x[0], &below[0], &on[0], &above[0], farBack, rows)
		return
	}
	solveOne(x, below, on, above, farBack)
}

// solveOne is Solve, one after the other.
func solveOne(x, below, on, above []float64, farBack *[16]float64) {
	last := len(x)/4 - 1
	mid := last / 2
	part := func(i int) *[4]float64 { return (*[4]float64)(x[4*i:]) }
	block := func(diagonal []float64, i int) *[16]float64 { return (*[16]float64)(diagonal[16*i:]) }
	pivot := func(i int) { times(part(i), block(on, i)) }
	less := func(i int, diagonal []float64, from int) { lessTimes(part(i), block(diagonal, i), part(from)) }
	pivot(0)
	pivot(last)
	for i, j := 1, last-1; i < mid || j > mid; i, j = i+1, j-1 { // the two do not wait for each other
		if i < mid {
			less(i, below, i-1)
			pivot(i)
		}
		if j > mid {
			less(j, above, j+1)
			pivot(j)
		}
	}
	less(mid, below, mid-1)
	less(mid, above, mid+1)
	pivot(mid)
	for i, j := mid-1, mid+1; i >= 0 || j <= last; i, j = i-1, j+1 {
		if i >= 0 {
			less(i, above, i+1)
		}
		if j <= last {
			less(j, below, j-1)
		}
	}
	lessTimes(part(last), farBack, part(last-2))
}

// times replaces a part of a vector by a block times it.
func times(x *[4]float64, m *[16]float64) {
	a, b, c, d := x[0], x[1], x[2], x[3]
	x[0] = (m[0]*a + m[1]*b) + (m[2]*c + m[3]*d)
	x[1] = (m[4]*a + m[5]*b) + (m[6]*c + m[7]*d)
	x[2] = (m[8]*a + m[9]*b) + (m[10]*c + m[11]*d)
	x[3] = (m[12]*a + m[13]*b) + (m[14]*c + m[15]*d)
}

// lessTimes takes a block times v from out.
func lessTimes(out *[4]float64, m *[16]float64, v *[4]float64) {
	a, b, c, d := v[0], v[1], v[2], v[3]
	out[0] -= (m[0]*a + m[1]*b) + (m[2]*c + m[3]*d)
	out[1] -= (m[4]*a + m[5]*b) + (m[6]*c + m[7]*d)
	out[2] -= (m[8]*a + m[9]*b) + (m[10]*c + m[11]*d)
	out[3] -= (m[12]*a + m[13]*b) + (m[14]*c + m[15]*d)
}
