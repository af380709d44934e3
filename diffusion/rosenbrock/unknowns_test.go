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
		b.field[0][i] = (fieldSlope + sum[0] + m.Dt[i]*h*dt) * pivot
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
			scalar: scalar{rate: 5, y: 1}, field: make(rosenbrock.Increments, 1), stage: make([]float64, 1), besideNow: 1,
		}
		require.NoError(t, rosenbrock.Pace{Step: 0.01}.Pursue(b, 2, rosenbrock.Settings{Tolerance: tolerance}, nil))
		require.InDelta(t, exact(5, 2), b.y, 3*tolerance)
		require.InDelta(t, b.y, b.besideNow, 1e-12)
	}
}

// The size of an error is a root mean square by the weights, by hand: errors of 3 and 4 in fields of 6 and 8 weighed 1 and 3.
func TestSizeOfAnError(t *testing.T) {
	u := make(rosenbrock.Increments, 2)
	u[0][rosenbrock.Stages-1], u[1][rosenbrock.Stages-1] = 3, 4
	size := func(floor float64) float64 { return u.End([]float64{3, 4}, []float64{1, 3}, 4, floor) }
	require.InEpsilon(t, math.Sqrt((9.0+48)/4)/math.Sqrt((36.0+192)/4), size(0), 1e-14)
	require.InEpsilon(t, math.Sqrt((9.0+48)/4)/10, size(10), 1e-14, "a floor of ten")
	require.InEpsilon(t, math.Sqrt(9.0+48), u.End([]float64{-3, -4}, []float64{1, 3}, 4, 0), 1e-14, "a field of nothing")
	require.True(t, math.IsInf(u.End([]float64{math.NaN(), 0}, []float64{1, 3}, 4, 0), 1))
}
