package surrogate

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// fitted is a surrogate of a function, with the points it was asked at.
func fitted(t *testing.T, unknowns int, f func(z []float64) float64) *Surrogate {
	t.Helper()
	at := func(points [][]float64) []float64 {
		values := make([]float64, len(points))
		for i, p := range points {
			values[i] = f(p)
		}
		return values
	}
	points := Points(unknowns)
	values := at(points)
	line := Line(unknowns, values)
	s, err := Fit(points, values, line, at(line))
	require.NoError(t, err)
	return s
}

// off is the root mean square of what a surrogate differs by at fresh normal points.
func off(s *Surrogate, unknowns int, f func(z []float64) float64) float64 {
	r := rand.New(rand.NewPCG(1, 2))
	sum := 0.0
	const count = 2000
	for range count {
		z := make([]float64, unknowns)
		for i := range z {
			z[i] = r.NormFloat64()
		}
		d := s.At(z) - f(z)
		sum += d * d
	}
	return math.Sqrt(sum / count)
}

// A plane is told exactly but for what the fit is held towards zero, and so is what does not change.
func TestPlane(t *testing.T) {
	f := func(z []float64) float64 { return 3 - 0.5*z[0] + 0.2*z[1] - 0.1*z[2] }
	s := fitted(t, 3, f)
	require.Less(t, off(s, 3, f), 1e-3)
	require.Less(t, s.Error, 1e-3)
	constant := func([]float64) float64 { return 7 }
	s = fitted(t, 3, constant)
	require.InDelta(t, 0, off(s, 3, constant), 1e-12)
	require.Empty(t, Line(3, make([]float64, len(Points(3)))))
}

// The logarithm of what is left of a cylinder after a Fourier number that is log-normal falls ever faster, by the first root of J0 squared, 5.783 (Crank,
// The Mathematics of Diffusion (1975), table 5.1): each unknown shifts it along one curve. A parabola alone would be off by far more.
func TestDryingCurve(t *testing.T) {
	f := func(z []float64) float64 {
		return math.Log(0.69) - 5.783*0.2*math.Exp(0.7*z[0]+0.4*z[1]+0.1*z[0]*z[1]/3)
	}
	s := fitted(t, 2, f)
	require.True(t, s.shift)
	require.Less(t, off(s, 2, f), 0.05)
	parabola := *s
	rows := make([]row, 0, 64)
	for _, p := range Points(2) {
		rows = append(rows, row{point: p, value: f(p), weight: 1})
	}
	terms, _ := least(rows)
	parabola.terms = terms
	require.Greater(t, rms(residuals(rows, terms)), 3*s.Error)
}

func residuals(rows []row, terms []float64) []float64 {
	var left []float64
	for _, r := range rows {
		left = append(left, r.value-dot(terms, monomials(r.point)))
	}
	return left
}

// Where the function turns on its line there is no shift to tell: the polynomial is added.
func TestValley(t *testing.T) {
	f := func(z []float64) float64 { return 0.3*z[0] + 0.25*z[0]*z[0] + 0.1*z[1] }
	s := fitted(t, 2, f)
	require.False(t, s.shift)
	require.Less(t, off(s, 2, f), 0.02)
}

// Leaving out each value in turn by the leverage is what fitting without it gives.
func TestLeaveOneOut(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	rows := make([]row, 30)
	for i := range rows {
		rows[i] = row{point: []float64{r.NormFloat64(), r.NormFloat64()}, value: r.NormFloat64(), weight: 1}
	}
	_, left := least(rows)
	for _, i := range []int{0, 7, 29} {
		without, _ := least(slices.Concat(rows[:i], rows[i+1:]))
		require.InEpsilon(t, rows[i].value-dot(without, monomials(rows[i].point)), left[i], 0.01)
	}
}

// What is told of the error is near the true one, for as many unknowns as a scenario may have.
func TestToldError(t *testing.T) {
	for _, unknowns := range []int{4, 7, 10} {
		f := func(z []float64) float64 {
			sum, rough := 0.0, 0.0
			for i, x := range z {
				sum += x / float64(i+1)
				rough += math.Sin(2*x + float64(i))
			}
			return -math.Exp(0.4*sum) + 0.05*rough
		}
		s := fitted(t, unknowns, f)
		actual := off(s, unknowns, f)
		t.Logf("%d unknowns: told %.3f, true %.3f", unknowns, s.Error, actual)
		require.Less(t, actual, 3*s.Error)
		require.Greater(t, actual, s.Error/4)
	}
}

// Values that are not known are done without, as long as there are enough; no centre is no surrogate.
func TestMissingValues(t *testing.T) {
	f := func(z []float64) float64 { return 1 - z[0] - 0.3*z[1] }
	points := Points(2)
	values := make([]float64, len(points))
	for i, p := range points {
		values[i] = f(p)
	}
	values[1], values[4], values[9] = math.NaN(), math.NaN(), math.NaN()
	line := Line(2, values)
	onLine := make([]float64, len(line))
	for i, p := range line {
		onLine[i] = f(p)
	}
	onLine[0] = math.NaN()
	s, err := Fit(points, values, line, onLine)
	require.NoError(t, err)
	require.Less(t, off(s, 2, f), 0.01)
	for i := range onLine {
		onLine[i] = math.NaN()
	}
	_, err = Fit(points, values, line, onLine)
	require.ErrorIs(t, err, ErrTooFew)
	values[0] = math.NaN()
	_, err = Fit(points, values, line, onLine)
	require.ErrorIs(t, err, ErrTooFew)
}

// The draws are standard normal: their mean, variance and the share below the 10 % point (Abramowitz & Stegun, table 26.1), and the same for a seed.
func TestDraws(t *testing.T) {
	draws := Draws(2048, 5, 1)
	require.Equal(t, draws, Draws(2048, 5, 1))
	require.NotEqual(t, draws, Draws(2048, 5, 2))
	for k := range 5 {
		mean, square, below := 0.0, 0.0, 0.0
		for _, z := range draws {
			mean += z[k] / 2048
			square += z[k] * z[k] / 2048
			if z[k] < -1.281552 {
				below += 1.0 / 2048
			}
		}
		require.InDelta(t, 0, mean, 0.01)
		require.InDelta(t, 1, square, 0.02)
		require.InDelta(t, 0.1, below, 0.005)
	}
	require.Len(t, Draws(3, 0, 1), 3)
	require.Len(t, Points(1), 3)
}

// Far outside the knots the curve goes on straight, and its inverse is its inverse.
func TestCurve(t *testing.T) {
	c, err := newCurve([]knot{{0, 0}, {1, -1}, {2, -4}, {-1, 0.5}})
	require.NoError(t, err)
	require.True(t, c.falls)
	require.InDelta(t, 0.5+0.5*2, c.at(-3), 1e-12)
	require.InDelta(t, -4-3*2, c.at(4), 1e-12)
	require.InDelta(t, -3, c.slope(4), 1e-12)
	require.InDelta(t, -0.5, c.slope(-3), 1e-12)
	for _, u := range []float64{-2, -0.5, 0.3, 1.7, 3} {
		require.InDelta(t, u, c.inverse(c.at(u)), 1e-9)
	}
}
