package rosenbrock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/rosenbrock"
)

// both are the equation of scalar twice, as a field of one node and as a number beside it.
type both struct {
	scalar
	field     rosenbrock.Increments
	stage     []float64
	beside    rosenbrock.Scalar
	relative  float64
	besideNow float64
}

func (b *both) Try(h float64) float64 {
	m := rosenbrock.Method()
	dt := b.rate*math.Cos(b.time) - math.Sin(b.time)
	pivot := 1 / (1/(m.Gamma*h) + b.rate)
	sum := []float64{0}
	b.stage[0] = b.y
	for i := range rosenbrock.Stages {
		at := b.time + m.Alpha[i]*h
		if i > 0 {
			b.field.Stage(i, h, []float64{b.y}, b.stage, sum)
		}
		b.beside.Stage(i, h, b.besideNow)
		fieldSlope, besideSlope := b.slope(at, b.stage[0]), b.slope(at, b.beside.Now)
		b.field[i][0] = (fieldSlope + sum[0] + m.Dt[i]*h*dt) * pivot
		b.beside.U[i] = (besideSlope + b.beside.History + m.Dt[i]*h*dt) * pivot
	}
	b.relative = b.field.End(b.stage, []float64{2}, 2, 0)
	off := b.beside.End(b.besideNow)
	b.next = b.stage[0]
	if math.Abs(off/math.Abs(b.next)-b.relative) > 1e-12 {
		return math.NaN()
	}
	return b.relative
}

func (b *both) Accept(h, now float64) {
	b.scalar.Accept(h, now)
	b.besideNow = b.beside.Next
}

// A field of one node and a number beside it come to the same, which is the exact solution to the order of the method; the
// estimate of the error is that of the field over its size.
func TestUnknowns(t *testing.T) {
	for _, tolerance := range []float64{1e-3, 1e-6} {
		b := &both{
			scalar: scalar{rate: 5, y: 1}, stage: make([]float64, 1), besideNow: 1,
		}
		b.field.Resize(1)
		require.NoError(t, rosenbrock.Pace{Step: 0.01}.Pursue(b, 2, rosenbrock.Settings{Tolerance: tolerance}, nil))
		require.InDelta(t, exact(5, 2), b.y, 3*tolerance)
		require.InDelta(t, b.y, b.besideNow, 1e-12)
	}
}

// The size of an error is a root mean square by the weights, by hand: errors of 3 and 4 in fields of 6 and 8 weighed 1 and 3.
func TestSizeOfAnError(t *testing.T) {
	var u rosenbrock.Increments
	u.Resize(2)
	copy(u[rosenbrock.Stages-1], []float64{3, 4})
	size := func(floor float64) float64 { return u.End([]float64{3, 4}, []float64{1, 3}, 4, floor) }
	require.InEpsilon(t, math.Sqrt((9.0+48)/4)/math.Sqrt((36.0+192)/4), size(0), 1e-14)
	require.InEpsilon(t, math.Sqrt((9.0+48)/4)/10, size(10), 1e-14, "a floor of ten")
	require.InEpsilon(t, math.Sqrt(9.0+48), u.End([]float64{-3, -4}, []float64{1, 3}, 4, 0), 1e-14, "a field of nothing")
	require.True(t, math.IsInf(u.End([]float64{math.NaN(), 0}, []float64{1, 3}, 4, 0), 1))
}

// A decay over one step of many lengths: what a long step leaves of it is nearer by ten times and more, a short one no further off, and the
// corrected end lies between the two solutions of the method, so that it vanishes with them in steps without end.
func TestCorrection(t *testing.T) {
	decay := func(z float64) (plain, corrected, estimate float64) {
		var u rosenbrock.Increments
		u.Resize(1)
		stage, sum := []float64{1}, []float64{0}
		m, y := rosenbrock.Method(), []float64{1}
		for i := range rosenbrock.Stages {
			if i > 0 {
				u.Stage(i, z, y, stage, sum)
			}
			u[i][0] = (sum[0] - stage[0]) / (1/(m.Gamma*z) + 1)
		}
		size := u.End(stage, []float64{1}, 1, 0)
		plain, estimate = stage[0], u[rosenbrock.Stages-1][0]
		u.Correct(stage, rosenbrock.Correction(size))
		return plain, stage[0], estimate
	}
	for _, c := range []struct{ z, left float64 }{{0.1, 1}, {0.3, 1}, {0.75, 0.5}, {1, 0.3}, {1.25, 0.1}, {1.5, 0.07}, {2, 0.07}, {2.5, 0.1}, {3, 0.1}} {
		plain, corrected, _ := decay(c.z)
		left := math.Abs(corrected-math.Exp(-c.z)) / math.Abs(plain-math.Exp(-c.z))
		t.Logf("z %g: off by %.1e of itself, corrected by %.1e: %.3f of that", c.z, plain/math.Exp(-c.z)-1, corrected/math.Exp(-c.z)-1, left)
		require.LessOrEqual(t, left, c.left)
	}
	for _, z := range []float64{1e-3, 1, 10, 1e3, 1e9} {
		plain, corrected, estimate := decay(z)
		require.LessOrEqual(t, (corrected-plain)*(corrected-(plain-estimate)), 0.0, "z %g", z)
	}
	require.InDelta(t, 1, rosenbrock.Correction(1e9), 1e-9)
}

// A number beside a field is corrected by as much.
func TestScalarCorrection(t *testing.T) {
	var s rosenbrock.Scalar
	s.Next, s.U[rosenbrock.Stages-1] = 5, 2
	s.Correct(0.25)
	require.InDelta(t, 4.5, s.Next, 1e-15)
}

// The unknowns of a step end with the larger estimate of field and companion, all of them corrected by the share that goes with it; where one is no number, nothing of
// the step is left that would spoil the next.
func TestUnknownsEnd(t *testing.T) {
	const last = rosenbrock.Stages - 1
	ready := func(field, beside float64) *rosenbrock.Unknowns {
		u := &rosenbrock.Unknowns{Bordered: true}
		u.Field.Resize(2)
		u.Field.Clear()
		u.Field[last][0], u.Field[last][1] = field, field
		u.Lost.U[last], u.Beside.U[last] = 0.5*field, beside
		return u
	}
	end := func(u *rosenbrock.Unknowns, stage []float64) float64 {
		return u.End(stage, []float64{1, 1}, 2, 0, 3, 7, 10)
	}
	for _, c := range []struct{ field, beside, size float64 }{{0.1, 0.2, 0.1 / 1.1}, {0.1, 5, 0.5}, {0.1, -5, 0.5}} {
		u, stage := ready(c.field, c.beside), []float64{1, 1}
		require.InDelta(t, c.size, end(u, stage), 1e-12)
		kept := 1 - rosenbrock.Correction(c.size)
		require.InDelta(t, 1+kept*c.field, stage[1], 1e-12)
		require.InDelta(t, 3+kept*0.5*c.field, u.Lost.Next, 1e-12)
		require.InDelta(t, 7+kept*c.beside, u.Beside.Next, 1e-12)
		u, stage = ready(c.field, c.beside), []float64{1, 1}
		u.Bordered = false
		require.InDelta(t, 0.1/1.1, end(u, stage), 1e-12, "without a companion")
	}
	for _, odd := range [][2]float64{{math.NaN(), 0}, {math.Inf(1), 0}, {0.1, math.NaN()}, {0.1, math.Inf(-1)}} {
		u := ready(odd[0], odd[1])
		require.False(t, end(u, []float64{1, 1}) < math.Inf(1))
		require.Zero(t, u.Field[last][0])
		require.Zero(t, u.Lost.U[last])
		require.Zero(t, u.Beside.U[last])
	}
}
