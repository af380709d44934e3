// Package moisture shows the moisture of a strand as colour: over two axes, with the limit, with where nobody can tell on which side of it a strand is, and
// with where a strand softens ([Map]); and over the section of a strand ([Disc]).
//
// Colours run from sand (dry) over near white (at the limit) to dark blue (wet); lightness falls steadily to each side of the limit, so that the order
// survives in grey.
package moisture
