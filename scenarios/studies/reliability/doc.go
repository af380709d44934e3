// Package reliability finds from where on a limit is met nine times in ten.
//
// It starts where the limit is met at the medians of all that is in doubt, and goes on into the stretch where it is, in steps that the
// probability found so far suggests, until it is met nine times in ten. Package root narrows what lies between, on the
// scale of standard normal deviates, on which the probability is nearly a straight line. Where it passes
// its best on the way, as where a strand dries and is wetted again, the best is sought.
//
// Over the lengths of a zone the estimate of package diffusion tells where the limit is met at the design point of the odds that are known, which is the first step; the walk asks for
// odds like those at two or three lengths, and what it finds is marched once more where none of them was near.
//
// Left out: stretches that lie outside that of the medians, and a second stretch in it.
package reliability
