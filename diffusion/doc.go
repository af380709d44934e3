// Package diffusion follows a strand of polymer through its zones and tells how
// wet it is at the end.
//
// A [Model] is a strand, what it lay in and what it runs through, in SI units; [March.Run] follows it and fills a [Result]. A [Design] is a
// model and what is asked of it, the [Target]: [March.Assess] gives the [Assessment], which is a result with its numerical
// error, the odds of meeting the limit when all that is not known for sure is drawn, and the verdict. Whatever is left at zero is the usual: see the fields.
//
// # Moisture
//
// C(r, t) is the moisture content, kg water per kg dry polymer. Along the strand
// nothing diffuses; a cross-section is followed through time, position being
// feed speed times time:
//
//	∂C/∂t = (1/r) ∂/∂r ( r D(T, C) ∂C/∂r ),   D = D_dry(T) exp(β C)
//
// with the symmetry on the axis and, at r = R,
//
//	-ρ D ∂C/∂r = φ k_m (a(C, T) p_sat(T) - p_v) / (R_v T)
//
// where T is the temperature of the strand's surface, a the water activity by the
// inverse isotherm, p_v the vapour pressure of the air, k_m the film
// coefficient and φ one. Where a cover wanders round the strand (Contact), φ is the share of the perimeter that meets the air;
// where one keeps its place, the section is marched in r and θ (package section), with no flux behind the cover. The vapour
// densities on both sides are taken at the surface temperature, so that the
// driving force is a difference of vapour pressures and vanishes at
// equilibrium.
//
// # Temperature
//
// Each zone exchanges heat with its air (and, by radiation, its wall, taken to
// be at the air's temperature) through h, and water that leaves takes its heat along:
//
//	k ∂T/∂r = h(T) (T_air - T) - (L(T) - ΔH) J   at r = R
//
// with J the mass flux of water [kg/(m² s)], L its heat of vaporisation and ΔH the enthalpy of
// mixing with the polymer. Both coefficients, h and k_m, follow the temperature of the strand's surface.
//
// For a Biot number h R/k of 0.1 or less the strand
// is lumped; above, conduction along the radius is solved by its
// eigenfunctions (Carslaw & Jaeger, Conduction of Heat in Solids, 1959, section
// 7.7, number from memory). Either is exact for a constant h and no evaporation. What the changing coefficient and the
// evaporation add is one more unknown of the same system as the contents, in the shape of the slowest eigenfunction: it
// is implicit, and stands at the wet-bulb temperature where the strand gives off all the water that the film takes.
// The faster eigenfunctions of that difference are left out: see evaporation_test.go for what this costs.
//
// # Air
//
// The air of a zone is without limit, or a flow of dry air that takes up what
// the strand gives: with the strand, against it, or mixed throughout. In a bore open at both ends it is
// what the strand drags along (annular Couette flow, film.DraggedFlow), with it, entering as supplied; vapour
// that diffuses in through the mouths is left out, though at a few millimetres a second it is several times
// what is dragged along; air without limit bounds it from above. A strand below the
// dew point of the air takes up water as from air saturated at its surface; the dew
// itself is not followed, but warned of.
//
// # Survival
//
// A pulled strand stretches or sticks from some temperature on, which is known as a range
// ([materials.Polymer.GivesWay]). The hottest mean of a section, at every step of each zone and in the air of each
// storage, is set against it, and so is the air, which the strand would reach if the feed stopped ([Result.Endures]).
// What softens is never dry.
//
// # Errors
//
// What makes a model, a design or settings unfit is told before the march, a value outside its range as a [RangeError]. A march that has no answer
// says why: [ErrTooLittleAir], which more air may mend; [rosenbrock.ErrStalled], where no step is as exact as the tolerance asks, a coarser one;
// [ErrBelowZero], a finer one. Each tells what is allowed, or what to change, and stands behind the name of its zone, which
// may be one of storage:
//
//	zone "drum": air temperature [K] = 1000: allowed 213.15 to 623.15
//
// # What is left out
//
// How far a strand that gives way stretches, which hangs on pull and time; that the skin is hotter than the mean; that
// water softens it. Swelling and the change of radius; crystallisation; the two-stage sorption of
// glassy polymers, whose slow second stage no Fickian model shows; diffusion
// driven by gradients of temperature; the heat capacity of the water in the strand; conduction along the strand; wound layers that shield each other: a strand
// at rest is a loose one, and a spool dries no faster; what a cover takes up, and its heat: the strand meets that of the air all round.
package diffusion
