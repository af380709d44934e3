// Package keeps tells how long dry strands stay dry in storage.
//
// For each material it gives the time until the mean content of a dry loose strand in
// given air passes the limit, and how much of the water then sits in the skin; the
// humidity in which it may lie for ever; what one opening of the store costs, and how many a
// day it bears.
//
// # An opening
//
// While the door is open the air has the vapour pressure of the room, or that of saturation at
// the store's temperature where that is less. Then it falls back exponentially,
// p = p_store + (p_room - p_store) exp(-t/τ). The gain of one opening is the highest mean content
// on the way less that of the equilibrium with the closed store, from which the strand
// begins.
//
// # Openings without end
//
// Openings that follow each other at even intervals lead to a state that repeats itself. In it the
// flux averages to zero at every radius, and so the mean over time of G = ∫ D dC is the
// same everywhere: that at the surface. With D = D_dry exp(β C) and the surface in equilibrium
// with the air at every moment, the inside comes to
//
//	C = (1/β) ln [ (1/P) ∫ exp(β C_eq(a(t))) dt ]   over one interval P.
//
// The diffusivity itself does not matter, only how long it takes. To leave the
// film out raises the answer where isotherm and exponential curve upwards, for a film
// smooths the swing of the surface: it errs to the safe side.
//
// Left out: wound spools, whose inner layers are shielded; the warmth that comes in with
// the air; desiccant that is used up.
package keeps
