package root_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/root"
)

func TestCrossed(t *testing.T) {
	for _, c := range []struct {
		walk    root.Walk
		crossed bool
	}{
		{nil, false},
		{root.Walk{{1, -1}}, false},
		{root.Walk{{1, 2}, {2, 1}}, false},
		{root.Walk{{1, 2}, {2, -1}}, true},
		{root.Walk{{3, -2}, {2, 1}}, true}, // falling, and from below
		{root.Walk{{1, 2}, {2, 0}}, true},  // zero counts as below
		{root.Walk{{1, 0}, {2, -1}}, false},
		{root.Walk{{1, 2}, {2, -1}, {3, -2}}, false}, // the last two alone
	} {
		b, crossed := c.walk.Crossed()
		require.Equal(t, c.crossed, crossed, "%v", c.walk)
		if crossed {
			require.Equal(t, root.Bracket{A: c.walk[0].X, B: c.walk[1].X, AtA: c.walk[0].Y, AtB: c.walk[1].Y}, b)
		}
	}
}

// A parabola that is below zero between 0.6 and 0.8 only, walked past in either direction.
func TestDip(t *testing.T) {
	f := func(x float64) (float64, error) { return (x-0.7)*(x-0.7) - 0.01, nil }
	for _, xs := range [][]float64{{0, 0.5, 1, 2}, {2, 1, 0.5, 0}} {
		var walk root.Walk
		for _, x := range xs {
			y, err := f(x)
			require.NoError(t, err)
			walk = append(walk, root.Place{X: x, Y: y})
		}
		require.Equal(t, 0.5, walk[walk.Least()].X)
		least, b, ok, err := walk.Dip(f, root.Tolerance{Width: 1e-3})
		require.NoError(t, err)
		require.True(t, ok)
		require.InDelta(t, 0.7, least.X, 0.1)
		require.LessOrEqual(t, least.Y, 0.0)
		require.Equal(t, root.Bracket{A: xs[walk.Least()-1], B: least.X, AtA: walk[walk.Least()-1].Y, AtB: least.Y}, b)
	}
}

func TestNoDip(t *testing.T) {
	above := func(x float64) (float64, error) { return 1 + math.Abs(x-0.7), nil }
	walk := root.Walk{{0.694, 1.006}, {0.699, 1.001}, {0.704, 1.004}}
	least, _, ok, err := walk.Dip(above, root.Tolerance{Width: 1e-3})
	require.NoError(t, err)
	require.False(t, ok)
	require.InDelta(t, 0.7, least.X, 2e-5, "the share is of what lies between the neighbours")
	for name, walk := range map[string]root.Walk{"first": {{0, 1}, {1, 2}, {2, 3}}, "last": {{0, 3}, {1, 2}, {2, 1}}, "two": {{0, 1}, {1, 2}}} {
		least, _, ok, err := walk.Dip(above, root.Tolerance{Width: 1e-3})
		require.NoError(t, err)
		require.False(t, ok, name)
		require.Equal(t, 1.0, least.Y, name)
	}
	_, _, ok, err = root.Walk(nil).Dip(above, root.Tolerance{Width: 1e-3})
	require.NoError(t, err)
	require.False(t, ok)
	broken := errors.New("broken")
	_, _, ok, err = walk.Dip(func(float64) (float64, error) { return 0, broken }, root.Tolerance{Width: 1e-3})
	require.ErrorIs(t, err, broken)
	require.False(t, ok)
}
