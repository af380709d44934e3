package root_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/root"
)

// find counts the values that it takes to find a zero.
func find(t *testing.T, f func(float64) float64, a, b, width float64) (x float64, calls int) {
	t.Helper()
	x, err := root.Find(func(x float64) (float64, error) { calls++; return f(x), nil },
		root.Bracket{A: a, B: b, AtA: f(a), AtB: f(b)}, root.Tolerance{Width: width})
	require.NoError(t, err)
	return x, calls
}

// Zeros that are known otherwise: Abramowitz & Stegun, Handbook of Mathematical Functions
// (1964), table 9.5 (first zero of J0) and the square root of two to ten decimals; the
// fixed point of the cosine (from memory).
func TestKnownZeros(t *testing.T) {
	for _, c := range []struct {
		f          func(float64) float64
		a, b, zero float64
	}{
		{math.J0, 2, 3, 2.4048255577},
		{func(x float64) float64 { return x*x - 2 }, 0, 10, 1.4142135624},
		{func(x float64) float64 { return math.Cos(x) - x }, 0, 2, 0.7390851332},
		{func(x float64) float64 { return 2 - x*x }, 10, 0, 1.4142135624}, // from the other end
		{func(x float64) float64 { return math.Expm1(20 * (x - 0.3)) }, 0, 1, 0.3},
	} {
		x, calls := find(t, c.f, c.a, c.b, 1e-11)
		require.InDelta(t, c.zero, x, 6e-11)
		require.LessOrEqual(t, calls, 14, "bisection needs 37")
	}
}

// A step, a flat cubic and a zero at an end: never many more values than bisection.
func TestHardZeros(t *testing.T) {
	x, calls := find(t, func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 1e-9)
	require.InDelta(t, 0.3, x, 1e-9)
	require.LessOrEqual(t, calls, 40)
	x, calls = find(t, func(x float64) float64 { return math.Pow(x-0.3, 9) }, 0, 1, 1e-4)
	require.InDelta(t, 0.3, x, 1e-4)
	require.LessOrEqual(t, calls, 60)
	x, _ = find(t, func(x float64) float64 { return x }, 0, 1, 1e-9)
	require.Zero(t, x)
}

func TestValueToleranceAndErrors(t *testing.T) {
	calls := 0
	square := func(x float64) (float64, error) { calls++; return x*x - 2, nil }
	x, err := root.Find(square, root.Bracket{A: 0, B: 2, AtA: -2, AtB: 2}, root.Tolerance{Value: 1e-3})
	require.NoError(t, err)
	require.InDelta(t, 2, x*x, 1e-3)
	require.LessOrEqual(t, calls, 6)

	_, err = root.Find(square, root.Bracket{A: 2, B: 3, AtA: 2, AtB: 7}, root.Tolerance{})
	require.ErrorIs(t, err, root.ErrNoBracket)
	_, err = root.Find(square, root.Bracket{A: 2, B: 3, AtA: math.NaN(), AtB: 7}, root.Tolerance{})
	require.ErrorIs(t, err, root.ErrNoBracket)
	broken := errors.New("broken")
	_, err = root.Find(func(float64) (float64, error) { return 0, broken }, root.Bracket{A: 0, B: 2, AtA: -2, AtB: 2}, root.Tolerance{})
	require.ErrorIs(t, err, broken)
}

// valley brackets the minimum of a function.
func valley(f func(float64) float64, a, m, b float64) root.Valley {
	return root.Valley{A: a, M: m, B: b, AtA: f(a), AtM: f(m), AtB: f(b)}
}

// Minima that are known by hand; each within its width, and with fewer values than golden sections take (the
// logarithm of the share, over that of 1.618).
func TestLeast(t *testing.T) {
	for name, c := range map[string]struct {
		f       func(float64) float64
		a, m, b float64
		least   float64
		most    int // values of the function
	}{
		"parabola":    {func(x float64) float64 { return 1 + (x-0.7)*(x-0.7) }, -2, 0, 3, 0.7, 4},
		"exponential": {func(x float64) float64 { return math.Exp(x) - 2*x + 1 }, -3, 0, 4, math.Ln2, 16},
		"lopsided":    {func(x float64) float64 { return 1 + math.Exp(-20*x) + 0.1*x }, -1, 0.5, 1, math.Log(200) / 20, 20},
		"cusp":        {func(x float64) float64 { return 1 + math.Sqrt(math.Abs(x-0.3)) }, -1, 0, 1, 0.3, 24},
		"corner":      {func(x float64) float64 { return 1 + math.Max(x, -5*x) }, -1, 0.3, 1, 0, 24},
	} {
		calls := 0
		x, fx, err := root.Least(func(x float64) (float64, error) { calls++; return c.f(x), nil }, valley(c.f, c.a, c.m, c.b), root.Tolerance{Width: 1e-3})
		require.NoError(t, err)
		require.InDelta(t, c.least, x, 1e-3, name)
		require.InDelta(t, c.f(x), fx, 0, name)
		require.LessOrEqual(t, calls, c.most, name)
	}
}

func TestLeastEndsEarly(t *testing.T) {
	below := func(x float64) float64 { return (x-0.7)*(x-0.7) - 0.5 }
	x, fx, err := root.Least(func(x float64) (float64, error) { return below(x), nil }, valley(below, -2, -0.3, 3), root.Tolerance{Width: 1e-3})
	require.NoError(t, err)
	require.LessOrEqual(t, fx, 0.0, "the first value below zero is enough")
	require.InDelta(t, fx, below(x), 1e-12)

	calls := 0
	flat := func(x float64) float64 { return 1 + 0.01*math.Pow(x-0.7, 4) }
	x, _, err = root.Least(func(x float64) (float64, error) { calls++; return flat(x), nil }, valley(flat, -2, 0, 3), root.Tolerance{Value: 1e-4, Width: 1e-9})
	require.NoError(t, err)
	require.InDelta(t, flat(0.7), flat(x), 3e-4, "the value is enough")
	require.Less(t, calls, 10)

	broken := errors.New("broken")
	_, _, err = root.Least(func(float64) (float64, error) { return 1, broken }, root.Valley{A: 0, M: 0.5, B: 1, AtA: 2, AtM: 1, AtB: 3}, root.Tolerance{Width: 0.1})
	require.ErrorIs(t, err, broken)
}

func ExampleFind() {
	f := func(x float64) (float64, error) { return x*x - 2, nil }
	x, err := root.Find(f, root.Bracket{A: 1, B: 2, AtA: -1, AtB: 2}, root.Tolerance{Width: 1e-9})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.6f\n", x)
	// Output: 1.414214
}
