// Package root finds where a continuous function of one variable passes zero.
//
// [Find] narrows a bracket by inverse quadratic interpolation, and by bisection
// where that would not be safe: T. R. Chandrupatla, Advances in Engineering
// Software 28 (1997) 145 (from memory). Near a simple zero the number of right digits
// nearly doubles with each value of the function; it never needs many more than
// bisection. [Least] finds a minimum by parabolas, and by golden sections where they would not be safe (R. P. Brent,
// Algorithms for Minimization without Derivatives (1973), from memory, simplified). A [Walk] is what was seen on the way to either: whether the
// sign has changed, and whether it does so twice between two places.
//
// Left out: zeros without a change of sign, derivatives, several variables.
package root
