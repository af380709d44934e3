// Package desiccant tells what a bed of silica gel, molecular sieve or calcium chloride does to the air of a closed loop: which dew point it holds as it
// fills, for how long, and what it takes to drive the water out again. All quantities are SI; loads are kilograms of water to one of dry desiccant.
//
// # Equilibrium
//
// [Of] gives the isotherm of a kind, with its source, why it was chosen, where it was held against measured points and how far nine in ten of them lie from it.
//
//	molecular sieves   Toth: w = ws x/(1 + x^n)^(1/n), x = b0 exp(q/T) p, n = n0 + c/T
//	silica gel         Dubinin and Astakhov: w = W exp(-(A/E)^n), A = R T ln(psat/p)
//	calcium chloride   a stair of hydrates, each pair of which holds one vapour pressure
//
// The inverse is closed, and the heat of sorption is -R/M d ln p/d(1/T) at constant load. Silica gel has no Henry law as p falls to 0 (its slope rises
// without end), so loads below a few grams per kilogram are no more than their order of magnitude. Two gels of one name differ by a third.
//
// # Bed
//
// With a rate of water that may depend on the vapour pressure held (dw/dt = rate(p(w))/m), the time to a load is t = ∫ m dw/rate(p(w)), by Gauss and
// Legendre on pieces that are halved until they agree to 1e-12 of the whole.
// The vapour pressure held is that in equilibrium with the mean load of the part of the bed that takes part ([Bed.Share]). No bed that is well mixed holds less, and one that
// is bypassed, or fed faster than its beads take up, holds more: by how much is not known here. A deep bed with air led through it holds less until its front passes.
//
// # Regeneration
//
// Air of a vapour pressure, heated, leaves what the isotherm has at its temperature. The energy is sensible heat, heat of sorption and a stated efficiency.
//
// # What is left out
//
// Kinetics and the pressure drop of a bed, hysteresis, what else than water is taken up (oil, solvents and plasticisers take its place for good), ageing, and how fast
// hydrates form. Temperatures of regeneration are from memory.
//
// # Cautions
//
// [Kind.Cautions] gives them for people: dust, hot beds, indicators, brine.
package desiccant
