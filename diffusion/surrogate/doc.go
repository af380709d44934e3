// Package surrogate stands in for a function that is dear to compute, so that it can be asked thousands of times: a smooth function of a few
// standard normal unknowns, such as the logarithm of a content. It is fitted to some thirty values, more where it is told to be off.
//
// It is a Gaussian process, or kriging: a plane, and what differs from it drawn towards the values nearby, with the correlation
//
//	(1 + √5 d + 5/3 d²) exp(-√5 d),  d² = Σ ((zᵢ - z'ᵢ)/ℓᵢ)²
//
// of order 5/2 after Matérn (Rasmussen & Williams, Gaussian Processes for Machine Learning (2006), equations 2.39 to 2.41 for the plane, 4.17
// for the correlation). The length ℓᵢ of each unknown is one over what it alone changes the function by, but for a common factor, of five the one with
// which the values are the most likely (5.8 there). The error is told by leaving out each value in turn (5.12 there).
//
// Besides the centre, places on the axes and draws, the function is asked on the line of steepest change through the centre, where most of what
// happens to it can be seen; its direction is that of an active subspace of one dimension (Constantine, Active Subspaces, SIAM (2015)).
package surrogate
