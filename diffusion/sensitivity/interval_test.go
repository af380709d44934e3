package sensitivity

import (
	"math"
	"math/rand/v2"
	"testing"
)

// What is added to a sample is one function, at each of its points, and as large as is asked on average.
func TestWith(t *testing.T) {
	const unknowns, off = 3, 0.3
	s := newSample(Function{Unknowns: unknowns, At: func(z []float64) float64 { return z[0] }}, 5)
	square := 0.0
	const functions = 40
	for seed := range uint64(functions) {
		w := newWaves(unknowns, rand.New(rand.NewPCG(seed, 0)))
		at := func(z []float64) float64 {
			sum := z[0]
			for _, one := range w {
				phase := one.phase
				for i, x := range z {
					phase += one.number[i] * x
				}
				sum += off * math.Sqrt(2/float64(len(w))) * math.Cos(phase)
			}
			return sum
		}
		out := s.with(w, off)
		for k := range 20 {
			closeTo(t, at(s.a[k]), out.fa[k], 1e-12, "A")
			closeTo(t, at(s.b[k]), out.fb[k], 1e-12, "B")
			for i := range unknowns {
				z := append([]float64(nil), s.a[k]...)
				z[i] = s.b[k][i]
				closeTo(t, at(z), out.fab[i][k], 1e-12, "AB")
			}
		}
		for k := range s.fa {
			square += (out.fa[k] - s.fa[k]) * (out.fa[k] - s.fa[k]) / functions / float64(len(s.fa))
		}
	}
	closeTo(t, off, math.Sqrt(square), 0.15*off, "root mean square")
}
