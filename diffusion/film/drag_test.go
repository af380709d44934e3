package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/film"
)

// The flow is the integral of the Couette profile v(r) = V ln(R2/r)/ln(R2/R1) over the ring
// (Bird, Stewart & Lightfoot, Transport Phenomena), here by Gauss's rule with five points on
// four hundred pieces, even in the logarithm of the radius.
func TestDraggedFlowIsTheIntegralOfItsProfile(t *testing.T) {
	// Nodes and weights: Abramowitz & Stegun, Table 25.4.
	nodes := [5]float64{0, 0.538469310105683, -0.538469310105683, 0.906179845938664, -0.906179845938664}
	weights := [5]float64{0.568888888888889, 0.478628670499366, 0.478628670499366, 0.236926885056189, 0.236926885056189}
	const speed, inner, pieces = 2e-3, 0.875e-3, 400
	for _, ratio := range []float64{1.001, 1.01, 1.1, 1.5, 1.6487, 1.65, 3, 12, 1e3, 1e6} {
		whole := math.Log(ratio)
		sum := 0.0
		for i := range pieces {
			for k, x := range nodes {
				y := whole * (float64(i) + (1+x)/2) / pieces // ln(r/R1)
				r := inner * math.Exp(y)
				v := speed * (whole - y) / whole
				sum += weights[k] / 2 * whole / pieces * 2 * math.Pi * r * r * v
			}
		}
		// The nodes have fifteen digits.
		require.InEpsilon(t, sum, film.DraggedFlow(speed, 2*inner, 2*inner*ratio), 1e-12, "R2/R1 %g", ratio)
	}
}

func TestDraggedFlowAtItsLimits(t *testing.T) {
	const speed, strand = 2e-3, 1.75e-3
	for _, gap := range []float64{1e-3, 1e-5, 1e-7, 1e-9} { // of the radius; between plates half the speed times the gap
		bore := strand * (1 + gap)
		width := (bore - strand) / 2
		require.InEpsilon(t, math.Pi*strand/2*width*speed, film.DraggedFlow(speed, strand, bore), gap, "gap %g", gap)
		require.InEpsilon(t, speed/2, film.DraggedSpeed(speed, strand, bore), gap, "gap %g", gap)
	}
	// A thin strand: R2²/(2 ln(R2/R1)).
	for _, thin := range []float64{1e-6, 1e-9, 1e-12} {
		require.InEpsilon(t, math.Pi*speed*1e-4/(2*math.Log(2e-2/thin)), film.DraggedFlow(speed, thin, 2e-2), 1e-5, "%g m", thin)
	}
	require.Zero(t, film.DraggedFlow(speed, 0, 2e-2))
	require.Zero(t, film.DraggedFlow(speed, 2e-2, 2e-2))
	require.Zero(t, film.DraggedFlow(0, strand, 2e-2))
	require.Zero(t, film.DraggedSpeed(speed, 2e-2, 2e-2))
}
