// Package radial marches one-dimensional diffusion in a solid cylinder. It
// knows a radius, a conductance, a potential and a surface condition, and
// nothing of what is diffusing.
//
// # Equation
//
// For a field c(r, t) on 0 <= r <= R,
//
//	∂c/∂t = (1/r) ∂/∂r ( r k(r, t) ∂G(c)/∂r ) + s(r, t)
//
// with ∂c/∂r = 0 on the axis. G is any rising function of c, so that the
// diffusivity is k·G'(c): G = c for a diffusivity that does not depend on c,
// G = (exp(b c) - 1)/b for one that grows exponentially with c. At r = R either
//
//	-k ∂G/∂r = j(t, c, q)      (Exchange: an outward flux density), or
//	c = cs(t)                  (Prescribed).
//
// q is the amount that has left through the surface since the march began, per
// radian and unit length. A flux that depends on q lets the surroundings answer
// to what they have taken up.
//
// A problem may have a companion, a scalar x beside the field on which the conductance and the exchange depend and
// which answers to them, see [Companion].
//
// # Space
//
// Between neighbouring nodes r[i] and r[i+1] take the test function that solves
// (r φ')' = 0 there: linear in ln r, one at its own node and zero at the next;
// the innermost is one from the axis to r[0]. Integrating the equation against
// φ over the two gaps that meet in node i gives, with no approximation,
//
//	∫ φ_i (∂c/∂t - s) r dr = k_i (G[i+1] - G[i])/ln(r[i+1]/r[i])
//	                       - k_(i-1) (G[i] - G[i-1])/ln(r[i]/r[i-1])
//
// for a k that is constant within each gap. However strongly the diffusivity
// depends on c, the flux itself carries no discretisation error. What is
// approximated is the integral on the left: ∂c/∂t is taken as the parabola
// through three neighbouring nodes. The error is of fourth order in the spacing
// on a smoothly graded grid, and the matrices are tridiagonal. A k that varies
// along the radius is met to the second order only.
//
// The mass matrix is not diagonal, and so a sudden pull at the surface moves the next
// node the other way, by up to a tenth of the step. That is gone when diffusion has
// crossed the outermost gap: from then on the field keeps within the range of its
// start and its surroundings to a thousandth of the step, or to a hundredth ahead of
// a front that runs into a less diffusive core. Grid.Lumped is for fronts so steep
// that this is too much. The value on the axis is extrapolated, and where such a front nears the
// innermost nodes it may be off by a hundredth of the step.
//
// The test functions add up to one, so the rows add up to the exact balance
//
//	d/dt Σ w[i] c[i] = -R j,   w[i] = column sums of the mass matrix,
//
// and what leaves equals what is lost, to round-off.
//
// # Time
//
// Linearly implicit Rosenbrock steps, L-stable, of order four, with
// an embedded error estimate that sets the step; one tridiagonal
// factorisation a step and no iteration. The end of a long step is corrected by a share of that estimate, which takes nearly all of the error from what decays
// (rosenbrock.Correction). The first step follows from how fast the surroundings change and from the front that a
// sudden change sends into the field, see package rosenbrock. The derivatives in time are differences
// over 1e-5 of the last step, which leaves an error of the second order some
// hundred-thousandth as large as such a method's. The amount q is carried as one more
// unknown of the same system, and so is a companion; both border the tridiagonal matrix, which
// costs one more solve a step for the companion. The derivatives on it are differences over a millionth of its scale; a companion that is
// [Graded] tells them, and those in time.
//
// # What is left out
//
// Axial diffusion, moving radii, a conductance that depends on c other than
// through G.
package radial
