package sensitivity

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
	"strandry/diffusion/surrogate"
)

// fitted is a surrogate of a function from some seventy of its values, at points that a seed chooses.
func fitted(t *testing.T, f Function, seed uint64) Function {
	t.Helper()
	value := func(points [][]float64) []float64 {
		values := make([]float64, len(points))
		for i, p := range points {
			values[i] = f.At(p)
		}
		return values
	}
	n := f.Unknowns
	points := slices.Concat(surrogate.Points(n)[:1+2*n], surrogate.Draws(36, n, seed))
	values := value(points)
	line := surrogate.Line(n, values)
	s, err := surrogate.Fit(nil, points, values, line, value(line))
	require.NoError(t, err)
	out := Function{Unknowns: n, At: s.At}
	out.Off = max(s.Error, off(f, out, surrogate.Draws(tries, n, seed+1)))
	return out
}

// tries are the fresh draws at which a surrogate is held against its function.
const tries = 32

// product is one of many functions: the product of 1 + a_i e_i(z_i), where e is an exponential brought to mean zero and variance one. Its
// variances are a_i² and their products (Saltelli & Sobol (1995), as for any product of functions of one unknown).
func product(source *rand.Rand) known {
	const unknowns = 4
	k := known{variance: 1}
	var a, b [unknowns]float64
	for i := range a {
		a[i] = 0.05 * math.Pow(10, source.Float64())
		b[i] = (0.1 + 0.6*source.Float64()) * math.Copysign(1, source.Float64()-0.5)
		k.variance *= 1 + a[i]*a[i]
	}
	k.variance--
	for _, x := range a {
		k.first = append(k.first, x*x/k.variance)
		k.total = append(k.total, x*x*(k.variance+1)/(1+x*x)/k.variance)
	}
	k.function = Function{Unknowns: unknowns, At: func(z []float64) float64 {
		value := 1.0
		for i := range a {
			square := b[i] * b[i]
			value *= 1 + a[i]*(math.Exp(b[i]*z[i])-math.Exp(square/2))/math.Sqrt(math.Exp(2*square)-math.Exp(square))
		}
		return value
	}}
	return k
}

// Of 200 functions, each known at its own fifty points, nine in ten of the intervals and more hold the index, of the first kind and of the second, and
// of those that matter as of those that do not.
func TestCoverageOfSurrogates(t *testing.T) {
	source := rand.New(rand.NewPCG(11, 0))
	var all [2][2]tally // kind, small
	var ratios []float64
	for seed := range uint64(samples.Of(16, 50, 200)) {
		k := product(source)
		f := fitted(t, k.function, 1000+seed)
		ratios = append(ratios, off(k.function, f, surrogate.Draws(samples.Of(256, 2048, 2048), f.Unknowns, 99))/f.Off)
		got := sobol(f, seed)
		for i := range k.first {
			all[0][small(k.first[i])].add(got.First[i], k.first[i])
			all[1][small(k.total[i])].add(got.Total[i], k.total[i])
		}
	}
	for kind := range all {
		for size, a := range all[kind] {
			t.Logf("kind %d, small %d: %s", kind+1, size, a)
			require.GreaterOrEqual(t, a.held/a.all, 0.9)
			require.Less(t, a.width/a.all, 0.1, "an interval that says nothing holds everything")
		}
	}
	slices.Sort(ratios)
	middle := ratios[len(ratios)/2]
	t.Logf("off over all draws, over what it was off where it was tried: %.2f, at most %.2f", middle, ratios[len(ratios)-1])
	require.Less(t, middle, 1.5, "what the intervals allow for")
}

func small(index float64) int {
	if index < 0.1 {
		return 1
	}
	return 0
}

// off is the root mean square of the difference of two functions at some points.
func off(f, g Function, points [][]float64) float64 {
	sum := 0.0
	for _, z := range points {
		d := f.At(z) - g.At(z)
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(points)))
}

// Ishigami's function is none that a surrogate of degree two can fit. The intervals then are wide, and hold the indices.
func TestBadSurrogate(t *testing.T) {
	k := analytic()[0]
	var all tally
	for seed := range uint64(samples.Of(2, 8, 80)) {
		f := fitted(t, k.function, 1000+seed)
		require.Greater(t, f.Off*f.Off, 0.2*k.variance)
		got := sobol(f, seed)
		for i := range k.first {
			all.add(got.First[i], k.first[i])
			all.add(got.Total[i], k.total[i])
		}
	}
	t.Log(all)
	require.GreaterOrEqual(t, all.held/all.all, 0.8)
	require.Greater(t, all.width/all.all, 0.3)
}
