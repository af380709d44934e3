package figure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
)

func labels(ticks []tick) []string {
	var out []string
	for _, t := range ticks {
		if t.label != "" {
			out = append(out, t.label)
		}
	}
	return out
}

func TestTicks(t *testing.T) {
	require.Equal(t, []string{"0.0", "0.5", "1.0", "1.5", "2.0", "2.5"}, labels(scale{min: 0, max: 2.6}.ticks(6)))
	require.Equal(t, []string{"-20", "0", "20", "40"}, labels(scale{min: -25, max: 45}.ticks(4)))
	require.Equal(t, []string{"1", "3", "10", "30", "100"}, labels(scale{min: 0.5, max: 200, log: true}.ticks(4)))
	require.Equal(t, []string{"0.5", "1", "2", "5", "10"}, labels(scale{min: 0.5, max: 10, log: true}.ticks(6)))
	require.Equal(t, []string{"1000", "3000", "10\u00a0000", "30\u00a0000", "100\u00a0000"}, labels(scale{min: 900, max: 2e5, log: true}.ticks(4)))
	require.Equal(t, []string{"2.0", "2.5", "3.0", "3.5", "4.0", "4.5"}, labels(scale{min: 2, max: 4.5, log: true}.ticks(5)), "less than a decade")
}

// Powers of ten are set as such, and no axis tells but two numbers.
func TestPowersOfTen(t *testing.T) {
	require.Equal(t, "10⁻¹⁰", power(1e-10))
	require.Equal(t, "5·10⁶", power(5e6))
	require.Equal(t, "0.0001", power(1e-4))
	for _, s := range []scale{{max: 100}, {max: 57}, {min: 20, max: 200}, {min: 0.4, max: 41, log: true}, {min: 0.1, max: 45, log: true}, {min: 3, max: 800, log: true}} {
		require.GreaterOrEqual(t, len(labels(s.ticks(3))), 3, "%v", s)
	}
}

func TestScales(t *testing.T) {
	for _, s := range []scale{{min: 2, max: 10}, {min: 0.1, max: 1000, log: true}, {min: -5, max: 5}} {
		for _, share := range []float64{0, 0.3, 1} {
			require.InDelta(t, share, s.norm(s.value(share)), 1e-12)
		}
	}
	require.InDelta(t, 0.5, scale{min: 1, max: 100, log: true}.norm(10), 1e-12)
}

func TestEvenly(t *testing.T) {
	require.True(t, evenly([]float64{1, 2, 4, 8}))
	require.False(t, evenly([]float64{1, 2, 3, 4}))
	require.False(t, evenly([]float64{-1, 0, 1}))
	require.False(t, evenly([]float64{1, 2}))
}

func TestWords(t *testing.T) {
	require.Equal(t, "0.2\u00a0%", percent(0.002))
	require.Equal(t, "0\u00a0%", percent(-1e-12))
	require.Equal(t, "80\u00a0°C", celsius(353.15))
	require.Equal(t, "67\u00a0mm", metres(0.0668))
	require.Equal(t, "1200\u00a0m", metres(1226))
	require.Equal(t, "12.6\u00a0m", place(12.6))
	require.Equal(t, "16\u00a0min", hours(960))
	require.Equal(t, "5.1\u00a0days", hours(5.06*86400))
	require.Equal(t, "length of drum", keyName(scenarios.Key{Name: "zone.drum.length", Zone: "drum"}))
	require.Equal(t, "dew point of the air in drum", keyName(scenarios.Key{Name: "zone.drum.air.dew_point", Zone: "drum"}))
	require.Equal(t, "length of drum.shape", keyName(scenarios.Key{Name: "zone.drum.shape.length", Zone: "drum.shape"}))
	require.Equal(t, "feed speed", keyName(scenarios.Key{Name: "feed.speed"}))
	require.Equal(t, "beta of properties diffusivity", keyName(scenarios.Key{Name: "strand.properties.diffusivity.beta"}))
}
