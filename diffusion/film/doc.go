// Package film gives the film coefficients between a thin strand and the air
// around it: heat h [W/(m2 K)], mass k_m [m/s], and the radiation coefficient
// from the walls.
//
// # Model
//
// A Nusselt number comes from a published correlation for the kind of flow:
// natural convection, flow across the strand, flow along it, or fully developed
// laminar flow in the annulus between strand and tube, under pressure or dragged
// along by the strand. Natural convection is driven by √(ΔT² + (2 K)²), since air
// never stands quite still. The properties of the
// air are taken at the film temperature, half-way between strand and air. Mass
// follows from heat by the analogy of Chilton and Colburn,
//
//	h/k_m = ρ cp Le^(2/3)
//
// in fully developed laminar flow, where Sh = Nu, with Le in place of its power,
// and drives on vapour density: flux = k_m (ρv,surface - ρv,air) [kg/(m2 s)].
// [At] picks and combines the correlations and tells which it used, how good
// they are, and where it had to leave their range. A [Law] gives the coefficients
// of one zone as a function of the strand's temperature, for little time.
//
// # What is left out
//
// Turbulence of the incoming air, the neighbourhood of other strands (a winding,
// a pack), rollers and guides that shade the surface, buoyancy by moisture, and
// the outward wind of fast evaporation (below 1 % while the vapour is below
// 1 % of the air). Radiation treats the strand as a small grey body in a large
// enclosure. The strand's own speed is small beside that of the air; where it is
// not, the air speed to give is the relative one.
//
// A strand that holds much water has a large Biot number for mass in any moving
// warm air: there the film hardly matters, and an error of a fifth in k_m is
// lost. It matters in slow air, in cool zones and for polymers that take up
// little.
package film
