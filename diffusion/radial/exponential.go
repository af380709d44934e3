package radial

import "math"

// Exponential is the potential of a diffusivity that grows as exp(b c):
// G = (exp(b c) - 1)/b, with b the value of the constant [1/unit of c]. Zero
// means Linear. Relative error of the exponential: below 1e-14.
type Exponential float64

// Potential fills g with (exp(b c) - 1)/b and slope with exp(b c).
//
// This loop is where a march with b other than zero spends much of its time, so the
// exponential is written out in it: with n the whole number nearest to 8 x/ln 2
// and f = x - n ln(2)/8, exp(x) = 2^(n/8) exp(f); the eight fractional powers are a
// table, and the Taylor polynomial of degree 7 has a relative error below 1e-15
// for |f| <= ln(2)/16.
func (e Exponential) Potential(c, g, slope []float64) {
	b := float64(e)
	const (
		least = 1e-200                         // below it 1/b loses digits, and b c nothing
		round = 3 << 51                        // adding it rounds to a whole number, in the low bits
		high  = 6.93147180369123816490e-01 / 8 // exact in few bits, so that n high is exact
		low   = math.Ln2/8 - high
		reach = 700 // beyond it the power of two may overflow
	)
	if math.Abs(b) < least {
		Linear{}.Potential(c, g, slope)
		return
	}
	perB := 1 / b
	powers := [8]float64{
		1, 1.0905077326652577, 1.189207115002721, 1.2968395546510096,
		math.Sqrt2, 1.5422108254079407, 1.6817928305074292, 1.8340080864093424,
	}
	g, slope = g[:len(c)], slope[:len(c)]
	for i, v := range c {
		x := b * v
		if !(x > -reach && x < reach) {
			slope[i] = math.Exp(x)
			g[i] = (slope[i] - 1) * perB
			continue
		}
		whole := x*(8*math.Log2E) + round
		n := whole - round
		f := (x - n*high) - n*low
		f2 := f * f
		more := f + f2*((1.0/2+f*(1.0/6))+f2*((1.0/24+f*(1.0/120))+f2*(1.0/720+f*(1.0/5040))))
		if n == 0 { // exp(x) - 1 without its cancellation: b may be as small as it likes
			slope[i] = 1 + more
			g[i] = more * perB
			continue
		}
		bits := math.Float64bits(whole)
		s := (1 + more) * powers[bits&7] * math.Float64frombits((bits>>3+1023)<<52)
		slope[i] = s
		g[i] = (s - 1) * perB
	}
}
