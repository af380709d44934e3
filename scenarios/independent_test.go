package scenarios_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// The answer of every demonstration does not hang on the grid: four times as fine in
// space and ten thousand times in the error of a step, it moves by less than its
// printed numerical error.
func TestDemosDoNotHangOnTheGrid(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	w := diffusion.NewMarch()
	for _, name := range samples.Each(2, scenarios.Demos()) {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		a, err := w.Assess(&s.Design, s.Settings)
		require.NoError(t, err)
		fine := s.Settings
		fine.Resolution *= 4
		fine.Tolerance /= 1e4
		var r diffusion.Result
		require.NoError(t, w.Run(&s.Model, fine, &r))
		require.False(t, math.IsNaN(r.Nozzle.Mean))
		require.InDelta(t, r.Nozzle.Mean, a.Nozzle.Mean, a.NumericalError, name)
		require.Less(t, a.NumericalError, 2e-3*a.Nozzle.Mean, name)
		t.Logf("%s: %.3e, printed error %.1e, true %.1e", name, a.Nozzle.Mean, a.NumericalError, math.Abs(r.Nozzle.Mean-a.Nozzle.Mean))
	}
}
