// Package size finds the value of one number of a scenario at which the strand just
// meets its limit.
//
// The content at the nozzle over the limit, as a logarithm, is followed as a function of the value:
// on a logarithmic scale for what is above zero and spans decades (lengths, speeds, flows, times,
// diffusivities), else on an even one. The ends of the range and a coarse grid
// between them are evaluated first, for drying need not be monotone: a slower feed dries
// longer in the heat and takes up water for longer behind it. Where nothing on
// the grid meets the limit, the lowest place is refined, and is the best that can be had. A
// bracket is narrowed by package root. Lengths of a zone with air that one march settles come
// from one march ([diffusion.March.RunLengths]).
//
// A temperature of air is sought up to the usual highest drying temperature, and no further than the strand holds,
// unless the request says so. Of every value that is tried it is known whether the strand survives it.
//
// Left out: two values at once, and limits met only in a stretch narrower than the grid.
package size
