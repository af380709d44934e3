package radial

import "math"

// Exponential is the potential of a diffusivity that grows as exp(b c):
// G = (exp(b c) - 1)/b, with b the value of the constant [1/unit of c]. Zero
// means Linear. Relative error of the exponential: below 1e-14.
type Exponential float64

// Potential fills g with (exp(b c) - 1)/b and slope with exp(b c).
//
// This loop is where a march with b other than zero spends most of its time, so
// the exponential is written out in it: with n the whole number nearest to
// x/ln 2 and f = x - n ln 2, exp(x) = 2^n exp(f), and the Taylor polynomial of
// degree 12 has an error below 2e-16 for |f| <= ln(2)/2.
func (e Exponential) Potential(c, g, slope []float64) {
	b := float64(e)
	if b == 0 {
		Linear{}.Potential(c, g, slope)
		return
	}
	const (
		round = 3 << 51 // adding it rounds to a whole number, in the low bits
		high  = 6.93147180369123816490e-01
		low   = math.Ln2 - high
		reach = 700 // beyond it 2^n may overflow
	)
	perB := 1 / b
	g, slope = g[:len(c)], slope[:len(c)]
	for i, v := range c {
		x := b * v
		if !(x > -reach && x < reach) {
			slope[i] = math.Exp(x)
			g[i] = (slope[i] - 1) * perB
			continue
		}
		whole := x*math.Log2E + round
		n := whole - round
		f := (x - n*high) - n*low
		f2 := f * f
		f4 := f2 * f2
		p := (1 + f) + f2*(1.0/2+f*(1.0/6)) +
			f4*((1.0/24+f*(1.0/120))+f2*(1.0/720+f*(1.0/5040))) +
			f4*f4*((1.0/40320+f*(1.0/362880))+f2*(1.0/3628800+f*(1.0/39916800))+f4*(1.0/479001600))
		s := p * math.Float64frombits((math.Float64bits(whole)+1023)<<52)
		slope[i] = s
		g[i] = (s - 1) * perB
	}
}
