package figure

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// contrast is the ratio of WCAG 2.1 (W3C 2018), section "contrast ratio".
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func TestContrastRatio(t *testing.T) {
	require.InDelta(t, 21, contrast(rgb(0x000000), rgb(0xffffff)), 1e-9) // WCAG 2.1: black on white
}

// Text needs 4.5 to its ground, WCAG 2.1, success criterion 1.4.3.
func TestTextIsLegible(t *testing.T) {
	const least = 4.5
	require.GreaterOrEqual(t, contrast(quiet(), paper()), least)
	for _, ground := range []color.NRGBA{heated(), unheated(), buildable(), beyondReach()} {
		require.GreaterOrEqual(t, contrast(quiet(), ground), least, "%v", ground)
	}
	lines := append(ordered(6), blue(), vermilion(), orange(), purple())
	for _, c := range lines {
		require.GreaterOrEqual(t, contrast(legible(c), paper()), least, "%v", c)
	}
	m := &filled{bands: bandsOf(1e-5, 0.03, 0.002, 0.025)}
	for i := range m.bands.levels {
		require.GreaterOrEqual(t, contrast(m.tone(i), m.bands.colors[i+1]), least, "level %d", i)
	}
}

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
		require.Less(t, luminance(b.colors[i-1]), luminance(b.colors[i]))
	}
	for i := b.limit + 1; i+1 < len(b.colors); i++ {
		require.Less(t, luminance(b.colors[i+1]), luminance(b.colors[i]))
	}
	require.Greater(t, int(b.colors[0].R), int(b.colors[0].B), "dry is sand")
	require.Greater(t, int(b.colors[len(b.colors)-1].B), int(b.colors[len(b.colors)-1].R), "wet is blue")
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
			require.Equal(t, c.low > 0.002, shade.B > shade.R, "%v", c)
		}
	}
}
