package rosenbrock

import (
	"math"

	"strandry/diffusion/simd"
)

// Increments are those of the stages of a step, each over all nodes: where a stage is solved is where its increments stay.
type Increments [Stages][]float64

// Resize makes room for n nodes; what it held is lost.
func (u *Increments) Resize(n int) {
	if cap(u[0]) < n {
		block := make([]float64, Stages*n)
		for i := range u {
			u[i] = block[i*n : i*n : (i+1)*n]
		}
	}
	for i := range u {
		u[i] = u[i][:n]
	}
}

// Clear sets them to zero.
func (u *Increments) Clear() {
	for i := range u {
		clear(u[i])
	}
}

// Stage sets stage to y + Σ a_ij u_j and sum to Σ (c_ij/h) u_j for stage i of a step of size h [s], i above 0. Four terms are
// taken at once: coefficients beyond the stage are zero, and the increments of the last step that
// they meet are finite. The last stage stands one increment further than the one before, which is
// in stage already.
func (u *Increments) Stage(i int, h float64, y, stage, sum []float64) {
	a, c, per := &rodas.A[i], &rodas.C[i], 1/h
	if i == Stages-1 {
		by := [5]float64{c[0] * per, c[1] * per, c[2] * per, c[3] * per, c[4] * per}
		simd.CombineLast(stage, sum, u[0], u[1], u[2], u[3], u[4], &by)
		return
	}
	by := [4]float64{c[0] * per, c[1] * per, c[2] * per, c[3] * per}
	simd.Combine(stage, sum, y, u[0], u[1], u[2], u[3], (*[4]float64)(a[:4]), &by)
}

// End takes stage from the last stage to the end of the step, one increment further, which is also the estimate of the
// error. It gives the estimate relative to the size of the field, each as a root mean square by the
// weights, whose sum is whole; floor is the smallest size that counts. Where the field is not finite it
// gives Inf, and where it is zero the error itself.
func (u *Increments) End(stage, weight []float64, whole, floor float64) (size float64) {
	errors, field := simd.Close(stage, u[Stages-1], weight)
	if !(field < math.Inf(1)) { // true for NaN too
		return math.Inf(1)
	}
	scale := max(math.Sqrt(field/whole), floor)
	if scale == 0 {
		return math.Sqrt(errors)
	}
	return math.Sqrt(errors/whole) / scale
}

// Correction is the share of the estimate of the error by which the end of a step is brought nearer, from the size of that estimate relative to the field [-].
//
// What dries or fills up for long decays as exp(-z) in a step. What a long step is off by then has the form of the estimate and is of the next order: a share of
// it that grows with z, and so with the fourth root of its size, over which it is 0.73 to 0.84 for z from 0.75 to 2.5. Taking it off leaves a
// twentieth where tolerances of a hundredth let a step end (TestCorrection). In short steps the estimate tells less of what a solution is off by that does not
// decay, and the share fades. Where there is a correction it is one order above the estimate, so that the order of the method stays; and
// as a mean of two solutions that are both L-stable, the end is too.
func Correction(size float64) float64 {
	const overRoot, fades = 0.8, 1e-3
	return min(overRoot*math.Sqrt(math.Sqrt(size)), 1) * (size / (size + fades))
}

// Correct takes a share of the estimate from the end of the step.
func (u *Increments) Correct(end []float64, share float64) {
	simd.AddScaled(end, u[Stages-1], -share)
}

// Scalar is an unknown beside a field that is a single number: an amount, a companion.
type Scalar struct {
	U       [Stages]float64 // increments of the stages
	Now     float64         // at the stage
	History float64         // Σ (c_ij/h) u_j there
	Next    float64         // at the end of the step
}

// Stage sets the value at stage i of a step of size h [s], from that at the start, and the history; coefficients beyond the stage are zero.
func (s *Scalar) Stage(i int, h, start float64) {
	a, c, u := &rodas.A[i], &rodas.C[i], &s.U
	s.Now = start + (a[0]*u[0] + a[1]*u[1]) + (a[2]*u[2] + a[3]*u[3]) + a[4]*u[4]
	s.History = ((c[0]*u[0] + c[1]*u[1]) + (c[2]*u[2] + c[3]*u[3]) + c[4]*u[4]) / h
}

// End sets the value at the end of the step and gives the estimate of its error.
func (s *Scalar) End(start float64) float64 {
	s.Next = start
	for j := range Stages {
		s.Next += rodas.Advance[j] * s.U[j]
	}
	return math.Abs(s.U[Stages-1])
}

// Correct takes a share of the estimate from the end of the step.
func (s *Scalar) Correct(share float64) { s.Next -= share * s.U[Stages-1] }

// Unknowns are those of a step: a field over nodes, the amount that has left it, and a companion where the field is bordered by one.
type Unknowns struct {
	Field        Increments
	Lost, Beside Scalar
	Bordered     bool
}

// Stage sets the unknowns at stage i of a step of size h [s], i above 0, from those at its start, and their histories; see the same of [Increments] and [Scalar].
func (u *Unknowns) Stage(i int, h float64, y, stage, sum []float64, lost, beside float64) {
	u.Field.Stage(i, h, y, stage, sum)
	u.Lost.Stage(i, h, lost)
	if u.Bordered {
		u.Beside.Stage(i, h, beside)
	}
}

// End leaves the unknowns at the end of the step, brought nearer by what the size of the estimate of the error tells, and gives that: of the field as [Increments.End]
// has it, or that of the companion over its scale. Where it is not finite the step has failed.
func (u *Unknowns) End(stage, weight []float64, whole, floor, lost, beside, scale float64) (size float64) {
	size = u.Field.End(stage, weight, whole, floor)
	u.Lost.End(lost)
	if u.Bordered {
		if off := u.Beside.End(beside) / scale; !(off <= size) { // true for NaN too
			size = off
		}
	}
	if !(size < math.Inf(1)) {
		u.Field.Clear() // lest zero times Inf spoil the next try
		u.Lost.U, u.Beside.U = [Stages]float64{}, [Stages]float64{}
		return size
	}
	share := Correction(size)
	u.Field.Correct(stage, share)
	u.Lost.Correct(share)
	if u.Bordered {
		u.Beside.Correct(share)
	}
	return size
}
