package section

import (
	"math"

	"strandry/diffusion/simd"
)

// blocks is a block tridiagonal matrix, rows of blocks (below, on, above) of size by size, with one further block, diagonal, in the last row
// at the third column from the end; factorised from both ends towards the middle, so that the two chains of products do not wait for each other. Blocks lie
// row by row; no pivots are sought beyond a block.
//
// After factorise, on holds the inverses of the pivots. In the blocks that come back from the middle, above before it and below after it, stands the inverse of the
// pivot times the block.
type blocks struct {
	size             int
	below, on, above []float64
	far              []float64 // diagonal of the further block
	farBack          []float64 // the inverse of the last pivot times it
	row              []float64 // working memory: a block, or a part of a vector
}

// rows is the number of rows of blocks.
func (b *blocks) rows() int { return len(b.on) / (b.size * b.size) }

// at is block i of a diagonal.
func (b *blocks) at(diagonal []float64, i int) []float64 {
	block := b.size * b.size
	return diagonal[i*block : (i+1)*block]
}

// factorise replaces the blocks by their factors; false where a pivot is zero or not finite.
func (b *blocks) factorise() bool {
	m, last := b.size, b.rows()-1
	mid := last / 2
	if !invert(b.at(b.on, 0), m) || !b.last(last) {
		return false
	}
	for i, j := 1, last-1; i <= mid || j > mid; i, j = i+1, j-1 {
		if i < mid && !b.eliminate(i, b.below, b.above, i-1) {
			return false
		}
		if j > mid && !b.eliminate(j, b.above, b.below, j+1) {
			return false
		}
	}
	b.carry(mid, b.below, b.above, mid-1)
	b.carry(mid, b.above, b.below, mid+1)
	return invert(b.at(b.on, mid), m)
}

// last inverts the last pivot. The further block of its row goes into the row above it.
func (b *blocks) last(last int) bool {
	m, on := b.size, b.at(b.on, last)
	if !invert(on, m) {
		return false
	}
	for a, v := range on {
		b.farBack[a] = v * b.far[a%m]
	}
	product(b.row, b.at(b.above, last-1), b.farBack, m)
	for a, v := range b.row {
		b.below[(last-1)*m*m+a] -= v
	}
	return true
}

// eliminate takes row from, done before, out of row i, and inverts the pivot that is left. towards holds the blocks of row i that lie towards from, and away
// those on the other side.
func (b *blocks) eliminate(i int, towards, away []float64, from int) bool {
	b.carry(i, towards, away, from)
	return invert(b.at(b.on, i), b.size)
}

// carry is eliminate without the inversion.
func (b *blocks) carry(i int, towards, away []float64, from int) {
	m := b.size
	to, inverse, back := b.at(towards, i), b.at(b.on, from), b.at(away, from)
	if m == CoarseAngles {
		simd.Carry((*[16]float64)(to), (*[16]float64)(inverse), (*[16]float64)(back), (*[16]float64)(b.at(b.on, i)))
		return
	}
	product(b.row, inverse, back, m)
	copy(back, b.row)
	subtract(b.at(b.on, i), to, back, m)
}

// solve replaces the right-hand side by the solution.
func (b *blocks) solve(x []float64) {
	m, last := b.size, b.rows()-1
	if m == CoarseAngles && last >= 3 {
		simd.Solve(x, b.below, b.on, b.above, (*[16]float64)(b.farBack))
		return
	}
	mid := last / 2
	part := func(i int) []float64 { return x[i*m : (i+1)*m] }
	b.pivot(x, 0)
	b.pivot(x, last)
	for i, j := 1, last-1; i < mid || j > mid; i, j = i+1, j-1 {
		if i < mid {
			give(part(i), b.at(b.below, i), part(i-1), -1)
			b.pivot(x, i)
		}
		if j > mid {
			give(part(j), b.at(b.above, j), part(j+1), -1)
			b.pivot(x, j)
		}
	}
	give(part(mid), b.at(b.below, mid), part(mid-1), -1)
	give(part(mid), b.at(b.above, mid), part(mid+1), -1)
	b.pivot(x, mid)
	for i, j := mid-1, mid+1; i >= 0 || j <= last; i, j = i-1, j+1 {
		if i >= 0 {
			give(part(i), b.at(b.above, i), part(i+1), -1)
		}
		if j <= last {
			give(part(j), b.at(b.below, j), part(j-1), -1)
		}
	}
	give(part(last), b.farBack, part(last-2), -1)
}

// pivot multiplies part i of a vector by the inverse of its pivot.
func (b *blocks) pivot(x []float64, i int) {
	m := b.size
	here, on := x[i*m:(i+1)*m], b.at(b.on, i)
	t := b.row[:m]
	copy(t, here)
	clear(here)
	give(here, on, t, 1)
}

// give adds k times the matrix times v to out, three rows at a time, whose sums do not wait for each other.
func give(out, matrix, v []float64, k float64) {
	m := len(v)
	a := 0
	for ; a+2 < len(out); a += 3 {
		one, two, three := matrix[a*m:][:m], matrix[(a+1)*m:][:m], matrix[(a+2)*m:][:m]
		first, second, third := 0.0, 0.0, 0.0
		for j, w := range v {
			first += one[j] * w
			second += two[j] * w
			third += three[j] * w
		}
		out[a] += k * first
		out[a+1] += k * second
		out[a+2] += k * third
	}
	for ; a < len(out); a++ {
		sum := 0.0
		for j, w := range matrix[a*m:][:m] {
			sum += w * v[j]
		}
		out[a] += k * sum
	}
}

// product sets c to the product a b.
func product(c, a, b []float64, m int) {
	clear(c)
	add(c, a, b, m, 1)
}

// subtract takes the product a b from c.
func subtract(c, a, b []float64, m int) {
	add(c, a, b, m, -1)
}

// add adds k times the product a b to c, two rows of b at a time.
func add(c, a, b []float64, m int, k float64) {
	for i := range m {
		row, by := c[i*m:][:m], a[i*m:][:m]
		j := 0
		for ; j+1 < m; j += 2 {
			v, w := k*by[j], k*by[j+1]
			one, two := b[j*m:][:m], b[(j+1)*m:][:m]
			for n := range row {
				row[n] += v*one[n] + w*two[n]
			}
		}
		if j < m {
			v := k * by[j]
			for n, w := range b[j*m:][:m] {
				row[n] += v * w
			}
		}
	}
}

// invert replaces a block by its inverse, by Gauss and Jordan's elimination along the diagonal; false where a pivot is zero or not finite.
func invert(a []float64, m int) bool {
	if m == CoarseAngles {
		return simd.Invert((*[16]float64)(a))
	}
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
