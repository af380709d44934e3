// Package figure draws the answers of strandry: one house style, as PNG, SVG and
// PDF. It is fed with plain data in SI units and computes nothing but its headline
// and what lies between the points of a line or a map; people's units (°C, mm, % of dry
// weight) are set here. It draws on [canvas.Page]; moisture as colour is that of package moisture.
//
// Every figure is a struct that [EncodeAll] turns into a file's bytes: [Path],
// [Profiles], [Heatmap], [Section], [Map], [Line], [Needed], [Suits], [Doubt], of the dryer as it is built [Machine] and [Filling], of weighings [Masses] and [Residuals], and of the
// validation [Convergence] and [Evidence]. Data that are
// empty, ragged, NaN or infinite are refused. The same data give the same bytes.
//
// # The style
//
// A headline that says what is seen, with its number; the limit always drawn, named and black; scenario, version and settings at the
// foot. A line is told from its neighbour by its label and pattern, never by its colour alone.
//
// Lines take the colours of Okabe & Ito, Color Universal Design (2008), which
// people with each of the usual deficiencies can tell apart.
//
// # What is left out
//
// Interaction, other languages, scripts that the typeface lacks.
package figure
