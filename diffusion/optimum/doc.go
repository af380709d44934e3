// Package optimum looks for the place in a box of variables at which a function that is dear to compute is least, where constraints hold. It knows nothing
// of what the function means; what it lowers is called cost.
//
// # Problem
//
// Each variable is continuous between two bounds, on a linear or a logarithmic scale, or one of a list of values. A place has a cost
// and a violation for each constraint, zero or less where the constraint holds, or it has no answer at all. The violations are to be in units
// that can be compared, for where not all hold their sum is lowered first (K. Deb, Comput. Methods Appl. Mech. Eng. 186:311-338 (2000): of two places the one at which all hold is the better, of two
// such the cheaper, of two others that with the smaller sum).
//
// # Search
//
// The first places are spread evenly (A. B. Owen, A randomized Halton algorithm in R, arXiv:1706.02808 (2017)). From the best of them that are far from each
// other several starts go on at the same time. Each keeps a region about its best place; from the places known near by it makes models of the cost and of each constraint, sums of cubes of
// distances and a plane (radial basis functions, as in R. G. Regis, Eng. Optim. 46:218-243 (2014), here in a region that moves), solves those instead by
// differential evolution (R. Storn & K. Price, J. Global Optim. 11:341-359 (1997)) and looks there and at a place that stays as far within the constraints as the models
// were lately off. A region in which a better place is found at its edge grows, one in which none is found shrinks, until it is too small to matter. A new start sets off for each
// that has ended, until several agree or the budget is spent. Last, the best place is compared with its neighbours along each variable, with smaller and smaller steps.
//
// Where there are discrete variables only, and no more places than the budget allows, all are looked at.
//
// Everything is decided by the seed, and places are looked at in batches whose members and order do not depend on the number of cores.
//
// Left out: constraints that must be met exactly, noise, gradients, names without an order, a proof that nothing is better.
package optimum
