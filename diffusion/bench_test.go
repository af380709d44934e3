package diffusion_test

import (
	"fmt"
	"math"
	"testing"

	"strandry/diffusion"
)

// perMille are the loosest settings that keep the error of the standard transit well
// below 0.1 %; so they do in 95 of 100 random designs.
func perMille() diffusion.Settings {
	return diffusion.Settings{Resolution: 2.5, Tolerance: 3e-2, WithoutEvaporation: true}
}

// BenchmarkTransit times one march of the standard transit with an error of at most
// 0.1 % against the converged answer, and reports that error.
func BenchmarkTransit(b *testing.B) {
	for _, beta := range []float64{20, 0} {
		b.Run(fmt.Sprintf("beta=%g", beta), func(b *testing.B) {
			m, w := transit(b, beta), diffusion.NewMarch()
			settings := perMille()
			var r diffusion.Result
			if err := w.Run(&m.Model, settings, &r); err != nil {
				b.Fatal(err)
			}
			off := math.Abs(r.Nozzle.Mean/transitAnswer(beta) - 1)
			if !(off <= 1e-3) {
				b.Fatalf("error %.2g", off)
			}
			b.ReportAllocs()
			b.ResetTimer()
			for range b.N {
				if err := w.Run(&m.Model, settings, &r); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(off*1e3, "‰error")
			b.ReportMetric(float64(r.Steps), "steps")
		})
	}
}
