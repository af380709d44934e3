package sensitivity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// tenToNinety is the range of a standard normal unknown from its 10 to its 90 % point (tables of the normal distribution: 2 times 1.28155).
const tenToNinety = 2.5631

// Of a sum of normal unknowns the width that is left is that of the root of the squares that are left.
func TestWidthOfASum(t *testing.T) {
	f := Function{Unknowns: 4, At: func(z []float64) float64 { return 2*z[0] - 4*z[1] + z[2] + 0.2*z[3] }}
	for _, c := range []struct {
		known []int
		left  float64
	}{{[]int{0}, 17.04}, {[]int{1}, 5.04}, {[]int{1, 0}, 1.04}, {[]int{3}, 21}, {[]int{2, 1, 0}, 0.04}, {[]int{0, 1, 2, 3}, 0}} {
		want := math.Sqrt(c.left / 21.04)
		closeTo(t, want, Left(f, c.known...), 0.015, "left")
	}
	whole := tenToNinety * math.Sqrt(21.04)
	closeTo(t, whole, Spread(f).Width(), 0.015*whole, "width")
	closeTo(t, 0, (Spread(f).Low+Spread(f).High)/2, 0.015*whole, "middle")
	steps := Order(f, 0.1)
	require.Len(t, steps, 3)
	for i, want := range []Step{{1, math.Sqrt(5.04 / 21.04)}, {0, math.Sqrt(1.04 / 21.04)}, {2, math.Sqrt(0.04 / 21.04)}} {
		require.Equal(t, want.Unknown, steps[i].Unknown)
		closeTo(t, want.Left, steps[i].Left, 0.01, "left")
	}
}

// What is left is a mean over where the truth may lie: of z_0 (1 + z_1) with z_0 unknown the width is 2.5631 |1 + z_1|, whose mean over a normal z_1 is
// sqrt(2/pi) exp(-1/2) + erf(1/sqrt 2) (mean of a folded normal, Leone et al., Technometrics 3:543-550 (1961)).
func TestWidthIsAMean(t *testing.T) {
	f := Function{Unknowns: 2, At: func(z []float64) float64 { return z[0] * (1 + z[1]) }}
	want := math.Sqrt(2/math.Pi)*math.Exp(-0.5) + math.Erf(math.Sqrt(0.5))
	want *= tenToNinety
	closeTo(t, want, Left(f, 1)*Spread(f).Width(), 0.02*want, "left")
}

// All are made known where nothing less is enough, and the last leaves nothing.
func TestOrderToTheEnd(t *testing.T) {
	f := Function{Unknowns: 2, At: func(z []float64) float64 { return z[0] + 2*z[1] }}
	steps := Order(f, 0)
	require.Len(t, steps, 2)
	require.Equal(t, Step{0, 0}, steps[1])
}
