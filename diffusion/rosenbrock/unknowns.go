package rosenbrock

import "math"

// Increments are those of the stages of a step, node by node, so that one pass over the nodes combines them all.
type Increments [][Stages]float64

// Stage sets stage to y + Σ a_ij u_j and sum to Σ (c_ij/h) u_j for stage i of a step of size h [s]. The coefficients
// are taken all at once: those beyond the stage are zero, and the increments of the last step that
// they meet are finite. The last stage stands one increment further than the one before, which is
// in stage already.
func (u Increments) Stage(i int, h float64, y, stage, sum []float64) {
	a, c, per := &rodas.A[i], &rodas.C[i], 1/h
	a0, a1, a2, a3 := a[0], a[1], a[2], a[3]
	c0, c1, c2, c3, c4 := c[0]*per, c[1]*per, c[2]*per, c[3]*per, c[4]*per
	n := len(y)
	stage, sum, u = stage[:n], sum[:n], u[:n]
	if i == Stages-1 {
		for k := range u {
			v := &u[k]
			stage[k] += v[i-1]
			sum[k] = (c0*v[0] + c1*v[1]) + (c2*v[2] + c3*v[3]) + c4*v[4]
		}
		return
	}
	for k := range u {
		v := &u[k]
		stage[k] = y[k] + (a0*v[0] + a1*v[1]) + (a2*v[2] + a3*v[3])
		sum[k] = (c0*v[0] + c1*v[1]) + (c2*v[2] + c3*v[3])
	}
}

// End takes stage from the last stage to the end of the step, one increment further, which is also the estimate of the
// error. It gives the estimate relative to the size of the field, each as a root mean square by the
// weights, whose sum is whole; floor is the smallest size that counts. Where the field is not finite it
// gives Inf, and where it is zero the error itself.
func (u Increments) End(stage, weight []float64, whole, floor float64) (size float64) {
	last := Stages - 1
	errors, field := 0.0, 0.0
	n := len(stage)
	weight, u = weight[:n], u[:n]
	for k := range u {
		e := u[k][last]
		v := stage[k] + e
		stage[k] = v
		errors += weight[k] * e * e
		field += weight[k] * v * v
	}
	if !(field < math.Inf(1)) { // true for NaN too
		return math.Inf(1)
	}
	scale := max(math.Sqrt(field/whole), floor)
	if scale == 0 {
		return math.Sqrt(errors)
	}
	return math.Sqrt(errors/whole) / scale
}

// Scalar is an unknown beside a field that is a single number: an amount, a companion.
type Scalar struct {
	U       [Stages]float64 // increments of the stages
	Now     float64         // at the stage
	History float64         // Σ (c_ij/h) u_j there
	Next    float64         // at the end of the step
}

// Stage sets the value at stage i of a step of size h [s], from that at the start, and the history.
func (s *Scalar) Stage(i int, h, start float64) {
	a, c := &rodas.A[i], &rodas.C[i]
	now, history := start, 0.0
	for j, u := range s.U[:i] {
		now += a[j] * u
		history += c[j] * u
	}
	s.Now, s.History = now, history/h
}

// End sets the value at the end of the step and gives the estimate of its error.
func (s *Scalar) End(start float64) float64 {
	s.Next = start
	for j := range Stages {
		s.Next += rodas.Advance[j] * s.U[j]
	}
	return math.Abs(s.U[Stages-1])
}
