package diffusion_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials"
)

// What is called dry or wet at any likely diffusivity is so on a grid many times as fine, be the limit as near to the driest
// or the wettest content as their numerical errors at coarse settings; and what is left unsure by the numbers alone says so.
// 60 random models, or 300 with STRANDRY_RANDOM=long.
func TestVerdictCountsItsNumericalError(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	count := 20
	if os.Getenv("STRANDRY_RANDOM") == "long" {
		count = 300
	}
	coarse := diffusion.Settings{Resolution: 2.4, Tolerance: 0.1}
	fine := diffusion.Settings{Resolution: 30, Tolerance: 1e-7}
	r := rand.New(rand.NewPCG(7, 10))
	w := diffusion.NewMarch()
	decided, refined := 0, 0
	for i := range count {
		m := random(r, library)
		first, err := w.Assess(m, coarse)
		require.NoError(t, err)
		low, high := spanOf(t, w, m, fine)
		off := first.NumericalError * (2*r.Float64() - 1)
		if m.Limit = first.Low + off; i%2 == 0 {
			m.Limit = first.High + off
		}
		if m.Limit < 1e-9 {
			continue
		}
		a, err := w.Assess(m, coarse)
		require.NoError(t, err)
		switch a.Verdict {
		case diffusion.Wet:
			require.Greater(t, low, m.Limit, "%d", i)
			decided++
		case diffusion.Dry:
			require.LessOrEqual(t, high, m.Limit, "%d", i)
			decided++
		}
		if a.Settings != coarse {
			refined++
		}
		doubt := slices.ContainsFunc(a.Warnings, func(w diffusion.Warning) bool { return w.Concern == diffusion.NumericalDoubt })
		require.True(t, doubt || !a.Numbers)
		require.False(t, a.Numbers && a.Verdict != diffusion.Unsure && a.Verdict != diffusion.TooHot)
	}
	t.Logf("decided %d of %d, refined %d", decided, count, refined)
	require.Greater(t, decided, count/5)
	require.Greater(t, refined, count/5)
}

// spanOf is the driest and the wettest content of a model, on other settings.
func spanOf(t *testing.T, w *diffusion.March, m *diffusion.Model, s diffusion.Settings) (low, high float64) {
	t.Helper()
	var span diffusion.Span
	var result diffusion.Result
	for _, power := range [...]float64{0, 1, -1} {
		varied := m.Scattered(power)
		require.NoError(t, w.Run(&varied, s, &result))
		span.Add(power, &varied, &result)
	}
	low, high, err := span.Ends(w, m, s)
	require.NoError(t, err)
	return low, high
}

// An error wider than its content: nearly all is gone, in few steps at a tolerance of a tenth. The limit lies between what they
// say and the truth, and the strand, which is dry, is not called wet.
func TestErrorWiderThanItsContent(t *testing.T) {
	m := transit(t, 0)
	m.Path = m.Path[:2]
	m.Path[1].Length *= 6
	m.Path[1].Air.VapourPressure = 0
	m.Material.Diffusivity.Scatter.Value = 1
	coarse := diffusion.Settings{Resolution: 2.4, Tolerance: 0.1}
	w := diffusion.NewMarch()
	mean, off, err := w.NumericalError(m, coarse)
	require.NoError(t, err)
	require.Greater(t, off, mean)
	exact, told, err := w.NumericalError(m, diffusion.Settings{Resolution: 20, Tolerance: 1e-7})
	require.NoError(t, err)
	require.Less(t, told, 0.1*exact)
	require.Less(t, exact, 0.5*mean)
	m.Limit = (mean + exact) / 2
	a, err := w.Assess(m, coarse)
	require.NoError(t, err)
	require.Equal(t, diffusion.Dry, a.Verdict)
	require.Greater(t, a.Settings.Resolution, coarse.Resolution)
}
