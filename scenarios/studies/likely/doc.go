// Package likely finds from where on a limit is met nine times in ten.
//
// It starts where the limit is met at the medians of all that is in doubt, and goes on into the stretch where it is, in steps that the
// probability found so far suggests, until it is met nine times in ten. Package root narrows what lies between, on the
// scale of standard normal deviates, on which the probability is nearly a straight line. Where it passes
// its best on the way, as where a strand dries and is wetted again, the best is sought.
//
// Over the lengths of a zone the design point of package diffusion tells first where to look, in a few marches, and a surrogate over the lengths about that place finds it.
// Where it is not there, the stretch is walked through as above.
//
// Left out: stretches that lie outside that of the medians, and a second stretch in it.
package likely
