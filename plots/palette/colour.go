package palette

import (
	"fmt"
	"image/color"
	"math"
)

// Colour is an opaque colour of sRGB, 0xRRGGBB.
type Colour uint32

// What figures are drawn with.
const (
	Ink   Colour = 0x1a1a1a
	Quiet Colour = 0x595959 // 7:1 on white
	Rule  Colour = 0x8c8c8c
	Faint Colour = 0xe3e3e3
	Paper Colour = 0xffffff

	// Lines, the colours of Okabe & Ito (2008).
	Blue      Colour = 0x0072b2
	Vermilion Colour = 0xd55e00
	Green     Colour = 0x009e73
	Purple    Colour = 0xcc79a7
	Orange    Colour = 0xe69f00

	BeyondReach Colour = 0xefefed // what cannot be built
	Heated      Colour = 0xfbf0dc // a zone that is, a tint of orange
	Unheated    Colour = 0xeaf3fa // a tint of sky
	Bar         Colour = 0xaaa6a0 // a range of doubt, of unsure
	Doubted     Colour = 0xd2cfca // a band of doubt, a tint of what unsure looks like
	AtLimitDry  Colour = 0xfbf1dc // moisture a little below the limit; far below it is that of [Dry]
	AtLimitWet  Colour = 0xdcebf7 // a little above; far above it is that of [Wet]
)

// Hatch is the colour of the lines over what softens.
func Hatch() Colour { return Mix(Softens.Mark(), Paper, 0.35) }

// NRGBA is the colour as pictures hold it.
func (c Colour) NRGBA() color.NRGBA {
	return color.NRGBA{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c), A: 0xff}
}

// RGBA makes a [color.Color] of it.
func (c Colour) RGBA() (r, g, b, a uint32) { return c.NRGBA().RGBA() }

// Hex is the colour as style sheets have it.
func (c Colour) Hex() string { return fmt.Sprintf("#%06x", uint32(c)) }

// Mix blends two colours, share 0 giving a and share 1 giving b.
func Mix(a, b Colour, share float64) Colour {
	share = math.Min(math.Max(share, 0), 1)
	var mixed Colour
	for shift := 0; shift <= 16; shift += 8 {
		x, y := float64(a>>shift&0xff), float64(b>>shift&0xff)
		mixed |= Colour(math.Round(x+(y-x)*share)) << shift
	}
	return mixed
}

// Legible darkens a line's colour for its label, so that small type reads on white.
func Legible(c Colour) Colour { return Mix(c, 0, 0.35) }

// Ordered gives n colours for lines that have an order, from light to dark.
func Ordered(n int) []Colour {
	stops := [...]Colour{0xd98b0c, 0xc4512a, 0x8f2c5c, 0x2b1d4e}
	out := make([]Colour, n)
	for i := range out {
		at := float64(i) / math.Max(float64(n-1), 1) * float64(len(stops)-1)
		k := min(int(at), len(stops)-2)
		out[i] = Mix(stops[k], stops[k+1], at-float64(k))
	}
	return out
}

// Luminance is the relative luminance of a colour, 0 to 1 (IEC 61966-2-1).
func Luminance(c Colour) float64 {
	sum := 0.0
	for i, weight := range [...]float64{0.2126, 0.7152, 0.0722} {
		v := float64(c>>(16-8*i)&0xff) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}
