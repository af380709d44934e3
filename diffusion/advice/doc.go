// Package advice finds what holds a design back, and what would do.
//
// A change is one that a builder can make: a longer, hotter or better supplied drying zone, drier air in it or behind it, another feed, a
// shorter way through what wets the strand, less heat where it softens. Each goes up to a bound ([Bounds]). Advice is the smallest set
// of changes, of one, two or three, with which the strand is dry nine times in ten and does not soften; each change is
// no greater than the set needs, and written down as one would build it. It is sought with single marches at the design
// point of the odds ([diffusion.DesignPoint]); what is told has been assessed as it is written ([diffusion.March.Assess]), so that it holds when it is done.
//
// What is left out: other materials, other ways of leading the strand, cost.
package advice
