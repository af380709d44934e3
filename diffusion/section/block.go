package section

import "math"

// blocks is a block tridiagonal matrix, n rows of blocks of size by size, with one further block, diagonal, in the last row
// at the third column from the end. Blocks lie row by row; no pivots are sought beyond a block.
//
// After factorise, on holds the inverses of the pivots and above the blocks times the inverse to their left.
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
			subtract(on, b.below[i*block:(i+1)*block], b.above[(i-1)*block:i*block], m)
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
					below[a*m+k] -= f * v
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
			take(t, b.below[i*block:(i+1)*block], x[(i-1)*m:i*m])
		}
		if i == n-1 {
			for a, f := range b.far {
				t[a] -= f * x[(n-3)*m+a]
			}
		}
		clear(here)
		give(here, b.on[i*block:(i+1)*block], t)
	}
	for i := n - 2; i >= 0; i-- {
		take(x[i*m:(i+1)*m], b.above[i*block:(i+1)*block], x[(i+1)*m:(i+2)*m])
	}
}

// give adds the matrix times v to out.
func give(out, matrix, v []float64) {
	m := len(v)
	for a := range out {
		row := matrix[a*m : a*m+m]
		sum := 0.0
		for k, w := range v {
			sum += row[k] * w
		}
		out[a] += sum
	}
}

// take subtracts it.
func take(out, matrix, v []float64) {
	m := len(v)
	for a := range out {
		row := matrix[a*m : a*m+m]
		sum := 0.0
		for k, w := range v {
			sum += row[k] * w
		}
		out[a] -= sum
	}
}

// subtract takes the product a b from c.
func subtract(c, a, b []float64, m int) {
	for i := range m {
		row := c[i*m : i*m+m]
		for k, v := range a[i*m : i*m+m] {
			other := b[k*m : k*m+m]
			for j := range row {
				row[j] -= v * other[j]
			}
		}
	}
}

// leftTimes replaces b by a b.
func (s *blocks) leftTimes(a, b []float64) {
	m := s.size
	work := s.row[:m*m]
	copy(work, b)
	for i := range m {
		row := b[i*m : i*m+m]
		clear(row)
		for k, v := range a[i*m : i*m+m] {
			other := work[k*m : k*m+m]
			for j := range row {
				row[j] += v * other[j]
			}
		}
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
