package diffusion_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// No content lies below zero and no more than all water leaves, whatever way a strand is dried: what the numbers leave
// below zero is cut off once, and is no more than the error that is told.
func TestNothingBelowZero(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(3, 6))
	w := diffusion.NewMarch()
	none := func(s diffusion.State) {
		require.GreaterOrEqual(t, min(s.Mean, s.Centre, s.Skin), 0.0)
	}
	sound := func(result *diffusion.Result) {
		none(result.Start)
		none(result.Nozzle)
		for _, z := range result.Zones {
			none(z.Exit)
			require.GreaterOrEqual(t, z.Behind, 0.0)
		}
		for _, x := range result.Profile {
			require.GreaterOrEqual(t, x, 0.0)
		}
		require.LessOrEqual(t, result.Removed, 1.0)
	}
	for i := range samples.Of(80, 200, 4000) {
		m := random(r, library)
		for k := range m.Path {
			z := &m.Path[k]
			z.Air.VapourPressure = 0
			if r.IntN(4) == 0 {
				z.Film.Heat, z.Film.Mass = 1000, 1
			}
			if r.IntN(4) == 0 {
				z.Length *= 100
			}
			z.Contact.Moves = r.IntN(20) > 0
		}
		var result diffusion.Result
		require.NoError(t, w.Run(&m.Model, diffusion.DefaultSettings(), &result))
		sound(&result)
		require.NoError(t, w.RunLengths(&m.Model, 0, []float64{m.Path[0].Length / 2, m.Path[0].Length}, diffusion.CoarseSettings(), func(_ int, r *diffusion.Result) error {
			sound(r)
			return nil
		}))
		if i%4 > 0 {
			continue
		}
		trace, err := w.Trace(&m.Model, diffusion.DefaultSettings())
		require.NoError(t, err)
		for _, p := range trace.Points {
			none(p.State)
		}
	}
}
