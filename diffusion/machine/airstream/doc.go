// Package airstream gives the balances of flowing moist air: mixing, heating, and the water
// of a chamber through which air and strands run.
//
// # Equations
//
// A [Stream] is a flow of dry air G [kg/s] with humidity ratio w [kg/kg] and temperature T [K]. What
// streams mix without heat and without fog obeys
//
//	G = Σ Gi,  G w = Σ Gi wi,  G h(T, w) = Σ Gi h(Ti, wi)
//
// with the enthalpy of [strandry/materials/humidair], h = 1006 t + w (2501 kJ/kg + 1860 t), so that T
// follows without iteration (ASHRAE Handbook of Fundamentals, 2017, ch. 1, adiabatic mixing of two moist
// airstreams). Heat added changes h alone.
//
// A [Chamber] is well mixed: supply S, leak L of room air, strands that give W [kg/s] of water, and a flow R
// that goes round through a dryer, which takes it the share e of the way from the chamber's ratio w to
// its own limit wd. As much dry air leaves as comes in.
//
//	w = (S ws + L wl + e R wd + W)/(S + L + e R)
//
// # What is left out
//
// Fog: where a mixture's [Stream.Humidity] is above 1 water would condense, and it would be warmer than said.
// Water held back by walls and desiccant in time; a chamber that is drier at one end than at the other.
package airstream
