package radial

import "math"

// tridiagonal is a matrix with rows (below, on, above) and one further entry,
// far, in its last row at the third column from the end; factorised from both ends
// towards the middle. The two chains of divisions do not wait for each other,
// which is what a short system spends its time on.
//
// After factorise, rows before the middle hold their multiplier in below and those
// after it in above; the other off-diagonal is scaled by the inverse pivot.
type tridiagonal struct {
	below, on, above []float64
	far              float64
}

// factorise replaces the rows by their factors.
func (t *tridiagonal) factorise() {
	n := len(t.on)
	below, on, above := t.below[:n], t.on[:n], t.above[:n]
	last := n - 1
	mid := last / 2

	// The far entry is carried into the row above it, as that row's below.
	on[last] = 1 / on[last]
	r := above[last-1] * on[last]
	on[last-1] -= r * below[last]
	below[last-1] -= r * t.far
	above[last-1] = r
	below[last] *= on[last]
	t.far *= on[last]

	on[0] = 1 / on[0]
	for i, j := 1, last-2; i < mid || j > mid; i, j = i+1, j-1 {
		if i < mid {
			r := below[i] * on[i-1]
			on[i] = 1 / (on[i] - r*above[i-1])
			above[i-1] *= on[i-1]
			below[i] = r
		}
		if j > mid {
			on[j+1] = 1 / on[j+1]
			r := above[j] * on[j+1]
			on[j] -= r * below[j+1]
			below[j+1] *= on[j+1]
			above[j] = r
		}
	}
	lower := below[mid] * on[mid-1]
	on[mid] -= lower * above[mid-1]
	above[mid-1] *= on[mid-1]
	below[mid] = lower
	on[mid+1] = 1 / on[mid+1]
	upper := above[mid] * on[mid+1]
	on[mid] = 1 / (on[mid] - upper*below[mid+1])
	below[mid+1] *= on[mid+1]
	above[mid] = upper
}

// sound tells whether every pivot was finite and not zero.
func (t *tridiagonal) sound() bool {
	for _, inverse := range t.on {
		if inverse == 0 || !(math.Abs(inverse) < math.Inf(1)) {
			return false
		}
	}
	return true
}

// solve replaces the right-hand side by the solution.
func (t *tridiagonal) solve(x []float64) {
	n := len(x)
	below, on, above := t.below[:n], t.on[:n], t.above[:n]
	last := n - 1
	mid := last / 2

	// Towards the middle: the two running values are those of rows i and j.
	up, down := x[0], x[last]
	i, j := 1, last-1
	for ; i < mid; i, j = i+1, j-1 {
		up = x[i] - below[i]*up
		down = x[j] - above[j]*down
		x[i], x[j] = up, down
	}
	for ; j > mid; j-- {
		down = x[j] - above[j]*down
		x[j] = down
	}
	middle := (x[mid] - below[mid]*up - above[mid]*down) * on[mid]
	x[mid] = middle

	// And back out.
	up, down = middle, middle
	i, j = mid-1, mid+1
	for ; i >= 0; i, j = i-1, j+1 {
		up = x[i]*on[i] - above[i]*up
		down = x[j]*on[j] - below[j]*down
		x[i], x[j] = up, down
	}
	for ; j <= last; j++ {
		down = x[j]*on[j] - below[j]*down
		x[j] = down
	}
	x[last] -= t.far * x[last-2]
}
