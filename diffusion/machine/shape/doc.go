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
//	hydraulic diameter                          4 × section / wetted perimeter; bore − d in an annulus
//
// A further layer of a winding goes back the way that the one below came; its turns cross those below, so that it lies a whole diameter farther out. What a layer sees of
// the open air is the share of straight lines from its surface, even in all directions, that reach the gap: for a row of cylinders of diameter d spaced p
// before a plane, of what leaves the plane the row takes
//
//	F = 1 − √(1 − x²) + x arctan(√(1 − x²)/x),   x = d/p
//
// (infinite plane and row of cylinders: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Table 13.1, from memory; Hottel's crossed strings give the same),
// so that a strand of the row sees F/(πx) of it: a half where it lies alone on its drum, 1/π where the turns touch. Each layer above lets 1 − F through.
//
// # What is left out
//
// What sight costs in coefficients of heat and mass: air that creeps in between turns is not known from geometry, so that [Layer].Sight ranks windings and is no factor
// of a film. A crossing layer touches at points, but is counted as if it touched a line. Sag, slack, the flanges and widths of rollers and drums (they have to fit in the gap), ports, hangers, insulation, the short ends between the housing and the first and the last roller, the step from
// layer to layer: a chamber holds a little more strand than is said. The inside of a drum is closed; no air passes it.
package shape
