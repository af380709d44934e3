package radial

import (
	"math"

	"strandry/diffusion/simd"
)

// Exponential is the potential of a diffusivity that grows as exp(b c):
// G = (exp(b c) - 1)/b, with b the value of the constant [1/unit of c]. Zero
// means Linear. Relative error of the exponential: below 4e-12.
type Exponential float64

// Potential fills g with (exp(b c) - 1)/b and slope with exp(b c): where a march with b other than zero spends much of its time.
func (e Exponential) Potential(c, g, slope []float64) {
	const least = 1e-200 // below it 1/b loses digits, and b c nothing
	if b := float64(e); math.Abs(b) >= least {
		simd.Exponentials(g, slope, c, b)
		return
	}
	Linear{}.Potential(c, g, slope)
}
