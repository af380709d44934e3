package scenarios_test

import (
	"testing"

	"strandry/diffusion"
	"strandry/scenarios"
)

// BenchmarkDemo times one march of each demonstration at the settings that a sweep takes.
func BenchmarkDemo(b *testing.B) {
	for _, name := range scenarios.Demos() {
		b.Run(name, func(b *testing.B) {
			s, err := scenarios.Demo(name)
			if err != nil {
				b.Fatal(err)
			}
			w := diffusion.NewMarch()
			var r diffusion.Result
			b.ReportAllocs()
			for b.Loop() {
				if err := w.Run(&s.Model, diffusion.CoarseSettings(), &r); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(r.Steps), "steps")
		})
	}
}
