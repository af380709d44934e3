package simd

import "math"

// Exponentials fills g with (exp(b c) - 1)/b and slope with exp(b c), b not zero; relative error of the exponential below 4e-12. All have the length of c.
//
// With n the whole number nearest to 128 x/ln 2 and f = x - n ln(2)/128, exp(x) = 2^(n/128) exp(f); the fractional powers are a table, and the Taylor polynomial of
// degree 3 has a relative error below 3e-12 for |f| <= ln(2)/256.
func Exponentials(g, slope, c []float64, b float64) {
	perB := 1 / b
	g, slope = g[:len(c)], slope[:len(c)]
	if len(c) >= 4 && four() && exponentialsFour(&g[0], &slope[0], &c[0], len(c), b, perB, &powers) {
		return
	}
	exponentialsOne(g, slope, c, b, perB)
}

// exponentialsOne is Exponentials, one after the other, and beyond the reach of the table too.
func exponentialsOne(g, slope, c []float64, b, perB float64) {
	g, slope = g[:len(c)], slope[:len(c)]
	for i, v := range c {
		x := b * v
		if !(math.Abs(x) < reach) { // true for NaN too
			slope[i] = math.Exp(x)
			g[i] = (slope[i] - 1) * perB
			continue
		}
		power, more := exponential(x)
		above := power * more
		slope[i] = power + above
		g[i] = ((power - 1) + above) * perB // without the cancellation of exp(x) - 1: b may be as small as it likes
	}
}

const (
	round = 3 << 51 // adding it rounds to a whole number, in the low bits
	reach = 700     // beyond it the power of two may overflow
)

// exponential is exp(x) in two parts, power (1 + more), within reach.
func exponential(x float64) (power, more float64) {
	whole := x*(128*math.Log2E) + round
	f := x - (whole-round)*(math.Ln2/128)
	more = f + (f*f)*(1.0/2+f*(1.0/6))
	bits := math.Float64bits(whole)
	return powers[bits&127] * math.Float64frombits((bits>>7+1023)<<52), more
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
		return activatedFour(&out[0], &excess[0], len(excess), l, &powers)
	}
	return l.activatedOne(out, excess)
}

// activatedOne is Activated, one after the other.
func (l *Law) activatedOne(out, excess []float64) bool {
	out = out[:len(excess)]
	for i, e := range excess {
		t := l.At + e
		x := l.Steepness * e / t
		if !(t >= l.From && t < l.To && math.Abs(x) < reach) {
			return false
		}
		power, more := exponential(x)
		out[i] = l.Factor * (power + power*more)
	}
	return true
}

// Decay multiplies each of eight amounts by exp(-rate time), both not negative, and gives their sum; zero for what decays by more than exp(30). Relative error of
// the exponentials below 4e-12.
func Decay(amounts, rate *[8]float64, time float64) (sum float64) {
	if four() {
		return decayFour(amounts, rate, time, &powers)
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
		power, more := exponential(x)
		amounts[i] *= power + power*more
	}
	a := amounts
	return ((a[0] + a[4]) + (a[1] + a[5])) + ((a[2] + a[6]) + (a[3] + a[7]))
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
	if len(v) >= 4 && four() {
		addScaledFour(&out[0], &v[0], len(v), by)
		return
	}
	addScaledOne(out, v, by)
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
	if len(e) >= 4 && four() {
		return closeFour(&end[0], &e[0], &weight[0], len(e))
	}
	return closeOne(end, e, weight)
}

// closeOne is Close, one after the other: four sums side by side, and what is left over added to their sum.
func closeOne(end, e, weight []float64) (errors, field float64) {
	var some, all [4]float64
	fours := len(e) &^ 3
	for i, v := range e {
		w := weight[i]
		end[i] += v
		if i < fours {
			some[i&3] += w * v * v
			all[i&3] += w * end[i] * end[i]
			continue
		}
		if i == fours {
			errors, field = (some[0]+some[1])+(some[2]+some[3]), (all[0]+all[1])+(all[2]+all[3])
		}
		errors += w * v * v
		field += w * end[i] * end[i]
	}
	if len(e) == fours {
		errors, field = (some[0]+some[1])+(some[2]+some[3]), (all[0]+all[1])+(all[2]+all[3])
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
	n := len(stage)
	sum, u0, u1, u2, u3, u4 = sum[:n], u0[:n], u1[:n], u2[:n], u3[:n], u4[:n]
	if n >= 4 && four() {
		combineLastFour(&stage[0], &sum[0], &u0[0], &u1[0], &u2[0], &u3[0], &u4[0], n, c)
		return
	}
	combineLastOne(stage, sum, u0, u1, u2, u3, u4, c)
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

// powers are 2^(i/128); read only.
var powers = [128]float64{
	1, 1.0054299011128027, 1.0108892860517005, 1.0163783149109531, 1.0218971486541166, 1.0274459491187637, 1.0330248790212284, 1.0386341019613787,
	1.0442737824274138, 1.0499440858006872, 1.0556451783605572, 1.0613772272892621, 1.0671404006768237, 1.0729348675259756, 1.0787607977571199, 1.0846183622133092,
	1.0905077326652577, 1.0964290818163769, 1.1023825833078409, 1.1083684117236787, 1.1143867425958924, 1.1204377524096067, 1.1265216186082418, 1.1326385195987192,
	1.1387886347566916, 1.1449721444318042, 1.1511892299529827, 1.1574400736337511, 1.1637248587775775, 1.1700437696832502, 1.1763969916502812, 1.182784710984341,
	1.189207115002721, 1.1956643920398273, 1.2021567314527031, 1.2086843236265816, 1.215247359980469, 1.2218460329727576, 1.22848053610687, 1.2351510639369334,
	1.241857812073484, 1.2486009771892048, 1.2553807570246911, 1.2621973503942507, 1.2690509571917332, 1.275941778396392, 1.2828700160787783, 1.2898358734066657,
	1.2968395546510096, 1.3038812651919358, 1.3109612115247644, 1.318079601266064, 1.3252366431597413, 1.3324325470831615, 1.3396675240533029, 1.3469417862329458,
	1.3542555469368927, 1.3616090206382248, 1.3690024229745905, 1.3764359707545302, 1.383909881963832, 1.3914243757719262, 1.3989796725383112, 1.4065759938190154,
	1.4142135623730951, 1.4218926021691656, 1.42961333839197, 1.4373759974489824, 1.4451808069770467, 1.4530279958490526, 1.460917794180647, 1.4688504333369818,
	1.4768261459394993, 1.4848451658727524, 1.4929077282912648, 1.5010140696264256, 1.5091644275934228, 1.5173590411982147, 1.5255981507445384, 1.5338819978409559,
	1.5422108254079407, 1.550584877685, 1.5590044002378369, 1.567469639965553, 1.5759808451078865, 1.5845382652524937, 1.593142151342267, 1.6017927556826934,
	1.6104903319492543, 1.6192351351948637, 1.6280274218573478, 1.6368674497669644, 1.6457554781539649, 1.6546917676561943, 1.6636765803267364, 1.6727101796415966,
	1.681792830507429, 1.6909247992693053, 1.7001063537185235, 1.7093377631004629, 1.7186192981224779, 1.7279512309618377, 1.7373338352737062, 1.746767386199169,
	1.7562521603732995, 1.7657884359332727, 1.7753764925265212, 1.785016611318935, 1.7947090750031072, 1.8044541678066239, 1.8142521755003989, 1.8241033854070534,
	1.8340080864093424, 1.843966568958626, 1.8539791250833855, 1.864046048397789, 1.8741676341103, 1.8843441790323345, 1.8945759815869656, 1.9048633418176741,
	1.9152065613971474, 1.925605943636125, 1.9360617934922943, 1.9465744175792332, 1.9571441241754002, 1.9677712232331759, 1.9784560263879509, 1.9891988469672663,
}
