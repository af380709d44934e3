package film

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A cubic spline with the slopes at its ends is a cubic where it is filled from one: nothing is missed half-way between its
// nodes, and where the function is of the fourth degree what a cubic Hermite piece misses, h⁴/16 × f⁗/24 (any text on
// interpolation), is.
func TestSplineOfACubic(t *testing.T) {
	const width, pieces = 3.0, 12
	fill := func(f, slope func(x float64) float64) *lattice {
		k := &lattice{ends: [2]float64{slope(0), slope(width)}}
		for i := range pieces + 1 {
			k.at = append(k.at, f(width*float64(i)/pieces))
		}
		for i := range pieces {
			k.middle = append(k.middle, f(width*(float64(i)+0.5)/pieces))
		}
		return k
	}
	k := fill(func(x float64) float64 { return 5 + x - 2*x*x + x*x*x }, func(x float64) float64 { return 1 - 4*x + 3*x*x })
	require.Less(t, k.missed(width), 1e-14)
	for i := range pieces {
		p, s := k.cubic(i), 0.3
		x := width * (float64(i) + s) / pieces
		require.InDelta(t, 5+x-2*x*x+x*x*x, p[0]+s*(p[1]+s*(p[2]+s*p[3])), 1e-13)
	}
	k = fill(func(x float64) float64 { return 1000 + math.Pow(x, 4) }, func(x float64) float64 { return 4 * math.Pow(x, 3) })
	require.InEpsilon(t, math.Pow(width/pieces, 4)/16/1000, k.missed(width), 0.35) // less or more by what the slopes are off
}
