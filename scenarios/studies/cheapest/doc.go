// Package cheapest looks for the cheapest design of a dryer that does what it is for: dry nine times in ten, cool enough for its strand, within its box and its least bend,
// not pulled too hard, with heaters and a desiccant that do what the scenario states of them. What may be chosen are the [[free]] keys of the scenario.
//
// The cost is that of the parts, at the user's own prices, and of as much running as [search] counts. Each design is marched at the medians, roughly, and its odds are told by those of the design
// of the file ([diffusion.March.OddsLike]), in some eight marches together; the search is that of package optimum. The answer itself is borne out by a full assessment: where that does not find it dry, what
// the odds were off by is kept clear of, and the search goes on. Beside it stands what as many designs drawn at random would have given.
//
// Left out: what a design costs to build beside its parts, its running beyond the hours that are counted, what [build] says beside box and bend (the ends of the free keys say what can be built), and a proof that
// nothing is cheaper.
package cheapest
