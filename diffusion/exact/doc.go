// Package exact holds closed-form solutions of radial diffusion in a solid
// cylinder, to be set against numerical ones.
//
// The equation is
//
//	∂c/∂t = (1/r) ∂/∂r ( r D ∂c/∂r ) + S,   0 < r < a,   ∂c/∂r = 0 at r = 0,
//
// for a concentration c that does not vary along the axis or around it. The
// same functions give the temperature in transient conduction, with the
// thermal diffusivity in the place of D.
//
// Most functions are dimensionless: x = r/a is the relative radius [-],
// Fo = D t/a² the Fourier number [-], Bi = k a/D the Biot number [-] with k
// the film coefficient in units of the solid [m/s], and the concentration is
// the fraction of the initial difference that is still left, (c − c∞)/(c0 − c∞).
// The mean is the volume mean, 2∫c x dx over 0 < x < 1; the fractional
// exchange Mt/M∞ is one minus the mean.
//
// Held are: a surface kept at a value (Constant…), a film at the surface
// (Robin…), a surface that rises linearly (Ramp…) or approaches its last value
// exponentially (Approach…), a film whose coefficient, surroundings and
// diffusivity change in steps (Profile), two steady states with D = D0 exp(kc),
// a moving front with D = 2c, and a manufactured solution with D = exp(1.2 c).
//
// Left out: axial and angular variation, a radius that changes, and any
// diffusivity that varies in both time and concentration.
//
// As in package math, a function whose argument lies outside the range stated
// returns NaN; nothing panics. Series are summed until the terms left out are
// below 1e-16, so the errors stated are those of rounding.
//
// Sources: J. Crank, The Mathematics of Diffusion, 2nd ed., Oxford 1975, ch. 5;
// H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed.,
// Oxford 1959; M. Abramowitz and I. A. Stegun, Handbook of Mathematical
// Functions, 1964, ch. 9. Equation numbers are quoted from memory.
package exact
