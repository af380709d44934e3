// Package doubt tells what decides how sure the answer to a scenario is, and what to measure first.
//
// It looks at the logarithm of the content at the nozzle over the limit: zero is where the verdict turns. All that [diffusion.Design.Unknowns] lists is
// drawn, and the limit with it where it has a range. Shares of the variance and widths are those of package sensitivity, asked of a surrogate of some
// thirty marches.
//
// "Known" is known exactly; what is really measured keeps the error of the measurement. The unknowns are taken as independent, so that to
// measure one says nothing of another. Where diffusivity, activation energy and beta were fitted together, and their doubts are correlated, the activation energy stands for
// what of it the diffusivity does not tell, and beta for what these two do not tell: the factor of Cholesky makes independent ones of them, in this order. Left out: what no range speaks of, such as the form of the laws.
package doubt
