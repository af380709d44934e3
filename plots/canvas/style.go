package canvas

import (
	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg/draw"

	"strandry/plots/palette"
)

// The sheet [pt]: 600 points are 800 pixels at 96 to the inch.
const (
	Width  Length = 600
	Margin Length = 14
)

// Sizes of type [pt].
const (
	headlineSize Length = 18
	LabelSize    Length = 15
	TickSize     Length = 14
	FooterSize   Length = 11.5
)

// TextStyle is how a text is set, LineStyle how a line is drawn.
type (
	TextStyle = draw.TextStyle
	LineStyle = draw.LineStyle
)

// fonts are the typefaces; they remember what they have measured, so each sheet has its own.
func fonts() text.Plain { return text.Plain{Fonts: font.NewCache(liberation.Collection())} }

func style(fonts text.Plain, size Length, c palette.Colour, bold bool) TextStyle {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if bold {
		f.Weight = stdfont.WeightBold
	}
	return TextStyle{Color: c, Font: f, Handler: fonts}
}

// Stroke is a line of a width [pt]; dashes and gaps in turn [pt], none for a whole line.
func Stroke(c palette.Colour, width Length, dashes ...Length) LineStyle {
	return LineStyle{Color: c, Width: width, Dashes: dashes}
}

// Dashed is the usual pattern of dashes.
func Dashed() []Length { return []Length{7, 4} }

// Dotted is the usual pattern of dots.
func Dotted() []Length { return []Length{2, 3} }
