package diffusion

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"strandry/materials"
)

// A value is that at its deviate, from end to end; the middle of the range, by its logarithm, is the median, and beyond the ends there is nothing.
func TestVariedThereAndBack(t *testing.T) {
	v := Varied{From: 2, To: 800}
	for _, value := range []float64{2, 2.1, 40, 333, 800} {
		require.InEpsilon(t, value, v.value(v.deviate(value)), 1e-9)
	}
	require.InDelta(t, 0, v.deviate(40), 1e-12)
	require.InEpsilon(t, 800, v.value(9), 1e-12)
	require.InEpsilon(t, 2, v.value(-9), 1e-12)
}

// From zero on a range is filled evenly.
func TestVariedFromZero(t *testing.T) {
	v := Varied{To: 0.025}
	for _, value := range []float64{0, 0.001, 0.0125, 0.02, 0.025} {
		require.InDelta(t, value, v.value(v.deviate(value)), 1e-12)
	}
	require.InDelta(t, 0.0125, v.Middle(), 1e-15)
	require.InDelta(t, 0, v.deviate(0.0125), 1e-12)
	require.InEpsilon(t, 40, (&Varied{From: 2, To: 800}).Middle(), 1e-12)
}

// Of a sample that is normal, and a limit that is log-normal, all is known in closed form: what is read off is that, and for a limit that is certain too.
func TestToldOfANormalSample(t *testing.T) {
	const count, mean, deviation = 4001, -4.2, 0.5
	var sample []float64
	for i := range count {
		sample = append(sample, mean+deviation*distuv.UnitNormal.Quantile((float64(i)+0.5)/count))
	}
	value := math.Exp(-4.)
	for _, wide := range []float64{1, 1.5, 3} {
		limit := materials.Value{Value: value, Low: value / wide, High: value * wide}
		own := math.Log(wide) / materials.EndDeviate
		all := math.Sqrt(deviation*deviation + own*own)
		in := inLogs(limit)
		told := in.told(-4.25, slices.Clone(sample))
		require.InEpsilon(t, math.Exp(-4.25), told.Content, 1e-12)
		require.InEpsilon(t, math.Exp(mean-tenth*deviation), told.Low, 0.005)
		require.InEpsilon(t, math.Exp(mean+tenth*deviation), told.High, 0.005)
		require.InDelta(t, distuv.UnitNormal.CDF(0.2/all), told.Probability, 1e-3)
		require.InDelta(t, distuv.UnitNormal.Prob(0.2/all)/all, told.Density, 5e-3)
		require.InEpsilon(t, math.Exp(-0.2-tenth*all), told.Ratio.Low, 0.005)
		require.InEpsilon(t, math.Exp(-0.2+tenth*all), told.Ratio.High, 0.005)
		require.InDelta(t, meets(limit, sample, 0.1), in.meets(sample, 0.1), 1e-6)
	}
	// The two sides of a limit have widths of their own.
	limit := materials.Value{Value: value, Low: value / 1.2, High: value * 3}
	in := inLogs(limit)
	for _, by := range []float64{-2, -0.3, 0, 0.4, 2} {
		require.InDelta(t, meets(limit, sample, by), in.meets(sample, by), 1e-6)
	}
}

// tenth is the deviate above which one in ten lies.
const tenth = 1.2815515655446004
