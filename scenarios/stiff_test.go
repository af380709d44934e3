package scenarios_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
)

// A strand that all but fills the bore it is dried in is so closely tied to its air that the steps of the draws give no answer, at the medians or anywhere. They are
// taken in finer ones then: what the odds say lies about what the medians give.
func TestOddsWhereTheDrawsStall(t *testing.T) {
	s, err := scenarios.Read("stiff.toml", []byte(`
[strand]
material = "pva"
diameter = "1.231 mm"
moisture = "7.111 %"
[feed]
speed = "0.4915 mm/s"
[room]
temperature = "30 °C"
humidity = "48 %"
[[zone]]
name = "damp"
length = "7 m"
temperature = "96 °C"
bore = "8 mm"
contact = { share = "29 %", moves = true }
air.vapour_pressure = "3700 Pa"
[[zone]]
name = "narrow"
length = "28.34 m"
temperature = "106.3 °C"
bore = "1.263 mm"
air.vapour_pressure = "3.3 Pa"
[[zone]]
name = "wide"
length = "8 m"
temperature = "86 °C"
air.humidity = "10.6 %"
h = "55 W/m2/K"
k_m = "0.0007 m/s"
`))
	require.NoError(t, err)
	w := diffusion.NewMarch()
	var r diffusion.Result
	require.ErrorContains(t, w.Run(&s.Model, diffusion.DrawSettings(), &r), "stalled")
	a, err := w.Assess(&s.Design, diffusion.Settings{})
	require.NoError(t, err)
	require.Less(t, a.Low, 0.8*a.Nozzle.Mean)
	require.Greater(t, a.High, 1.25*a.Nozzle.Mean)
}
