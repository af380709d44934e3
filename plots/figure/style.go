package figure

import (
	"image/color"
	"math"

	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"strandry/plots/palette"
)

// Size of the sheet [pt]: 600 points are 800 pixels at 96 to the inch.
const (
	sheetWidth  vg.Length = 600
	sheetHeight vg.Length = 450
	margin      vg.Length = 14
)

// Sizes of type [pt].
const (
	headlineSize vg.Length = 18
	labelSize    vg.Length = 15
	tickSize     vg.Length = 14
	footerSize   vg.Length = 11.5
)

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

func ink() color.NRGBA   { return rgb(0x1a1a1a) }
func quiet() color.NRGBA { return rgb(0x595959) } // 7:1 on white
func rule() color.NRGBA  { return rgb(0x8c8c8c) }
func faint() color.NRGBA { return rgb(0xe3e3e3) }
func paper() color.NRGBA { return rgb(0xffffff) }

// The colours of Okabe & Ito (2008).
func blue() color.NRGBA        { return rgb(0x0072b2) }
func vermilion() color.NRGBA   { return rgb(0xd55e00) }
func green() color.NRGBA       { return rgb(0x009e73) }
func purple() color.NRGBA      { return rgb(0xcc79a7) }
func orange() color.NRGBA      { return rgb(0xe69f00) }
func buildable() color.NRGBA   { return paper() }       // what can be built
func beyondReach() color.NRGBA { return rgb(0xefefed) } // what cannot
func heated() color.NRGBA      { return rgb(0xfbf0dc) } // a tint of orange
func unheated() color.NRGBA    { return rgb(0xeaf3fa) } // a tint of sky
func driest() color.NRGBA      { return rgb(palette.Dry.Mark()) }
func wettest() color.NRGBA     { return rgb(palette.Wet.Mark()) }
func doubted() color.NRGBA     { return rgb(0xd2cfca) } // a tint of what unsure looks like: a band of doubt
func atLimitDry() color.NRGBA  { return rgb(0xfbf1dc) }
func atLimitWet() color.NRGBA  { return rgb(0xdcebf7) }

// mix blends two colours, share 0 giving a and share 1 giving b.
func mix(a, b color.NRGBA, share float64) color.NRGBA {
	share = math.Min(math.Max(share, 0), 1)
	at := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + (float64(y)-float64(x))*share)) }
	return color.NRGBA{R: at(a.R, b.R), G: at(a.G, b.G), B: at(a.B, b.B), A: 0xff}
}

// legible darkens a line's colour for its label, so that small type reads on white.
func legible(c color.NRGBA) color.NRGBA { return mix(c, rgb(0), 0.35) }

// ordered gives n colours for lines that have an order, from light to dark.
func ordered(n int) []color.NRGBA {
	stops := []color.NRGBA{rgb(0xd98b0c), rgb(0xc4512a), rgb(0x8f2c5c), rgb(0x2b1d4e)}
	out := make([]color.NRGBA, n)
	for i := range out {
		at := 0.0
		if n > 1 {
			at = float64(i) / float64(n-1) * float64(len(stops)-1)
		}
		k := min(int(at), len(stops)-2)
		out[i] = mix(stops[k], stops[k+1], at-float64(k))
	}
	return out
}

// typesetter holds the fonts.
type typesetter struct{ text.Plain }

func newTypesetter() typesetter {
	return typesetter{text.Plain{Fonts: font.NewCache(liberation.Collection())}}
}

func (t typesetter) style(size vg.Length, c color.Color, bold bool) draw.TextStyle {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if bold {
		f.Weight = stdfont.WeightBold
	}
	return draw.TextStyle{Color: c, Font: f, Handler: t.Plain}
}

func stroke(c color.Color, width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: c, Width: width, Dashes: dashes}
}

func solid() []vg.Length  { return nil }
func dashed() []vg.Length { return []vg.Length{7, 4} }
func dotted() []vg.Length { return []vg.Length{2, 3} }

// linear undoes the transfer curve of sRGB (IEC 61966-2-1).
func linear(channel uint8) float64 {
	c := float64(channel) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}
