package scenarios_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// A zone in several pieces is the same zone: each demonstration, cut into any number of pieces, gives its answer within
// the numerical errors that are told. Its air is without limit here, since a flow of its own
// for each piece would be more air.
func TestPiecesOfAZoneAreTheZone(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	for _, name := range samples.Each(2, scenarios.Demos()) {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		whole := unlimited(s.Design)
		w := diffusion.NewMarch()
		want, err := w.Assess(&whole, s.Settings)
		require.NoError(t, err)
		for _, pieces := range samples.Each(3, []int{2, 3, 8, 17}) {
			cut := whole
			cut.Path = nil
			for _, z := range whole.Path {
				for i := range pieces {
					part := z
					part.Name, part.Length = fmt.Sprintf("%s, part %d", z.Name, i+1), z.Length/float64(pieces)
					cut.Path = append(cut.Path, part)
				}
			}
			got, err := w.Assess(&cut, s.Settings)
			require.NoError(t, err)
			require.InDelta(t, want.Nozzle.Mean, got.Nozzle.Mean, want.NumericalError+got.NumericalError, "%s in %d pieces", name, pieces)
			// What the odds estimate beforehand goes by the zones as they are cut; they themselves are good to some per cent.
			require.InEpsilon(t, want.Low, got.Low, 5e-3, "%s in %d pieces", name, pieces)
			require.InEpsilon(t, want.High, got.High, 5e-3, "%s in %d pieces", name, pieces)
			t.Logf("%s in %d: %.6e against %.6e, told %.0e and %.0e", name, pieces, got.Nozzle.Mean, want.Nozzle.Mean, got.NumericalError, want.NumericalError)
			require.InDelta(t, want.Nozzle.Temperature, got.Nozzle.Temperature, 0.02, "%s in %d pieces", name, pieces)
		}
	}
}

// unlimited is the model with air that the strand cannot change.
func unlimited(m diffusion.Design) diffusion.Design {
	m.Path = append([]diffusion.Zone(nil), m.Path...)
	for i := range m.Path {
		m.Path[i].Air = m.Path[i].Air.WithoutLimit()
		m.Path[i].Air.Direction = diffusion.Mixed
	}
	return m
}
