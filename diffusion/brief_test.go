package diffusion_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
)

// The numerical error that a coarser march tells covers the true one too, of strands that are all round alike and of covered ones, whose radii and angles may be off
// in opposite directions; and as a rule it is no more than a few times that of a refined march.
func TestBriefErrorCoversTheTrueOne(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	library, err := materials.Library()
	require.NoError(t, err)
	for _, kind := range [...]struct {
		name    string
		covered bool
		count   int
		fine    diffusion.Settings
	}{
		{"all round alike", false, samples.Of(3, 45, 1000), diffusion.Settings{Resolution: 30, Tolerance: 1e-8}},
		{"covered", true, samples.Of(2, 10, 200), diffusion.Settings{Resolution: 20, Tolerance: 1e-6}},
	} {
		t.Run(kind.name, func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(331, 19))
			w := diffusion.NewMarch()
			told, wide := 0, 0
			for i := range kind.count {
				m := random(r, library)
				for k := range m.Path {
					m.Path[k].Contact.Moves = !kind.covered
				}
				for k := range m.Storage {
					m.Storage[k].Contact = diffusion.Contact{}
				}
				a, err := w.AssessBriefly(nil, m, diffusion.DefaultSettings())
				require.NoError(t, err)
				whole, err := w.Assess(m, diffusion.DefaultSettings())
				require.NoError(t, err)
				var exact diffusion.Result
				require.NoError(t, w.Run(&m.Model, kind.fine, &exact))
				require.InDelta(t, exact.Nozzle.Mean, a.Nozzle.Mean, a.NumericalError, "%d: %s", i, m.Material.ID)
				require.Equal(t, whole.Verdict, a.Verdict)
				if math.Abs(a.NumericalError-whole.NumericalError) > 1e-3*whole.NumericalError {
					told++
					require.LessOrEqual(t, a.NumericalError, diffusion.BriefError*a.Nozzle.Mean)
				}
				if a.NumericalError > 10*whole.NumericalError {
					wide++
				}
			}
			t.Logf("%d of %d told by a coarser march, %d ten times as wide or more", told, kind.count, wide)
			require.Positive(t, told)
			require.LessOrEqual(t, wide, 1+kind.count/10)
		})
	}
}

// Where a coarser march leaves the verdict in doubt, the refined one is asked.
func TestBriefErrorDecidesNothing(t *testing.T) {
	m := transit(t, 0)
	w := diffusion.NewMarch()
	first, err := w.AssessBriefly(nil, m, diffusion.DefaultSettings())
	require.NoError(t, err)
	m.LimitStated = true
	for _, off := range []float64{-0.9, -0.2, 0.2, 0.9} {
		m.Limit = first.High + off*first.NumericalError
		whole, err := w.Assess(m, diffusion.DefaultSettings())
		require.NoError(t, err)
		a, err := w.AssessBriefly(nil, m, diffusion.DefaultSettings())
		require.NoError(t, err)
		require.Equal(t, whole.Verdict, a.Verdict)
		require.Equal(t, whole.NumericallyUnsure, a.NumericallyUnsure)
	}
}
