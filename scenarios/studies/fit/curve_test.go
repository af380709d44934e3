package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
)

// Between the marches of a curve the content is off by some 10⁻⁴ of the water that leaves.
func TestCurveBetweenItsNodes(t *testing.T) {
	text := "[strand]\nmaterial = \"pa6\"\n[scale]\nresolution = \"0.01 g\"\n[[run]]\nfile = \"a.csv\"\ntemperature = \"80 °C\"\nair = { dew_point = \"-10 °C\" }\n"
	table := "time [h],mass [g]\n0,20.6\n0.5,20.5\n2,20.4\n8,20.2\n24,20.1\n48,20.0\n"
	w, err := scenarios.ReadWeighings("w.toml", []byte(text), func(string) ([]byte, error) { return []byte(table), nil })
	require.NoError(t, err)
	run := &w.Runs[0]
	c := newCurve(w, run, Known{Beta: scenarios.Fitted})
	middle := math.Log(w.Model.Material.Diffusivity.Dry(run.Zone.Air.Temperature))
	worst := 0.0
	for _, at := range [][3]float64{{middle + 0.11, 0.0291, 24}, {middle - 1.73, 0.0253, 29.3}, {middle + 1.29, 0.0307, 18.1}} {
		exact := newCurve(w, run, Known{})
		exact.lattice = [3]axis{{origin: at[0]}, {origin: at[1]}, {origin: at[2]}}
		want, err := exact.at(at)
		require.NoError(t, err)
		got, err := c.at(at)
		require.NoError(t, err)
		require.Len(t, got, len(want))
		for k := range want {
			require.False(t, math.IsNaN(got[k]))
			worst = math.Max(worst, math.Abs(got[k]-want[k])/(at[1]-equilibrium(w, run)))
		}
	}
	t.Logf("off by %.2g of the water that leaves", worst)
	require.Less(t, worst, 2e-4)
	require.Positive(t, worst) // it was between nodes
}
