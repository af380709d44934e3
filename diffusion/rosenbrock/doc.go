// Package rosenbrock holds what linearly implicit marches have in common: the
// method, L-stable, of order four, and the control of the step by an
// embedded estimate of its error, the first step by what is known at the beginning. It knows nothing of the equations that are
// marched: package radial and package section bring the fields, the Jacobians
// and what solves them.
package rosenbrock
