package rosenbrock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/rosenbrock"
)

// scalar is y' = rate (sin t - y) + cos t, whose solution from y(0) = 1 is sin t + exp(-rate t).
type scalar struct {
	rate        float64
	time, y     float64
	next, u     float64
	taken, left int
}

func (b *scalar) slope(t, y float64) float64 { return b.rate*(math.Sin(t)-y) + math.Cos(t) }

func (b *scalar) Try(h float64) float64 {
	var u [rosenbrock.Stages]float64
	m := rosenbrock.Method()
	dt := b.rate*math.Cos(b.time) - math.Sin(b.time)
	b.next = b.y
	for i := range rosenbrock.Stages {
		at, y, sum := b.time+m.Alpha[i]*h, b.y, 0.0
		for j := range i {
			y += m.A[i][j] * u[j]
			sum += m.C[i][j] / h * u[j]
		}
		u[i] = (b.slope(at, y) + sum + m.Dt[i]*h*dt) / (1/(m.Gamma*h) + b.rate)
		b.next += m.Advance[i] * u[i]
	}
	b.u = u[rosenbrock.Stages-1]
	return math.Abs(b.u) / math.Max(math.Abs(b.next), 1e-3)
}

func (b *scalar) Accept(_, now float64) { b.y, b.time, b.taken = b.next, now, b.taken+1 }

func (b *scalar) Reject() { b.left++ }

func exact(rate, t float64) float64 { return math.Sin(t) + math.Exp(-rate*t) }

func TestOrders(t *testing.T) {
	off := func(steps int) float64 {
		b := &scalar{rate: 2, y: 1}
		require.NoError(t, rosenbrock.Even(b, 0, 1, steps))
		require.Equal(t, steps, b.taken)
		require.InDelta(t, 1, b.time, 0)
		return math.Abs(b.y - exact(2, 1))
	}
	measured := math.Log2(off(20) / off(40))
	t.Logf("order %.2f", measured)
	require.InDelta(t, rosenbrock.Order, measured, 0.3)
}

// One step ten million times as long as the time constant lands where the solution is: L-stable.
func TestLStable(t *testing.T) {
	b := &scalar{rate: 1e9, y: 1}
	require.NoError(t, rosenbrock.Even(b, 0, 0.01, 1))
	require.InDelta(t, exact(1e9, 0.01), b.y, 1e-5)
}

func TestControl(t *testing.T) {
	before := math.Inf(1)
	for _, tolerance := range []float64{1e-2, 1e-4, 1e-6} {
		b := &scalar{rate: 50, y: 1}
		s := rosenbrock.Settings{Tolerance: tolerance}
		require.NoError(t, rosenbrock.Pace{Step: 1}.Pursue(b, 3, s, nil))
		require.InDelta(t, 3, b.time, 0)
		require.Positive(t, b.left, "a first step of twice the time constant is too long")
		off := math.Abs(b.y - exact(50, 3))
		require.Less(t, off, tolerance)
		require.Less(t, off, before)
		before = off
	}
}

// A march for the longest duration hands over, before its last step to each of the others, the pace of a march for
// that one alone.
func TestThrough(t *testing.T) {
	s := rosenbrock.Settings{Tolerance: 1e-4}
	durations := []float64{0.01, 0.5, 0.51, 2}
	b := &scalar{rate: 5, y: 1}
	count := 0
	require.NoError(t, rosenbrock.Pace{Step: 0.1}.Through(b, durations, s, func(i int, now rosenbrock.Pace) error {
		require.Equal(t, count, i)
		count++
		branch := *b
		require.NoError(t, now.Pursue(&branch, durations[i], s, nil))
		alone := &scalar{rate: 5, y: 1}
		require.NoError(t, rosenbrock.Pace{Step: math.Min(0.1, durations[i])}.Pursue(alone, durations[i], s, nil))
		require.Equal(t, alone.y, branch.y)
		return nil
	}))
	require.Equal(t, 3, count)
}

type failing struct{ scalar }

func (*failing) Try(float64) float64 { return math.NaN() }

func TestStalls(t *testing.T) {
	s := rosenbrock.Settings{Tolerance: 1e-4}
	require.ErrorIs(t, rosenbrock.Pace{Step: 1}.Pursue(&failing{}, 1, s, nil), rosenbrock.ErrStalled)
	require.ErrorIs(t, rosenbrock.Even(&failing{}, 0, 1, 3), rosenbrock.ErrStalled)
	s.MaxSteps, s.MaxStep = 3, 0.1
	b := &scalar{rate: 1, y: 1}
	require.ErrorIs(t, rosenbrock.Pace{Step: 1}.Pursue(b, 1, s, nil), rosenbrock.ErrStalled)
	require.InDelta(t, 0.3, b.time, 1e-12)
}

func TestSettingsAreChecked(t *testing.T) {
	sound := rosenbrock.Settings{Tolerance: 1e-3}
	require.NoError(t, sound.Check(1))
	for says, s := range map[string]rosenbrock.Settings{
		"tolerance 0": {}, "tolerance NaN": {Tolerance: math.NaN()}, "floor -1": {Tolerance: 1, Floor: -1},
	} {
		require.ErrorContains(t, s.Check(1), says)
	}
	require.ErrorContains(t, sound.Check(math.Inf(1)), "duration")
	require.NoError(t, sound.CheckRising([]float64{1, 2}))
	for says, durations := range map[string][]float64{"2 s at 1": {2, 2}, "1 s at 1": {2, 1}, "above zero: 0 s at 0": {0, 1}, "duration NaN": {1, math.NaN()}} {
		require.ErrorContains(t, sound.CheckRising(durations), says)
	}
}

// A march that begins at some time ends at that plus its duration, on the solution from there.
func TestStartsAtATime(t *testing.T) {
	const start, rate = 0.7, 3
	b := &scalar{rate: rate, time: start, y: exact(rate, start)}
	require.NoError(t, rosenbrock.Even(b, start, 0.5, 200))
	require.InDelta(t, 1.2, b.time, 1e-15)
	require.InDelta(t, exact(rate, 1.2), b.y, 1e-7)
	s := rosenbrock.Settings{Tolerance: 1e-7}
	require.NoError(t, rosenbrock.Pace{Start: 1.2, Step: 1e-3}.Pursue(b, 0.5, s, nil))
	require.InDelta(t, 1.7, b.time, 1e-15)
	require.InDelta(t, exact(rate, 1.7), b.y, 1e-5)
}

// fourth is a body whose error is just what is allowed at a step of one, and goes with the fourth power of the step.
type fourth struct{ tried, taken []float64 }

func (b *fourth) Try(h float64) float64 {
	b.tried = append(b.tried, h)
	return 1e-3 * math.Pow(h, 4)
}

func (b *fourth) Accept(h, _ float64) { b.taken = append(b.taken, h) }

func (*fourth) Reject() {}

// The steps by hand: each is 0.9 times the one that would be as exact as allowed, within 0.2 and 6 times the last one, which is the
// rule of Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I (1993), eq. II.4.13; after one that was not taken
// 0.7 times at the most. What is left at the end is shared by two.
func TestStepsByHand(t *testing.T) {
	for _, c := range []struct {
		first, duration float64
		want            []float64
	}{
		{0.01, 3, []float64{0.01, 0.06, 0.36, 0.9, 0.835, 0.835}}, // the last two are even
		{10, 20, []float64{10, 2, 0.9, 0.9}},
		{1.02, 3, []float64{1.02, 0.714, 0.9, 0.693, 0.693}},
		{0.9, 1.85, []float64{0.9, 0.8, 0.15}}, // a rest of 0.05 takes twice that from the step before
		{0.9, 1.8, []float64{0.9, 0.9}},
	} {
		b := &fourth{}
		require.NoError(t, rosenbrock.Pace{Step: c.first}.Pursue(b, c.duration, rosenbrock.Settings{Tolerance: 1e-3}, nil))
		want := c.want
		require.InDeltaSlice(t, want, b.tried[:len(want)], 1e-12)
		sum := 0.0
		for _, h := range b.taken {
			require.LessOrEqual(t, h, 1.0)
			sum += h
		}
		require.InDelta(t, c.duration, sum, 1e-12)
	}
}
