package field

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// bulge is how far a curve may pass beyond two equal neighbours: an image and its mirror image, with the true extreme between them.
const bulge = 0.05

// Smooth is a cubic through points at rising places: the slopes of parabolas through three of them, held so that nothing passes
// beyond its neighbours (Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238) but for the bulge.
func Smooth(x, y, at []float64) []float64 {
	last := len(x) - 1
	rise := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	slopes := make([]float64, len(x))
	slopes[0], slopes[last] = rise(0), rise(last-1)
	for i := 1; i < last; i++ {
		before, after := rise(i-1), rise(i)
		near, far := x[i]-x[i-1], x[i+1]-x[i]
		most := 0.0
		switch {
		case before*after > 0:
			most = 3 * math.Min(math.Abs(before), math.Abs(after))
		case before == 0:
			most = 4 * bulge / near
		case after == 0:
			most = 4 * bulge / far
		}
		slopes[i] = math.Max(-most, math.Min(most, (before*far+after*near)/(near+far)))
	}
	var cubic interp.PiecewiseCubic
	cubic.FitWithDerivatives(x, y, slopes)
	out := make([]float64, len(at))
	for i, v := range at {
		out[i] = cubic.Predict(v)
	}
	return out
}
