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
	for b := range 4 {
		i, o := k*inner[b], k*outer[b]
		for a := range 4 {
			at := 4*a + b
			own[at] -= i * q[8*a+b]
			above[at] = 0 - o*q[8*a+b+4]
			below[at] = 0 - i*q[8*a+b+32]
			next[at] -= o * q[8*a+b+36]
		}
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
		for n := range 4 {
			row[n] = (v[0]*m[n] + v[1]*m[4+n]) + (v[2]*m[8+n] + v[3]*m[12+n])
		}
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
		for j := range row {
			row[j] *= pivot
		}
		for i := 1; i < 4; i++ {
			other := (*[4]float64)(a[4*((k+i)&3):])
			f := other[k]
			other[k] = 0
			for j, r := range row {
				other[j] -= f * r
			}
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
	pivot := func(i int) {
		v := times(block(on, i), part(i))
		*part(i) = v
	}
	less := func(i int, m *[16]float64, from int) {
		v, out := times(m, part(from)), part(i)
		for a := range out {
			out[a] -= v[a]
		}
	}
	pivot(0)
	pivot(last)
	for i := 1; i < mid; i++ {
		less(i, block(below, i), i-1)
		pivot(i)
	}
	for j := last - 1; j > mid; j-- {
		less(j, block(above, j), j+1)
		pivot(j)
	}
	less(mid, block(below, mid), mid-1)
	less(mid, block(above, mid), mid+1)
	pivot(mid)
	for i := mid - 1; i >= 0; i-- {
		less(i, block(above, i), i+1)
	}
	for j := mid + 1; j <= last; j++ {
		less(j, block(below, j), j-1)
	}
	less(last, farBack, last-2)
}

// times is a block times a part of a vector.
func times(m *[16]float64, v *[4]float64) (out [4]float64) {
	for a := range out {
		row := (*[4]float64)(m[4*a:])
		out[a] = (row[0]*v[0] + row[1]*v[1]) + (row[2]*v[2] + row[3]*v[3])
	}
	return out
}
