package simd

import (
	"math"

	"strandry/materials/exponential"
)

// taken is how many of n numbers are taken four at a time where none may be taken twice: the whole fours, or none.
func taken(n int) int {
	if !four() {
		return 0
	}
	return n &^ 3
}

// Exponentials fills g with (exp(b c) - 1)/b and slope with exp(b c), b not zero; relative error of the exponential below 4e-12. All have the length of c.
func Exponentials(g, slope, c []float64, b float64) {
	perB := 1 / b
	g, slope = g[:len(c)], slope[:len(c)]
	if len(c) >= 4 && four() && exponentialsFour(&g[0], &slope[0], &c[0], len(c), b, perB, exponential.Powers()) {
		return
	}
	exponentialsOne(g, slope, c, b, perB)
}

// exponentialsOne is Exponentials, one after the other, and beyond the reach of the table too.
func exponentialsOne(g, slope, c []float64, b, perB float64) {
	g, slope = g[:len(c)], slope[:len(c)]
	for i, v := range c {
		x := b * v
		if !(math.Abs(x) < exponential.Reach) { // true for NaN too
			slope[i] = math.Exp(x)
			g[i] = (slope[i] - 1) * perB
			continue
		}
		power, more := exponential.Parts(x)
		above := power * more
		slope[i] = power + above
		g[i] = ((power - 1) + above) * perB // without the cancellation of exp(x) - 1: b may be as small as it likes
	}
}

// Law is what is activated by heat, after Arrhenius: Factor times exp(Steepness e/(At + e)) at an excess e of the temperature over At, from the temperature From
// on and below To. Temperatures and Steepness have one unit.
type Law struct {
	At, From, To, Steepness, Factor float64
}

// Activated fills out with the law at each excess; relative error below 4e-12. Where one of them is beyond the law it gives false, and out holds nothing of use.
func (l *Law) Activated(out, excess []float64) bool {
	out = out[:len(excess)]
	if len(excess) >= 4 && four() {
		return activatedFour(&out[0], &excess[0], len(excess), l, exponential.Powers())
	}
	return l.activatedOne(out, excess)
}

// activatedOne is Activated, one after the other.
func (l *Law) activatedOne(out, excess []float64) bool {
	out = out[:len(excess)]
	for i, e := range excess {
		t := l.At + e
		x := l.Steepness * e / t
		if !(t >= l.From && t < l.To && math.Abs(x) < exponential.Reach) {
			return false
		}
		power, more := exponential.Parts(x)
		out[i] = l.Factor * (power + power*more)
	}
	return true
}

// Decay multiplies each of eight amounts by exp(-rate time), both not negative, and gives their sum; zero for what decays by more than exp(30). Relative error of
// the exponentials below 4e-12.
func Decay(amounts, rate *[8]float64, time float64) (sum float64) {
	if four() {
		return decayFour(amounts, rate, time, exponential.Powers())
	}
	return decayOne(amounts, rate, time)
}

// decayOne is Decay, one after the other.
func decayOne(amounts, rate *[8]float64, time float64) float64 {
	const over = -30
	for i, r := range rate {
		x := -time * r
		if !(x > over) { // true for NaN too
			amounts[i] = 0
			continue
		}
		power, more := exponential.Parts(x)
		amounts[i] *= power + power*more
	}
	a := amounts
	return ((a[0] + a[4]) + (a[1] + a[5])) + ((a[2] + a[6]) + (a[3] + a[7]))
}

// AddSquares adds to each of the sums the square of here less x. All have the length of x.
func AddSquares(sums, x []float64, here float64) {
	sums = sums[:len(x)]
	n := taken(len(x))
	if n > 0 {
		addSquaresFour(&sums[0], &x[0], n, here)
	}
	addSquaresOne(sums[n:], x[n:], here)
}

// addSquaresOne is AddSquares, one after the other.
func addSquaresOne(sums, x []float64, here float64) {
	for i, v := range x {
		off := here - v
		sums[i] += off * off
	}
}

// Matern is Σ w (1 + d + d²/3) exp(-d), with d the root of five times the squares: the covariance after Matérn that is twice differentiable, of squares of distances in
// lengths. Squares and weights have one length.
func Matern(squares, weights []float64) (sum float64) {
	squares = squares[:len(weights)]
	n := len(weights) &^ 3
	if n > 0 && four() {
		sum = maternFour(&squares[0], &weights[0], n, exponential.Powers())
	} else {
		sum = maternOne(squares[:n], weights)
	}
	for i, s := range squares[n:] {
		sum += weights[n+i] * matern(s)
	}
	return sum
}

// maternOne is Matern, one after the other, for a multiple of four squares: four sums side by side.
func maternOne(squares, weights []float64) float64 {
	var sums [4]float64
	for i, s := range squares {
		sums[i&3] += weights[i] * matern(s)
	}
	return (sums[0] + sums[1]) + (sums[2] + sums[3])
}

// matern is the covariance at the square of a distance; nothing beyond the reach of the table.
func matern(square float64) float64 {
	five := 5 * square
	d := math.Sqrt(five)
	if !(d < exponential.Reach) { // true for NaN too
		return 0
	}
	power, more := exponential.Parts(-d)
	return ((1 + d) + five*(1.0/3)) * (power + power*more)
}

// Scale sets out to by times v, both of the length of v.
func Scale(out, v []float64, by float64) {
	out = out[:len(v)]
	if len(v) >= 4 && four() {
		scaleFour(&out[0], &v[0], len(v), by)
		return
	}
	scaleOne(out, v, by)
}

// scaleOne is Scale, one after the other.
func scaleOne(out, v []float64, by float64) {
	for i, w := range v {
		out[i] = by * w
	}
}

// AddScaled adds by times v to out, both of the length of v.
func AddScaled(out, v []float64, by float64) {
	out = out[:len(v)]
	n := taken(len(v))
	if n > 0 {
		addScaledFour(&out[0], &v[0], n, by)
	}
	addScaledOne(out[n:], v[n:], by)
}

// addScaledOne is AddScaled, one after the other.
func addScaledOne(out, v []float64, by float64) {
	for i, w := range v {
		out[i] += by * w
	}
}

// Close adds e to end, and gives the sums of the weights times the squares of e and of what end becomes. All have the length of e.
func Close(end, e, weight []float64) (errors, field float64) {
	end, weight = end[:len(e)], weight[:len(e)]
	n := len(e) &^ 3
	if n > 0 && four() {
		errors, field = closeFour(&end[0], &e[0], &weight[0], n)
	} else {
		errors, field = closeOne(end, e[:n], weight)
	}
	return closeRest(end[n:], e[n:], weight[n:], errors, field)
}

// closeOne is Close, one after the other, for a multiple of four: four sums side by side.
func closeOne(end, e, weight []float64) (errors, field float64) {
	var some, all [4]float64
	for i, v := range e {
		w := weight[i]
		end[i] += v
		some[i&3] += w * v * v
		all[i&3] += w * end[i] * end[i]
	}
	return (some[0] + some[1]) + (some[2] + some[3]), (all[0] + all[1]) + (all[2] + all[3])
}

// closeRest is Close for fewer than four, whose squares come to the sums.
func closeRest(end, e, weight []float64, errors, field float64) (float64, float64) {
	for i, v := range e {
		w := weight[i]
		end[i] += v
		errors += w * v * v
		field += w * end[i] * end[i]
	}
	return errors, field
}

// Combine sets stage to y + Σ a_j u_j and sum to Σ c_j u_j over the four u. All have the length of y.
func Combine(stage, sum, y, u0, u1, u2, u3 []float64, a, c *[4]float64) {
	n := len(y)
	stage, sum, u0, u1, u2, u3 = stage[:n], sum[:n], u0[:n], u1[:n], u2[:n], u3[:n]
	if n >= 4 && four() {
		combineFour(&stage[0], &sum[0], &y[0], &u0[0], &u1[0], &u2[0], &u3[0], n, a, c)
		return
	}
	combineOne(stage, sum, y, u0, u1, u2, u3, a, c)
}

// combineOne is Combine, one after the other.
func combineOne(stage, sum, y, u0, u1, u2, u3 []float64, a, c *[4]float64) {
	for k, v := range y {
		p, q, r, s := u0[k], u1[k], u2[k], u3[k]
		stage[k] = v + (a[0]*p + a[1]*q) + (a[2]*r + a[3]*s)
		sum[k] = (c[0]*p + c[1]*q) + (c[2]*r + c[3]*s)
	}
}

// CombineLast adds u4 to stage and sets sum to Σ c_j u_j over the five u. All have the length of stage.
func CombineLast(stage, sum, u0, u1, u2, u3, u4 []float64, c *[5]float64) {
	all := len(stage)
	sum, u0, u1, u2, u3, u4 = sum[:all], u0[:all], u1[:all], u2[:all], u3[:all], u4[:all]
	n := taken(all)
	if n > 0 {
		combineLastFour(&stage[0], &sum[0], &u0[0], &u1[0], &u2[0], &u3[0], &u4[0], n, c)
	}
	combineLastOne(stage[n:], sum[n:], u0[n:], u1[n:], u2[n:], u3[n:], u4[n:], c)
}

// combineLastOne is CombineLast, one after the other.
func combineLastOne(stage, sum, u0, u1, u2, u3, u4 []float64, c *[5]float64) {
	for k, w := range u4 {
		stage[k] += w
		sum[k] = (c[0]*u0[k] + c[1]*u1[k]) + (c[2]*u2[k] + c[3]*u3[k]) + c[4]*w
	}
}

// Gather sets row i of out, but for the first and the last, to
//
//	k_i (g_(i+1) - g_i) - k_(i-1) (g_i - g_(i-1)) + lower_i v_(i-1) + diag_i v_i + upper_i v_(i+1)
//
// All have the length of out, k one less or as many.
func Gather(out, k, g, v, lower, diag, upper []float64) {
	n := len(out)
	k, g, v, lower, diag, upper = k[:n-1], g[:n], v[:n], lower[:n], diag[:n], upper[:n]
	if n >= 6 && four() {
		gatherFour(&out[0], &k[0], &g[0], &v[0], &lower[0], &diag[0], &upper[0], n)
		return
	}
	gatherOne(out, k, g, v, lower, diag, upper)
}

// gatherOne is Gather, one after the other.
func gatherOne(out, k, g, v, lower, diag, upper []float64) {
	n := len(out)
	flow := k[0] * (g[1] - g[0])
	for i := 1; i < n-1; i++ {
		next := k[i] * (g[i+1] - g[i])
		out[i] = (next - flow) + (lower[i]*v[i-1] + diag[i]*v[i]) + upper[i]*v[i+1]
		flow = next
	}
}
