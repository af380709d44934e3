package canvas

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func tickLabels(ticks []Tick) []string {
	var out []string
	for _, t := range ticks {
		if t.Label != "" {
			out = append(out, t.Label)
		}
	}
	return out
}

func TestTicks(t *testing.T) {
	require.Equal(t, []string{"0.0", "0.5", "1.0", "1.5", "2.0", "2.5"}, tickLabels(Scale{Min: 0, Max: 2.6}.Ticks(6)))
	require.Equal(t, []string{"-20", "0", "20", "40"}, tickLabels(Scale{Min: -25, Max: 45}.Ticks(4)))
	require.Equal(t, []string{"1", "3", "10", "30", "100"}, tickLabels(Scale{Min: 0.5, Max: 200, Log: true}.Ticks(4)))
	require.Equal(t, []string{"0.5", "1", "2", "5", "10"}, tickLabels(Scale{Min: 0.5, Max: 10, Log: true}.Ticks(6)))
	require.Equal(t, []string{"1000", "3000", "10\u00a0000", "30\u00a0000", "100\u00a0000"}, tickLabels(Scale{Min: 900, Max: 2e5, Log: true}.Ticks(4)))
	require.Equal(t, []string{"0", "0.5", "2", "5", "10", "20", "30"}, tickLabels(Scale{Max: 36, Root: true}.Ticks(6)))
	require.Equal(t, []string{"0", "5", "20", "50"}, tickLabels(Scale{Max: 60, Root: true}.Ticks(3)))
	require.Equal(t, []string{"2.0", "2.5", "3.0", "3.5", "4.0", "4.5"}, tickLabels(Scale{Min: 2, Max: 4.5, Log: true}.Ticks(5)), "less than a decade")
}

// Powers of ten are set as such, and no axis tells but two numbers.
func TestPowersOfTen(t *testing.T) {
	require.Equal(t, "10⁻¹⁰", power(1e-10))
	require.Equal(t, "5·10⁶", power(5e6))
	require.Equal(t, "0.0001", power(1e-4))
	for _, s := range []Scale{{Max: 100}, {Max: 57}, {Min: 20, Max: 200}, {Min: 0.4, Max: 41, Log: true}, {Min: 0.1, Max: 45, Log: true}, {Min: 3, Max: 800, Log: true}} {
		require.GreaterOrEqual(t, len(tickLabels(s.Ticks(3))), 3, "%v", s)
	}
}

func TestScales(t *testing.T) {
	for _, s := range []Scale{{Min: 2, Max: 10}, {Min: 0.1, Max: 1000, Log: true}, {Min: -5, Max: 5}, {Min: 1, Max: 36, Root: true}} {
		for _, share := range []float64{0, 0.3, 1} {
			require.InDelta(t, share, s.Norm(s.Value(share)), 1e-12)
		}
	}
	require.InDelta(t, 0.5, Scale{Min: 1, Max: 100, Log: true}.Norm(10), 1e-12)
	require.InDelta(t, 0.5, Scale{Max: 36, Root: true}.Norm(9), 1e-12)
}

// Scales are a little wider than what they show, and go from zero if it comes near it.
func TestScalesOverValues(t *testing.T) {
	require.Equal(t, 0.0, LinearOver([]float64{1, 5}).Min)
	require.InDelta(t, 5.3, LinearOver([]float64{0, 5}).Max, 1e-12)
	require.InDelta(t, 4.94, LinearOver([]float64{5, 6}).Min, 1e-12)
	same := LinearOver([]float64{20, 20})
	require.Equal(t, [...]float64{18, 22}, [...]float64{same.Min, same.Max})
	log := LogOver([]float64{100, 1, 10})
	require.True(t, log.Log)
	require.InDelta(t, 1/math.Pow(100, 0.06), log.Min, 1e-12)
	require.InDelta(t, 100*math.Pow(100, 0.06), log.Max, 1e-9)
}
