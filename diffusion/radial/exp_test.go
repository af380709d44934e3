package radial

import (
	"math"
	"testing"
)

func TestX(t *testing.T) {
	w := 0.0
	for x := -699.0; x < 699; x += 0.01237 {
		var g, s [1]float64
		Exponential(1).Potential([]float64{x}, g[:], s[:])
		w = max(w, math.Abs(s[0]/math.Exp(x)-1))
	}
	t.Log(w)
}
