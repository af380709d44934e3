package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
)

func TestTry(t *testing.T) {
	r, err := radial.NewGrid(1, 15, 3)
	require.NoError(t, err)
	for _, s := range []float64{0.05, 0.25, 0.5, 0.75, 0.9, 0.99, 0.9999, 1} {
		for _, angles := range []int{3, 4, 5, 6, 7, 9, 12} {
			g, err := NewGrid(r, Shape{s, 1}, angles)
			require.NoError(t, err)
			var m March
			m.Start(g, 1)
			p := radial.Problem{Conductance: radial.Uniform(1), Potential: radial.Linear{}, Surface: radial.Exchange(func(_, c, _ float64) (a, b, d float64) { return 1e7 * c, 1e7, 0 })}
			before := 0.0
			out := []float64{}
			for _, fo := range []float64{0.01, 0.03, 0.0917, 0.334, 1} {
				require.NoError(t, m.Advance(p, fo-before, rosenbrock.Settings{Tolerance: 1e-7}))
				before = fo
				out = append(out, math.Round(g.Mean(m.C)*1e5)/1e5)
			}
			t.Log(s, angles, g.exposed, out, m.Stats, g.Content(m.C)+m.Lost-0.5)
		}
	}
}

func BenchmarkMarch(b *testing.B) {
	r, _ := radial.NewGrid(1, 15, 3)
	for _, angles := range []int{4, 5, 6, 7, 9} {
		b.Run(string(rune('0'+angles)), func(b *testing.B) {
			g, _ := NewGrid(r, Shape{0.5, 1}, angles)
			var m March
			p := radial.Problem{Conductance: radial.Uniform(math.Exp(-1.5)), Potential: radial.Exponential(3), Surface: radial.Exchange(func(_, c, _ float64) (a, b, d float64) { return 100 * c, 100, 0 })}
			for b.Loop() {
				m.Start(g, 1)
				m.Advance(p, 0.33, rosenbrock.Settings{Tolerance: 1e-3})
			}
			b.ReportMetric(float64(m.Stats.Steps), "steps")
			b.ReportMetric(float64(m.Stats.Rejected), "rejected")
		})
	}
}

func BenchmarkNewGrid(b *testing.B) {
	r, _ := radial.NewGrid(1, 15, 3)
	for b.Loop() {
		NewGrid(r, Shape{0.5, 1}, 6)
	}
}
