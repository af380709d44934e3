package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/scenarios"
)

// lain is a run of a material in air of a temperature, weighed evenly in the root of time.
func lain(t testing.TB, material string, celsius, hours float64, tables string) *scenarios.Weighings {
	text := fmt.Sprintf("[strand]\nmaterial = %q\n[scale]\nresolution = \"0.01 g\"\n[[run]]\nfile = \"a.csv\"\ntemperature = \"%g °C\"\nair = { dew_point = \"-10 °C\" }\n%s", material, celsius, tables)
	table := "time [h],mass [g]\n"
	const count = 16
	for i := range count {
		share := float64(i) / (count - 1)
		table += fmt.Sprintf("%.6f,%.4f\n", hours*share*share, 20.6-0.5*share)
	}
	w, err := scenarios.ReadWeighings("a.toml", []byte(text), func(string) ([]byte, error) { return []byte(table), nil })
	require.NoError(t, err)
	return w
}

// Between its nodes a curve keeps to direct marches at properties of any kind.
func TestCurve(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	worst, squares, count := 0.0, 0.0, 0
	for _, c := range []struct {
		material       string
		celsius, hours float64
		beta           scenarios.BetaChoice
	}{{"pa6", 80, 36, scenarios.Fixed}, {"pa6", 80, 36, scenarios.Fitted}, {"petg", 60, 8, scenarios.Fixed}} {
		w := lain(t, c.material, c.celsius, c.hours, "")
		run := &w.Runs[0]
		about := newCurve(w, run, Known{Beta: c.beta})
		law := &w.Model.Material.Diffusivity
		for range samples.Of(6, 20, 100) {
			at := properties{
				logDiffusivity: math.Log(law.Dry(run.Zone.Air.Temperature)) + 3*(2*r.Float64()-1),
				start:          (0.2 + r.Float64()) * wettest(w, run),
				beta:           law.Beta.Value,
			}
			if c.beta == scenarios.Fitted {
				at.beta *= 0.5 + r.Float64()
			}
			contents, err := about.at(at.all())
			require.NoError(t, err)
			direct := marched(t, w, run, at)
			water := math.Abs(at.start - equilibrium(w, run))
			for k, want := range direct {
				off := math.Abs(contents[about.of[k]]-want) / water
				require.False(t, math.IsNaN(off))
				worst, squares, count = math.Max(worst, off), squares+off*off, count+1
			}
		}
	}
	t.Logf("of the water that moves: %.2g at the worst, %.2g on the root mean square", worst, math.Sqrt(squares/float64(count)))
	require.Less(t, worst, 1e-4)
	require.Less(t, math.Sqrt(squares/float64(count)), 3e-5)
}

// marched is the content of a strand at the times of its weighings by a march of its own, as fine as run takes.
func marched(t testing.TB, w *scenarios.Weighings, run *scenarios.Run, at properties) (contents []float64) {
	m := w.Model
	m.Path = []diffusion.Zone{run.Zone}
	m.Start, m.StartActivity = at.start, 0
	law := &m.Material.Diffusivity
	law.ReferenceValue.Value *= math.Exp(at.logDiffusivity) / law.Dry(run.Zone.Air.Temperature)
	law.Beta.Value = at.beta
	var times []float64
	for _, p := range run.Points {
		times = append(times, math.Max(p.Time, shortest))
	}
	require.NoError(t, diffusion.NewMarch().RunLengths(&m, 0, times, diffusion.DefaultSettings(), func(_ int, res *diffusion.Result) error {
		contents = append(contents, res.Nozzle.Mean)
		return nil
	}))
	return contents
}

// At its nodes a curve is the march itself, and a march is made once.
func TestCurveAtNodes(t *testing.T) {
	w := lain(t, "pa6", 80, 36, "moisture = \"3 %\"\n")
	c := newCurve(w, &w.Runs[0], Known{})
	about := math.Log(w.Model.Material.Diffusivity.Dry(353.15))
	for range 2 {
		contents, err := c.at([3]float64{about + 2*finely, 0.03, w.Model.Material.Diffusivity.Beta.Value})
		require.NoError(t, err)
		node := c.nodes[[3]int{2, 0, 0}]
		for k, v := range node {
			require.InDelta(t, v, contents[k], 1e-12)
		}
		require.Equal(t, 4, c.marched())
	}
	require.InDelta(t, 0.03, c.nodes[[3]int{2, 0, 0}][0], 1e-4)
}

// The content at the start is never asked for below zero.
func TestStencil(t *testing.T) {
	a := axis{spacing: 0.01}
	for _, x := range []float64{0, 0.001, 0.0123, 0.5} {
		first, count, weights := a.stencil(x)
		require.GreaterOrEqual(t, first, 0)
		require.Equal(t, 4, count)
		for power := range 4 { // cubics are exact
			sum := 0.0
			for i, weight := range weights {
				sum += weight * math.Pow(0.01*float64(first+i), float64(power))
			}
			require.InDelta(t, math.Pow(x, float64(power)), sum, 1e-12)
		}
	}
	first, count, weights := axis{origin: 3}.stencil(3)
	require.Equal(t, [3]any{0, 1, [4]float64{1}}, [3]any{first, count, weights})
}
