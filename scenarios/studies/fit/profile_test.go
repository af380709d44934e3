package fit_test

import (
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/estimation"
	"strandry/diffusion/samples"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// Intervals by an independent march and lmfit 1.1.0 (F test of the profile, 90 %), see the README beside the weighings: both ends within a tenth of the width. Where errors
// are normal and the model hardly bends, those of the draws are the same.
func TestProfile(t *testing.T) {
	for _, c := range samples.Each(2, []struct {
		file            string
		low, high, best float64 // ln D
		dry, wet        float64 // ends of the content at the start
	}{
		{"copolyester", -25.261983, -24.938742, -25.093723, 0.0029218193, 0.0031644705},
		{"nylon-80", -26.317323, -26.231238, -26.274022, 0.0295777241, 0.0302798661},
		{"nylon-70", -26.926169, -26.839567, -26.882404, 0.0248534851, 0.0253716975},
	}) {
		w, err := scenarios.OpenWeighings(filepath.Join("..", "..", "..", "testdata", "weighings", "profile", c.file+".toml"))
		require.NoError(t, err)
		o := found(t, w, fit.Options{Effort: estimation.Effort{Seed: 1, Effective: 300, Most: 40_000}})
		d, s := o.Diffusivity, o.Runs[0].Start
		for _, end := range [][3]float64{{math.Log(d.Low), c.low, c.high - c.low}, {math.Log(d.High), c.high, c.high - c.low}, {math.Log(d.Value), c.best, c.high - c.low},
			{s.Low, c.dry, c.wet - c.dry}, {s.High, c.wet, c.wet - c.dry}} {
			t.Logf("%s: %.5g, off by %.3f of the width", c.file, end[0], (end[0]-end[1])/end[2])
			require.LessOrEqual(t, math.Abs(end[0]-end[1]), 0.1*end[2])
			require.False(t, math.IsNaN(end[0]))
		}
	}
}
