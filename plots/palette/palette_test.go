package palette

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// seen is a colour as linear light, 0 to 1 (IEC 61966-2-1).
func seen(colour Colour) (rgb [3]float64) {
	for i := range rgb {
		c := float64(colour>>(16-8*i)&0xff) / 255
		if rgb[i] = c / 12.92; c > 0.04045 {
			rgb[i] = math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return rgb
}

// contrast is the ratio of WCAG 2.1 (W3C 2018), section "contrast ratio".
func contrast(a, b Colour) float64 {
	x, y := Luminance(a), Luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func TestContrastRatio(t *testing.T) {
	require.InDelta(t, 21, contrast(0x000000, 0xffffff), 1e-9) // WCAG 2.1: black on white
}

// Text needs 4.5 to its ground, WCAG 2.1, success criterion 1.4.3.
func TestTextIsLegible(t *testing.T) {
	const least = 4.5
	for _, ground := range []Colour{Paper, Heated, Unheated, BeyondReach} {
		require.GreaterOrEqual(t, contrast(Quiet, ground), least, "%v", ground)
	}
	for _, c := range append(Ordered(6), Blue, Vermilion, Orange, Purple) {
		require.GreaterOrEqual(t, contrast(Legible(c), Paper), least, "%v", c)
	}
}

func TestColours(t *testing.T) {
	require.Equal(t, color.NRGBA{R: 0x12, G: 0xab, B: 0xfe, A: 0xff}, Colour(0x12abfe).NRGBA())
	require.Equal(t, color.NRGBAModel.Convert(Colour(0x12abfe)), Colour(0x12abfe).NRGBA())
	require.Equal(t, "#0072b2", Blue.Hex())
	require.Equal(t, Colour(0x804001), Mix(0xff8002, 0x000000, 0.5))
	require.Equal(t, []Colour{0xff8002, 0x000000}, []Colour{Mix(0xff8002, 0, -1), Mix(0xff8002, 0, 2)})
	require.Equal(t, []Colour{0xd98b0c}, Ordered(1))
	require.Equal(t, Colour(0x2b1d4e), Ordered(7)[6])
}

// Ink on ground has the contrast that WCAG 2.2, criterion 1.4.3, asks of text: 4.5 to 1.
func TestContrast(t *testing.T) {
	for _, m := range All() {
		for _, tone := range []Tone{m.Day(), m.Night(), m.Print()} {
			require.GreaterOrEqual(t, contrast(tone.Ink, tone.Ground), 4.5, "%v", m)
		}
	}
}

// Marks of the verdicts keep apart for a dichromat without the receptor for red, or for green: Viénot, Brettel & Mollon, Color Research and
// Application 24:243-252 (1999), whose matrices in linear RGB these are. The distance is that in CIELAB; 2.3 is just noticed.
func TestMarksForDichromats(t *testing.T) {
	for name, l := range map[string][2]float64{"red": {0.11238, 0.88762}, "green": {0.29275, 0.70725}} {
		see := func(colour Colour) [3]float64 {
			c := seen(colour)
			yellow := l[0]*c[0] + l[1]*c[1]
			blue := 0.00401*(c[0]-c[1]) + c[2]
			if name == "green" {
				blue = -0.02234*(c[0]-c[1]) + c[2]
			}
			return lab([3]float64{yellow, yellow, math.Max(blue, 0)})
		}
		verdicts := []Meaning{Dry, Unsure, Wet}
		for i, a := range verdicts {
			for _, b := range verdicts[:i] {
				x, y := see(a.Mark()), see(b.Mark())
				apart := math.Hypot(math.Hypot(x[0]-y[0], x[1]-y[1]), x[2]-y[2])
				require.Greater(t, apart, 20., "%s: %v and %v", name, a, b)
			}
		}
	}
}

// lab is CIELAB of linear sRGB, white D65.
func lab(c [3]float64) [3]float64 {
	f := func(x float64) float64 {
		if x > 216./24389 {
			return math.Cbrt(x)
		}
		return (24389./27*x + 16) / 116
	}
	x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.95047)
	y := f(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
	z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// No two meanings share a word or a sign.
func TestMeaningsDiffer(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range All() {
		for _, s := range []string{m.String(), m.Sign(), m.Mark().Hex()} {
			require.False(t, seen[s], s)
			seen[s] = true
		}
	}
}
