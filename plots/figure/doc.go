// Package figure draws the answers of strandry: one house style, as PNG, SVG and
// PDF. It is fed with plain data in SI units and computes nothing but its headline,
// what lies between the points of a map, its contours and the places of its labels; people's units (°C, mm, % of dry
// weight) are set here.
//
// Every figure is a struct that [Encode] turns into a file's bytes: [Path],
// [Profiles], [HeatMap], [Section], [Map], [Line], [Needed], [Suits], [Keeps], [Doubt], and of the solver [Convergence] and
// [ErrorTime]. Data that are
// empty, ragged, NaN or infinite are refused. The same data give the same bytes.
//
// # The style
//
// A headline that says what is seen, with its number; the axis label with its unit above the
// vertical axis, so that nobody has to turn the head; lines and contours labelled in place;
// the limit always drawn, named and black; scenario, version and settings at the
// foot. Type is set for a width of 800 pixels and can still be read at 390. A
// line is told from its neighbour by its label and pattern, never by its colour alone.
//
// Lines take the colours of Okabe & Ito, Color Universal Design (2008), which
// people with each of the usual deficiencies can tell apart. Filled maps run from sand
// (dry) over near white (at the limit) to dark blue (wet); lightness falls
// steadily to each side of the limit, so that the order survives in grey.
//
// # What is left out
//
// Interaction, other languages, scripts that the typeface lacks. In PDF the letters are
// outlines: they look the same everywhere, but cannot be searched.
package figure
