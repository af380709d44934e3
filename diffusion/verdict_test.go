package diffusion_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// A verdict stands beyond its numerical error: where the limit lies as near to that of nine or one in ten as the error at coarse settings,
// what is called dry is so nine times in ten with the whole of the error against it, and what is left unsure by the numbers alone says so.
func TestVerdictCountsItsNumericalError(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	count := samples.Of(8, 40, 300)
	coarse := diffusion.Settings{Resolution: 2.4, Tolerance: 0.2}
	r := rand.New(rand.NewPCG(7, 10))
	w := diffusion.NewMarch()
	refined := 0
	for i := range count {
		m := random(r, library)
		m.LimitStated = true
		first, err := w.Assess(m, coarse)
		require.NoError(t, err)
		off := first.NumericalError * (2*r.Float64() - 1)
		if m.Limit = first.Low + off; i%2 == 0 {
			m.Limit = first.High + off
		}
		if m.Limit < 1e-9 {
			continue
		}
		a, err := w.Assess(m, coarse)
		require.NoError(t, err)
		share := a.NumericalError / a.Nozzle.Mean
		if a.Verdict == diffusion.Dry {
			require.GreaterOrEqual(t, a.Probability-a.Density*share, 0.9)
		}
		if a.Verdict == diffusion.Wet {
			require.LessOrEqual(t, a.Probability+a.Density*share, 0.1)
		}
		if a.Settings != coarse {
			refined++
		}
		doubt := slices.ContainsFunc(a.Warnings, func(w diffusion.Warning) bool { return w.Concern == diffusion.NumericalDoubt })
		require.True(t, doubt || !a.NumericallyUnsure)
		require.False(t, a.NumericallyUnsure && a.Verdict != diffusion.Unsure && a.Verdict != diffusion.TooHot)
	}
	t.Logf("refined %d of %d", refined, count)
	require.Positive(t, refined)
}

// An error wider than its content: nearly all is gone, in few steps at a tolerance of a fifth. The limit lies between what they
// say and the truth, and the strand, which is dry, is not called wet.
func TestErrorWiderThanItsContent(t *testing.T) {
	m := transit(t, 0)
	m.Path = m.Path[:2]
	m.Path[1].Length *= 7
	m.Path[1].Air.VapourPressure = 0
	m.Material.Diffusivity.Scatter.Value = 1
	coarse := diffusion.Settings{Resolution: 2.4, Tolerance: 0.2}
	w := diffusion.NewMarch()
	mean, off, err := w.NumericalError(&m.Model, coarse)
	require.NoError(t, err)
	require.Greater(t, off, mean)
	exact, told, err := w.NumericalError(&m.Model, diffusion.Settings{Resolution: 20, Tolerance: 1e-7})
	require.NoError(t, err)
	require.Less(t, told, 0.1*exact)
	require.Less(t, exact, 0.5*mean)
	m.Limit = (mean + exact) / 2
	a, err := w.Assess(m, coarse)
	require.NoError(t, err)
	require.Equal(t, diffusion.Dry, a.Verdict)
	require.False(t, a.Swamped(m))
	a.NumericalError = 11 * max(a.Nozzle.Mean, m.Limit)
	require.True(t, a.Swamped(m))
	require.True(t, slices.ContainsFunc(a.Warnings, func(w diffusion.Warning) bool { return w.Concern == diffusion.NumericalDoubt }))
}
