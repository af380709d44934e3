package table

import (
	"fmt"
	"math"

	"strandry/diffusion"
)

// Chance is a probability in words: "72 times in 100". Nothing that was drawn is certain.
func Chance(p float64) string {
	switch n := hundredths(p); {
	case n >= 100:
		return "more than 99 times in 100"
	case n <= 0:
		return "less than once in 100"
	case n == 1:
		return "once in 100"
	default:
		return fmt.Sprintf("%.0f times in 100", n)
	}
}

// chance is the same in a column, in per cent.
func chance(p float64) string {
	switch n := hundredths(p); {
	case n >= 100:
		return ">99"
	case n <= 0:
		return "<1"
	default:
		return fmt.Sprintf("%.0f", n)
	}
}

// hundredths rounds a probability, but not over what makes a verdict.
func hundredths(p float64) float64 {
	n := math.Round(100 * p)
	switch {
	case p < diffusion.NineInTen && p > diffusion.OneInTen:
		return min(max(n, 100*diffusion.OneInTen+1), 100*diffusion.NineInTen-1)
	case p <= diffusion.OneInTen:
		return min(n, 100*diffusion.OneInTen)
	}
	return n
}

// EightInTen is where the content lies eight times in ten, and where it would if nothing but the diffusivity were in doubt.
func EightInTen(o *diffusion.Odds) string {
	if len(o.Unknowns) == 0 {
		return "nothing is said to be in doubt"
	}
	alone := "if the diffusivity alone were in doubt"
	if o.Correlated {
		alone = "if the diffusivity alone were in doubt, with what it tells of its growth"
	}
	return fmt.Sprintf("%s, eight times in ten (%s: %s)", Spanned(o.Low, o.High), alone, Spanned(o.ByDiffusivity.Low, o.ByDiffusivity.High))
}

// Spanned is two contents in so many digits that they differ, if they do.
func Spanned(low, high float64) string {
	const most = 6
	digits := 2
	for digits < most && Significant(100*low, digits) == Significant(100*high, digits) {
		digits++
	}
	a, b := Significant(100*low, digits), Significant(100*high, digits)
	if a == b {
		return Percent(high)
	}
	return a + " to " + b + " %"
}
