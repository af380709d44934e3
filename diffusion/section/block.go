package section

import "math"

// blocks is a block tridiagonal matrix, n rows of blocks of size by size, with one further block, diagonal, in the last row
// at the third column from the end. Blocks lie row by row; no pivots are sought beyond a block.
//
// After factorise, on holds the inverses of the pivots and above the blocks times the inverse to their left, with the sign changed.
type blocks struct {
	size             int
	below, on, above []float64
	far              []float64 // diagonal of the further block
	row              []float64 // working memory: a row of a block, or a part of a vector
}

// factorise replaces the blocks by their factors; false where a pivot is zero or not finite.
func (b *blocks) factorise() bool {
	m, n := b.size, len(b.on)/(b.size*b.size)
	block := m * m
	for i := range n {
		on := b.on[i*block : (i+1)*block]
		if i > 0 {
			add(on, b.below[i*block:(i+1)*block], b.above[(i-1)*block:i*block], m)
		}
		if !invert(on, m) {
			return false
		}
		if i == n-1 {
			return true
		}
		above := b.above[i*block : (i+1)*block]
		b.leftTimes(on, above)
		if i == n-3 { // the further block is carried into the one beside it
			below := b.below[(n-1)*block:]
			for a, f := range b.far {
				for k, v := range above[a*m : (a+1)*m] {
					below[a*m+k] += f * v
				}
			}
		}
	}
	return true
}

// solve replaces the right-hand side by the solution.
func (b *blocks) solve(x []float64) {
	m, n := b.size, len(b.on)/(b.size*b.size)
	block := m * m
	t := b.row[:m]
	for i := range n {
		here := x[i*m : (i+1)*m]
		copy(t, here)
		if i > 0 {
			give(t, b.below[i*block:(i+1)*block], x[(i-1)*m:i*m], -1)
		}
		if i == n-1 {
			for a, f := range b.far {
				t[a] -= f * x[(n-3)*m+a]
			}
		}
		clear(here)
		give(here, b.on[i*block:(i+1)*block], t, 1)
	}
	for i := n - 2; i >= 0; i-- {
		give(x[i*m:(i+1)*m], b.above[i*block:(i+1)*block], x[(i+1)*m:(i+2)*m], 1)
	}
}

// give adds k times the matrix times v to out, two rows at a time, whose sums do not wait for each other.
func give(out, matrix, v []float64, k float64) {
	m := len(v)
	switch {
	case m == CoarseAngles && len(out) == m:
		giveFour((*[4]float64)(out), (*[16]float64)(matrix), (*[4]float64)(v), k)
		return
	case m == 2*CoarseAngles && len(out) == m:
		giveEight((*[8]float64)(out), (*[64]float64)(matrix), (*[8]float64)(v), k)
		return
	}
	a := 0
	for ; a+1 < len(out); a += 2 {
		one, two := matrix[a*m:][:m], matrix[(a+1)*m:][:m]
		first, second := 0.0, 0.0
		for j, w := range v {
			first += one[j] * w
			second += two[j] * w
		}
		out[a] += k * first
		out[a+1] += k * second
	}
	if a < len(out) {
		sum := 0.0
		for j, w := range matrix[a*m:][:m] {
			sum += w * v[j]
		}
		out[a] += k * sum
	}
}

// giveFour is give for four angles, which most marches have.
func giveFour(out *[4]float64, m *[16]float64, v *[4]float64, k float64) {
	a, b, c, d := k*v[0], k*v[1], k*v[2], k*v[3]
	out[0] += (m[0]*a + m[1]*b) + (m[2]*c + m[3]*d)
	out[1] += (m[4]*a + m[5]*b) + (m[6]*c + m[7]*d)
	out[2] += (m[8]*a + m[9]*b) + (m[10]*c + m[11]*d)
	out[3] += (m[12]*a + m[13]*b) + (m[14]*c + m[15]*d)
}

// giveEight is give for the two circles of a gap of four angles.
func giveEight(out *[8]float64, matrix *[64]float64, v *[8]float64, k float64) {
	for a := range out {
		m := (*[8]float64)(matrix[8*a:])
		out[a] += k * ((m[0]*v[0] + m[1]*v[1]) + (m[2]*v[2] + m[3]*v[3]) + (m[4]*v[4] + m[5]*v[5]) + (m[6]*v[6] + m[7]*v[7]))
	}
}

// add adds the product a b to c, two rows of b at a time.
func add(c, a, b []float64, m int) {
	for i := range m {
		row, by := c[i*m:][:m], a[i*m:][:m]
		k := 0
		for ; k+1 < m; k += 2 {
			v, w := by[k], by[k+1]
			one, two := b[k*m:][:m], b[(k+1)*m:][:m]
			for j := range row {
				row[j] += v*one[j] + w*two[j]
			}
		}
		if k < m {
			v := by[k]
			for j, w := range b[k*m:][:m] {
				row[j] += v * w
			}
		}
	}
}

// leftTimes replaces b by minus a b.
func (s *blocks) leftTimes(a, b []float64) {
	work := s.row[:len(b)]
	copy(work, b)
	clear(b)
	add(b, a, work, s.size)
	for i := range b {
		b[i] = -b[i]
	}
}

// invert replaces a block by its inverse, by Gauss and Jordan's elimination along the diagonal.
func invert(a []float64, m int) bool {
	for k := range m {
		row := a[k*m : k*m+m]
		pivot := 1 / row[k]
		if pivot == 0 || !(math.Abs(pivot) < math.Inf(1)) {
			return false
		}
		row[k] = 1
		for j := range row {
			row[j] *= pivot
		}
		for i := range m {
			if i == k {
				continue
			}
			other := a[i*m : i*m+m]
			f := other[k]
			other[k] = 0
			for j := range other {
				other[j] -= f * row[j]
			}
		}
	}
	return true
}
