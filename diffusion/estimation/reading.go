package estimation

import (
	"math"
)

// Reading is what an instrument showed.
type Reading struct {
	Value      float64
	Resolution float64 // the step to which the display rounds, in the unit of Value; 0 for none
}

// logProbability is the logarithm of the probability of the reading, or of its density where nothing is rounded, for a true value and a noise above zero.
func (r Reading) logProbability(truth, noise float64) float64 {
	off := (r.Value - truth) / noise
	half := r.Resolution / 2 / noise
	if half < leastHalf {
		density := -off*off/2 - math.Log(noise) - logRoot2Pi
		if r.Resolution > 0 {
			return density + math.Log(r.Resolution)
		}
		return density
	}
	off = math.Abs(off)
	return logBetween(off-half, off+half)
}

// leastHalf is half a step in deviations below which a density times the step is the probability, to one part in 10⁷.
const leastHalf = 1e-3

// logRoot2Pi is ln √(2π).
const logRoot2Pi = 0.91893853320467274178

// logBetween is the logarithm of Φ(b) - Φ(a) for a < b and b > 0.
func logBetween(a, b float64) float64 {
	const far = 25 // where the tail is known by its first terms to one part in a thousand, and nothing hangs on more
	switch {
	case a > far:
		return -a*a/2 - math.Log(a) - logRoot2Pi + math.Log1p(-math.Exp((a-b)*(a+b)/2)*a/b)
	case a > 0:
		return math.Log((math.Erfc(a/math.Sqrt2) - math.Erfc(b/math.Sqrt2)) / 2)
	}
	return math.Log((math.Erf(b/math.Sqrt2) - math.Erf(a/math.Sqrt2)) / 2)
}
