// Package shape is how a strand is led through a chamber, and what follows from that by geometry alone: the length of strand that the chamber holds, the size and
// surface of its housing, the section that air passes, how often and how sharply the strand is bent, what of it is covered, and a drawing to scale. It
// knows nothing of polymers, heat or files. All in SI units.
//
// A [Way] is one of three: a straight [Tube], [Passes] to and fro between two rows of rollers, a [Winding] on a turning drum. Way.Lead gives the [Lead]; Way.ForLength
// is the inverse, Way.Most is the longest of the kind that a box can take, [Fits] tells whether it fits at all, Way.Outline draws it.
//
// # Equations
//
// Of a strand of diameter d, by plane and solid geometry (any handbook of mathematics):
//
//	half circle on a roller of diameter D       π (D + d)/2
//	one turn of a helix of radius r, pitch p    √((2π r)² + p²), its radius of curvature r (1 + (p/2πr)²)
//	layer k of a winding, from 0                r = D/2 + d/2 + k d
//	strain of the outer fibre over a bend       d/(2R + d), R the radius of what it is bent over
//
// A further layer of a winding goes back the way that the one below came; its turns cross those below, so that it lies a whole diameter farther out.
//
// # What is left out
//
// How much less air a layer meets that lies below others, or between turns that are close: air that creeps in there is not known from geometry. A crossing layer touches at
// points, but is counted as if it touched a line. Sag, slack, the flanges and widths of rollers and drums (they have to fit in the gap), ports, hangers, insulation, the short
// ends between the housing and the first and the last roller, the step from layer to layer: a chamber holds a little more strand than is said. The inside of a drum is closed; no
// air passes it.
package shape
