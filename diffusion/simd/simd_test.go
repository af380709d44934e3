package simd

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// random are so many numbers of both signs over some orders of magnitude.
func random(r *rand.Rand, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = r.NormFloat64() * math.Exp(3*r.NormFloat64())
	}
	return out
}

// same holds two slices to be equal to the bit.
func same(t *testing.T, want, got []float64, what string, n int) {
	t.Helper()
	for i, w := range want {
		require.Equal(t, math.Float64bits(w), math.Float64bits(got[i]), "%s of %d, element %d: %g and %g", what, n, i, w, got[i])
	}
}

// both tells whether there are two ways to compare.
func both(t *testing.T) {
	if !four() {
		t.Skip("the processor takes one number at a time")
	}
}

// Four at a time and one after the other give the same to the bit, whatever the length.
func TestNodesAlike(t *testing.T) {
	both(t)
	r := rand.New(rand.NewPCG(1, 1))
	for n := 3; n < 40; n++ {
		y, k, g, v := random(r, n), random(r, n), random(r, n), random(r, n)
		u := [5][]float64{random(r, n), random(r, n), random(r, n), random(r, n), random(r, n)}
		a, c, d := [4]float64(random(r, 4)), [4]float64(random(r, 4)), [5]float64(random(r, 5))
		stage, sum, stageOne, sumOne := random(r, n), random(r, n), make([]float64, n), make([]float64, n)
		Combine(stage, sum, y, u[0], u[1], u[2], u[3], &a, &c)
		combineOne(stageOne, sumOne, y, u[0], u[1], u[2], u[3], &a, &c)
		same(t, stageOne, stage, "stage", n)
		same(t, sumOne, sum, "sum", n)
		CombineLast(stage, sum, u[0], u[1], u[2], u[3], u[4], &d)
		combineLastOne(stageOne, sumOne, u[0], u[1], u[2], u[3], u[4], &d)
		same(t, stageOne, stage, "last stage", n)
		same(t, sumOne, sum, "last sum", n)
		Gather(stage, k, g, v, u[0], u[1], u[2])
		gatherOne(stageOne, k, g, v, u[0], u[1], u[2])
		same(t, stageOne, stage, "gathered", n)
		law := Law{At: 350, From: 250, To: 500, Steepness: 20, Factor: math.Abs(y[0])}
		excess := make([]float64, n)
		for i := range excess {
			excess[i] = 90 * (2*r.Float64() - 1)
		}
		require.True(t, law.Activated(stage, excess))
		require.True(t, law.activatedOne(stageOne, excess))
		same(t, stageOne, stage, "activated", n)
		copy(stageOne, stage)
		AddScaled(stage, y, -0.7)
		addScaledOne(stageOne, y, -0.7)
		same(t, stageOne, stage, "added", n)
		errors, field := Close(stage, y, sum)
		whole := n &^ 3
		errorsOne, fieldOne := closeOne(stageOne, y[:whole], sum)
		errorsOne, fieldOne = closeRest(stageOne[whole:], y[whole:], sum[whole:], errorsOne, fieldOne)
		same(t, stageOne, stage, "closed", n)
		same(t, []float64{errorsOne, fieldOne}, []float64{errors, field}, "sums", n)
		amounts, rate := [8]float64(random(r, 8)), [8]float64(random(r, 8))
		for i, v := range rate {
			rate[i] = math.Abs(v)
		}
		amountsOne, time := amounts, math.Abs(y[0])
		left, leftOne := Decay(&amounts, &rate, time), decayOne(&amountsOne, &rate, time)
		same(t, append(amountsOne[:], leftOne), append(amounts[:], left), "decayed", n)
		copy(stageOne, stage)
		AddSquares(stage, y, 0.4)
		addSquaresOne(stageOne, y, 0.4)
		same(t, stageOne, stage, "squares", n)
		for i, v := range v {
			stage[i] = v * v
		}
		same(t, []float64{maternOne(stage[:whole], y)}, []float64{Matern(stage[:whole], y[:whole])}, "covariances", n)
		Scale(stage, y, -1.3)
		scaleOne(stageOne, y, -1.3)
		same(t, stageOne, stage, "scaled", n)
		b := 3 * r.NormFloat64()
		Exponentials(stage, sum, y, b)
		exponentialsOne(stageOne, sumOne, y, b, 1/b)
		same(t, stageOne, stage, "potential", n)
		same(t, sumOne, sum, "slope", n)
	}
}

// Against the standard library; where one of four is beyond the reach of the table, or no number, the others are as they were.
func TestExponentials(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	worst := 0.0
	for range 5000 {
		c, b := make([]float64, 5), 4*r.NormFloat64()
		for i := range c {
			c[i] = 170 * (2*r.Float64() - 1) / math.Abs(b) * 4
		}
		g, slope := make([]float64, 5), make([]float64, 5)
		Exponentials(g, slope, c, b)
		for i, v := range c {
			want := math.Exp(b * v)
			worst = max(worst, math.Abs(slope[i]/want-1))
			require.InDelta(t, math.Expm1(b*v)/b, g[i], 5e-12*(want+1)/math.Abs(b))
			require.False(t, math.IsNaN(g[i]))
		}
	}
	require.Less(t, worst, 4e-12)
	require.Greater(t, worst, 1e-13, "the table has its error")
	for _, odd := range []float64{800, -800, math.Inf(1), math.Inf(-1), math.NaN()} {
		c := []float64{0.5, odd, -0.25, 1, 2}
		g, slope := make([]float64, 5), make([]float64, 5)
		Exponentials(g, slope, c, 1)
		if math.IsNaN(odd) {
			require.True(t, math.IsNaN(g[1]) && math.IsNaN(slope[1]))
		} else {
			require.Equal(t, math.Exp(odd), slope[1]) //nolint:testifylint // to the bit
		}
		for _, i := range []int{0, 2, 3, 4} {
			require.InEpsilon(t, math.Exp(c[i]), slope[i], 4e-12)
		}
	}
}

// Amounts decay as exponentials, and what has decayed is nothing.
func TestDecay(t *testing.T) {
	amounts, rate := [8]float64{1, 2, -3, 4, 5, 6, 7, 8}, [8]float64{0, 1, 2, 10, 29.9, 30.1, 1e9, math.Inf(1)}
	sum := Decay(&amounts, &rate, 1)
	for i, want := range []float64{1, 2 * math.Exp(-1), -3 * math.Exp(-2), 4 * math.Exp(-10), 5 * math.Exp(-29.9)} {
		require.InEpsilon(t, want, amounts[i], 4e-12)
	}
	require.Equal(t, [3]float64{}, [3]float64(amounts[5:]))
	require.InEpsilon(t, amounts[0]+amounts[1]+amounts[2]+amounts[3]+amounts[4], sum, 1e-14)
}

// The covariance by its formula; what is far is nothing.
func TestMatern(t *testing.T) {
	for n := range 11 {
		squares, weights, want := make([]float64, n), make([]float64, n), 0.0
		for i := range n {
			squares[i], weights[i] = 0.3*float64(i*i), float64(i)-3.5
			d := math.Sqrt(5 * squares[i])
			want += weights[i] * (1 + d + d*d/3) * math.Exp(-d)
		}
		require.InDelta(t, want, Matern(squares, weights), 2e-11, "%d", n)
	}
	require.InDelta(t, 2, Matern([]float64{1e5, 1e300, math.Inf(1), 0, 1e9}, []float64{1, 1, 1, 2, 1}), 1e-12)
}

// The law at each excess, and what is beyond it.
func TestActivated(t *testing.T) {
	law := Law{At: 353.15, From: 330, To: 390, Steepness: 6500 / 353.15, Factor: 3e-3}
	excess := []float64{0, -20, 30, 1e-9, 5}
	out := make([]float64, 5)
	require.True(t, law.Activated(out, excess))
	for i, e := range excess {
		require.InEpsilon(t, 3e-3*math.Exp(6500*(1/353.15-1/(353.15+e))), out[i], 4e-12)
	}
	for what, e := range map[string]float64{"below": -23.2, "its end": 390 - 353.15, "NaN": math.NaN(), "Inf": math.Inf(-1)} {
		for i := range excess {
			odd := slices.Clone(excess)
			odd[i] = e
			require.False(t, law.Activated(out, odd), what)
			require.False(t, law.activatedOne(out, odd), what)
		}
	}
	steep := Law{At: 300, From: 1, To: 1e4, Steepness: 1e4, Factor: 1}
	require.False(t, steep.Activated(out, []float64{0, 0, 0, 0, 100}), "an exponent beyond the table")
	require.True(t, steep.Activated(out[:2], []float64{0, 10}), "fewer than four")
}

// The same for blocks.
func TestBlocksAlike(t *testing.T) {
	both(t)
	r := rand.New(rand.NewPCG(3, 3))
	block := func() *[16]float64 { return (*[16]float64)(random(r, 16)) }
	for n := 3; n < 24; n++ {
		gaps := random(r, 64*(n-1))
		for i := range n - 1 { // symmetric
			for a := range 8 {
				for b := range a {
					gaps[64*i+8*a+b] = gaps[64*i+8*b+a]
				}
			}
		}
		f, fOne, g, k, v := random(r, 4*n), make([]float64, 4*n), random(r, 4*n), random(r, n-1), random(r, 4*n)
		Flow(f, k, g, gaps)
		flowOne(fOne, k, g, gaps)
		same(t, fOne, f, "flow", n)
		lower, diag, upper, share := random(r, n), random(r, n), random(r, n), [4]float64(random(r, 4))
		Mass(f, g, v, lower, diag, upper, &share)
		massOne(fOne, g, v, lower, diag, upper, &share)
		same(t, fOne, f, "mass", n)

		own, next, above, below := block(), block(), block(), block()
		ownOne, nextOne, aboveOne, belowOne := *own, *next, *above, *below
		inner, outer := [4]float64(random(r, 4)), [4]float64(random(r, 4))
		Join(own, above, below, next, (*[64]float64)(gaps), 1.7, &inner, &outer)
		joinOne(&ownOne, &aboveOne, &belowOne, &nextOne, (*[64]float64)(gaps), 1.7, &inner, &outer)
		for what, pair := range map[string][2]*[16]float64{"own": {&ownOne, own}, "above": {&aboveOne, above}, "below": {&belowOne, below}, "next": {&nextOne, next}} {
			same(t, pair[0][:], pair[1][:], what, n)
		}
		Carry(own, next, above, below)
		carryOne(&ownOne, &nextOne, &aboveOne, &belowOne)
		same(t, aboveOne[:], above[:], "carried", n)
		same(t, belowOne[:], below[:], "less", n)
		require.Equal(t, invertOne(&ownOne), Invert(own))
		same(t, ownOne[:], own[:], "inverse", n)
		if n >= 4 {
			x, far := random(r, 4*n), block()
			xOne := append([]float64{}, x...)
			down, on, up := random(r, 16*n), random(r, 16*n), random(r, 16*n)
			Solve(x, down, on, up, far)
			solveOne(xOne, down, on, up, far)
			same(t, xOne, x, "solution", n)
		}
	}
}

// Pivots that are zero or no number are told by both.
func TestInvertUnsound(t *testing.T) {
	for what, a := range map[string][16]float64{
		"a zero":         {0: 1, 5: 1, 15: 1},
		"one that comes": {0: 1, 1: 1, 4: 1, 5: 1, 10: 1, 15: 1},
		"Inf":            {0: 1, 5: math.Inf(1), 10: 1, 15: 1},
		"NaN":            {0: 1, 5: 1, 10: math.NaN(), 15: 1},
	} {
		b := a
		require.False(t, Invert(&a), what)
		require.False(t, invertOne(&b), what)
	}
	a := [16]float64{0: 2, 5: 4, 10: 8, 15: -1}
	require.True(t, Invert(&a))
	require.Equal(t, [16]float64{0: 0.5, 5: 0.25, 10: 0.125, 15: -1}, a)
}
