// Package surrogate stands in for a function that is dear to compute, so that it can be asked thousands of times: a smooth function of a few
// standard normal unknowns, such as the logarithm of a content. It is fitted to some seventy values.
//
// The unknowns mostly act as one: each shifts the function along one curve. So the function is computed along the line of steepest change
// through the centre, g(t), and what remains is a small shift of t, a polynomial of degree two in the unknowns z:
//
//	f(z) ≈ g(t + q(z)),  t = α·z.
//
// Where g is not monotone or the shift describes the values less well than an addition, f(z) ≈ g(t) + q(z) is taken. The coefficients of q
// are least squares; which of the forms is taken, and the error, come from leaving out each value in turn.
//
// The direction is that of an active subspace of one dimension (Constantine, Active Subspaces, SIAM (2015)); polynomials of normal unknowns
// for the doubt of a result go back to Wiener, Am. J. Math. 60:897-936 (1938).
package surrogate
