package figure

import (
	"math"

	"strandry/plots/canvas"
	"strandry/plots/field"
)

// each is a function of each of some values.
func each(x []float64, of func(v float64) float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = of(v)
	}
	return out
}

func hundredfold(v float64) float64 { return 100 * v }

// percents gives a linear scale from zero to a little above the contents [%].
func percents(contents ...[]float64) canvas.Scale {
	_, high := canvas.Bounds(contents...)
	return canvas.Scale{Max: max(high, 0) * 1.1}
}

// evenSteps are places between two others, close enough for a curve; one where they are the same.
func evenSteps(from, to float64) []float64 {
	if from == to {
		return []float64{from}
	}
	const steps = 120
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = from + (to-from)*float64(i)/steps
	}
	return out
}

// smoothByRatio goes smoothly through the logarithms of values at rising places.
func smoothByRatio(x, y []float64) (fine, values []float64) {
	fine = evenSteps(x[0], x[len(x)-1])
	return fine, each(field.Through(x, each(y, math.Log), fine), math.Exp)
}

// runs are the stretches of indices for which something holds, each from its first to behind its last.
func runs(n int, holds func(i int) bool) (all [][2]int) {
	for i := 0; i < n; i++ {
		from := i
		for i < n && holds(i) {
			i++
		}
		if i > from {
			all = append(all, [2]int{from, i})
		}
	}
	return all
}
