package diffusion_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// What a draw gives off to air that is limited is expected several times nearer to what it does give off than what the medians do.
func TestBalancesOfDraws(t *testing.T) {
	w, d := diffusion.NewMarch(), doubtful(t)
	d.Path = slices.Clone(d.Path)
	d.Path[1].Air.DryFlow, d.Path[1].Air.Direction = 1e-4, diffusion.Against
	unknowns := len(d.Unknowns())
	for unknown := range 2 {
		for _, z := range []float64{-2, -1, 1, 2} {
			deviates := make([]float64, unknowns)
			deviates[unknown] = z
			expected, found, medians, err := w.Balance(d, 1, deviates)
			require.NoError(t, err)
			require.NotZero(t, found)
			if math.Abs(found-medians) > 0.05*math.Abs(medians) {
				require.Less(t, math.Abs(expected-found), 0.25*math.Abs(medians-found), "unknown %d at %g: %g, expected %g, at the medians %g", unknown, z, found, expected, medians)
			}
			within(t, found, expected, 0.1*math.Abs(found))
		}
	}
	expected, _, medians, err := w.Balance(d, 1, make([]float64, unknowns))
	require.NoError(t, err)
	require.Equal(t, medians, expected, "at the medians themselves")
}

// With the odds at another length the estimate at the design point needs the medians alone, and is near what it is where more was marched.
func TestDesignPointFromTheMedians(t *testing.T) {
	w, d := diffusion.NewMarch(), undecided(t)
	far := *d
	far.Path = slices.Clone(d.Path)
	far.Path[1].Length = 3 * d.Path[1].Length
	base := odds(t, &far)
	length := 2 * d.Path[1].Length
	l, err := w.LengthOdds(d, 1, &base, diffusion.Settings{})
	require.NoError(t, err)
	before, err := l.AtDesignPoint(length)
	require.NoError(t, err)
	_, err = l.Probability(length, 0)
	require.NoError(t, err)
	marched, err := l.AtDesignPoint(length)
	require.NoError(t, err)
	within(t, marched, before, 0.1)
	require.NotEqual(t, marched, before)
	_, err = l.AtDesignPoint(-1)
	require.Error(t, err)
}
