package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/palette"
)

// From the limit on, lightness falls to each side, so that the order survives in grey and for
// every kind of colour vision.
func TestBandsFallInLightness(t *testing.T) {
	b := bandsOf(1e-5, 0.03, 0.002, 0.025)
	require.Equal(t, len(b.levels)+1, len(b.colors))
	require.InDelta(t, 0.002, b.levels[b.limit], 1e-15)
	for i := 1; i < len(b.levels); i++ {
		require.Greater(t, b.levels[i], b.levels[i-1])
	}
	for i := b.limit; i > 0; i-- {
		require.Less(t, palette.Luminance(b.colors[i-1]), palette.Luminance(b.colors[i]))
	}
	for i := b.limit + 1; i+1 < len(b.colors); i++ {
		require.Less(t, palette.Luminance(b.colors[i+1]), palette.Luminance(b.colors[i]))
	}
	require.True(t, sand(b.colors[0]), "dry is sand")
	require.False(t, sand(b.colors[len(b.colors)-1]), "wet is blue")
}

// No line is drawn at the content that the strand starts with, nor where nothing is wetter.
func TestNoLineAtTheStart(t *testing.T) {
	require.Contains(t, bandsOf(1e-4, 0.03, 0.002, 0.025).levels, 0.02)
	require.NotContains(t, bandsOf(1e-4, 0.03, 0.002, 0.0201).levels, 0.02)
	require.NotContains(t, bandsOf(1e-4, 0.02000001, 0.002, 0).levels, 0.02)
	require.Contains(t, bandsOf(1e-4, 0.03, 0.002, 0.0021).levels, 0.002, "the limit always")
}

func TestBandsOffTheMap(t *testing.T) {
	for _, c := range []struct{ low, high float64 }{{0.01, 0.03}, {0.0101, 0.0102}, {1e-4, 1e-3}, {1.01e-4, 1.02e-4}, {0.003, 0.003}} {
		b := bandsOf(c.low, c.high, 0.002, 0)
		require.Equal(t, -1, b.limit)
		require.Equal(t, len(b.levels)+1, len(b.colors))
		for _, shade := range b.colors {
			require.Equal(t, c.low <= 0.002, sand(shade), "%v", c)
		}
	}
}

// sand tells that a colour has more red than blue.
func sand(c palette.Colour) bool { return c.NRGBA().R > c.NRGBA().B }

// The label of a level can be read on its ground.
func TestTonesAreLegible(t *testing.T) {
	b := bandsOf(1e-5, 0.03, 0.002, 0.025)
	for i := range b.levels {
		x, y := palette.Luminance(b.tone(i)), palette.Luminance(b.colors[i+1])
		require.GreaterOrEqual(t, (math.Max(x, y)+0.05)/(math.Min(x, y)+0.05), 4.5, "level %d", i) // WCAG 2.1, criterion 1.4.3
	}
}
