// Package estimation finds the parameters of a model from readings of an instrument whose display rounds, and the range in which each of them lies.
//
// # Readings
//
// A reading y is what is shown of a true value μ and a noise with the standard deviation σ, rounded to the resolution δ. Its probability is
//
//	P(y | μ, σ) = Φ((y + δ/2 - μ)/σ) - Φ((y - δ/2 - μ)/σ),
//
// Φ being the normal distribution: for σ far above δ that of a normal error, for σ far below it one if μ lies in the step that is shown, and zero if
// not. Rounding is thus no noise that many readings would average out: ten readings of one mass that all show the same tell no more than one.
//
// # Estimates
//
// Least squares find where to begin, with the Jacobian by differences. The parameters and σ are then drawn from their joint distribution given the
// readings, which is the likelihood times the prior: flat between two bounds, or normal where something is known beforehand; for σ flat in its logarithm.
// The draws are those of a Markov chain (Metropolis et al., J. Chem. Phys. 21:1087-1092 (1953)) whose steps have the shape of the distribution
// itself and the size that is best for a normal one (Gelman, Roberts & Gilks, Bayesian Statistics 5:599-607 (1996)). For a linear model, normal errors and no
// bounds the intervals are those of Student's t, from a F test of the profile as well.
//
// # Lack of fit
//
// Residuals of a model that holds have no shape. Their share that lies in a few smooth functions, made orthogonal to what the parameters can do, is compared with
// the same share in readings that are drawn as if the model held, rounding included.
package estimation
