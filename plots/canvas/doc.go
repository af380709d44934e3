// Package canvas is the paper that figures are drawn on: a [Page] with a headline and a foot, panels with two axes in the room between them, words that find
// a free place, and the files PNG, SVG and PDF. It knows nothing of what is drawn, and is the only importer of gonum/plot.
//
// # The style
//
// A headline on top; the axis label with its unit above the vertical axis, so that nobody has to turn the head; lines labelled in place; what the figure
// holds for at the foot. Type is set for a width of 800 pixels and can still be read at 390.
//
// In PDF the letters are outlines: they look the same everywhere, but cannot be searched.
package canvas
