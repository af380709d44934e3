//go:build !amd64

package simd

// four tells whether the processor takes four numbers at a time.
func four() bool { return false }

func exponentialsFour(value, slope, c *float64, n int, b, perB float64, powers *[128]float64) (ok bool) {
	return false
}

func activatedFour(out, excess *float64, n int, law *Law, powers *[128]float64) (ok bool) {
	return false
}

func decayFour(amounts, rate *[8]float64, time float64, powers *[128]float64) (sum float64) { return 0 }

func scaleFour(out, v *float64, n int, by float64) {}

func addScaledFour(out, v *float64, n int, by float64) {}

func closeFour(end, e, weight *float64, n int) (errors, field float64) { return 0, 0 }

func combineFour(stage, sum, y, u0, u1, u2, u3 *float64, n int, a, c *[4]float64) {}

func combineLastFour(stage, sum, u0, u1, u2, u3, u4 *float64, n int, c *[5]float64) {}

func gatherFour(out, k, field, v, lower, diag, upper *float64, n int) {}

func flowFour(f, k, field, q *float64, gaps int) {}

func massFour(out, f, v, lower, diag, upper *float64, circles int, share *[4]float64) {}

func joinFour(own, above, below, next *[16]float64, q *[64]float64, k float64, inner, outer *[4]float64) {
}

func carryFour(to, inverse, back, on *[16]float64) {}

func invertFour(a *[16]float64) (sound bool) { return false }

func solveFour(x, below, on, above *float64, farBack *[16]float64, rows int) {}

func addSquaresFour(sums, x *float64, n int, here float64) {}

func maternFour(squares, weights *float64, n int, powers *[128]float64) (sum float64) { return 0 }
