package section_test

import (
	"fmt"
	"math"
	"testing"

	"strandry/diffusion/radial"
	"strandry/diffusion/section"
)

// One zone: a uniform start, half of the perimeter exposed, a diffusivity that grows twentyfold with content.
func BenchmarkZone(b *testing.B) {
	for _, angles := range []int{section.CoarseAngles, section.UsualAngles, section.RefinedAngles} {
		b.Run(fmt.Sprint("angles=", angles), func(b *testing.B) {
			m := started(newGrid(b, 0.5, 1, angles), 1)
			p := radial.Problem{Conductance: radial.Uniform(math.Exp(-1.5)), Potential: radial.Exponential(3), Surface: film(100, 0)}
			b.ReportAllocs()
			for b.Loop() {
				m.Start(m.Grid, 1)
				through(b, m, p, 0.33, usual)
			}
			b.ReportMetric(float64(m.Stats.Steps), "steps")
		})
	}
}

func BenchmarkNewGrid(b *testing.B) {
	r := along(b, 15, 3)
	for _, angles := range []int{section.CoarseAngles, section.UsualAngles, section.RefinedAngles} {
		b.Run(fmt.Sprint("angles=", angles), func(b *testing.B) {
			for b.Loop() {
				crossed(b, r, 0.5, 1, angles)
			}
		})
	}
}
