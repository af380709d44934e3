package diffusion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
)

// The content does not depend on the limit that it is held against, to the bit, nor where next to nothing is left of it.
func TestLimitDoesNotTouchTheContent(t *testing.T) {
	for _, beta := range []float64{0, 20} {
		for _, length := range []float64{12, 80} {
			m := transit(t, beta)
			m.Path[1].Length = length
			m.Path[1].Air.VapourPressure = 0
			m.Path = m.Path[:2]
			want := run(t, m)
			require.Equal(t, length > 12, want.Nozzle.Mean < 1e-5)
			for _, limit := range []float64{1e-6, 1e-4, 0.05, 1} {
				m.Limit = limit
				got := run(t, m)
				require.Equal(t, want.Nozzle, got.Nozzle, "limit %g", limit)
				require.Equal(t, want.Steps, got.Steps)
			}
		}
	}
}

// A model that leaves out what it cannot do without is refused by all that march, not answered with its start.
func TestWhatIsNotSoundIsRefused(t *testing.T) {
	m := transit(t, 0)
	m.Material.Diffusivity.ReferenceValue.Value = 0
	w, s := diffusion.NewMarch(), diffusion.DefaultSettings()
	var r diffusion.Result
	require.ErrorContains(t, w.Run(&m.Model, s, &r), "diffusivity at the reference [m²/s] = 0")
	_, err := w.Assess(m, s)
	require.ErrorContains(t, err, "diffusivity at the reference")
	_, err = w.Trace(&m.Model, s)
	require.ErrorContains(t, err, "diffusivity at the reference")
	err = w.RunLengths(&m.Model, 1, []float64{1, 2}, s, func(int, *diffusion.Result) error { return nil })
	require.ErrorContains(t, err, "diffusivity at the reference")
}

// A growth of the diffusivity too small to count is none: the march neither stalls nor moves.
func TestSmallGrowthIsNone(t *testing.T) {
	want := run(t, transit(t, 0))
	for _, beta := range []float64{1e-9, -1e-10, 1e-12, 1e-14, -1e-17, 1e-100, 1e-250, 5e-324} {
		got := run(t, transit(t, beta))
		require.InEpsilon(t, want.Nozzle.Mean, got.Nozzle.Mean, 1e-9+2*math.Abs(beta), "beta %g", beta)
		require.InDelta(t, want.Steps, got.Steps, 1, "beta %g", beta)
	}
}

// The steps told are those of the march that is answered with, not those of the search for the air: with
// air beyond measure both directions march alike.
func TestStepsOfTheSearchAreNotCounted(t *testing.T) {
	for _, direction := range []diffusion.Direction{diffusion.Against, diffusion.Mixed} {
		m := transit(t, 20)
		want := run(t, m).Steps
		m.Path[1].Air.DryFlow, m.Path[1].Air.Direction = 10, direction
		require.InDelta(t, want, run(t, m).Steps, 2, direction.String())
	}
}
