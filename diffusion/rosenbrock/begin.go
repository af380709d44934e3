package rosenbrock

import "math"

// Beginning is what tells how long the first step of a march may be.
type Beginning struct {
	// Changes is how fast the surroundings change, relative to themselves [1/s].
	Changes float64
	// Front is what a sudden change of the surroundings has changed in the field when it has crossed the outermost gap of the grid,
	// as a root mean square relative to the size of the field, 0 to 1.
	Front float64
	// Crossing is the time in which diffusion crosses the outermost gap [s], and Answer that in which the outermost node answers to its
	// surroundings and its neighbour [s].
	Crossing, Answer float64
}

// The first steps that were just exact enough were sought at the entry into 129 zones, those of the forty random transits of
// testdata/bench and of the demonstrations of package scenarios, at tolerances of 1e-3 to 2e-2. All grow with the fourth root of the tolerance;
// over that root,
const (
	// beginChange is the change of the surroundings in such a step: 0.6 to 6;
	beginChange = 1
	// beginAnswer is such a step over the answer of the outermost node where a front makes for the error: 2 and more;
	beginAnswer = 3
	// beginFront is the front, over the tolerance, above which it does: while it crosses the gap the grid cannot hold it, and the error is of the order
	// of a tenth of it however short the step, until the step follows the outermost node.
	beginFront = 16
)

// Step is the length of the first step [s] of a march of the given duration [s]: one that is hardly ever rejected and seldom much too short. A step that follows a
// short one may be many times as long.
func (b Beginning) Step(s Settings, duration float64) float64 {
	h, root := min(duration, b.Crossing), math.Pow(s.Tolerance, inverse)
	if b.Changes > 0 {
		h = min(h, beginChange*root/b.Changes)
	}
	if b.Front > beginFront*s.Tolerance {
		h = min(h, beginAnswer*root*b.Answer)
	}
	return h
}

// Surface takes up that the surface stands so far off what its surroundings ask for, which changes at a rate [1/s]; the value there and the
// size of the field are given, and the width of the outermost gap in radii.
func (b *Beginning) Surface(off, rate, value, size, width float64) {
	off, rate = math.Abs(off), math.Abs(rate)
	switch whole := off + max(value, size); {
	case whole > 0:
		b.Changes += rate / whole
		change := off * math.Sqrt(2*width)
		b.Front = change / math.Hypot(change, size)
	case rate > 0:
		b.Front = 1
	}
}

// Size is the size of a field: its root mean square by the weights, whose sum is whole, or floor where that is more.
func Size(field, weight []float64, whole, floor float64) float64 {
	sum := 0.0
	for i, v := range field {
		sum += weight[i] * v * v
	}
	return max(math.Sqrt(sum/whole), floor)
}
