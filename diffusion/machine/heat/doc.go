// Package heat gives the heat of a warm chamber: what its wall loses, the power that holds
// it, how long it warms up, how uneven its air is, and what a hand may touch.
//
// # Wall
//
// A [Wall] is a level or standing cylinder or a box. Each face is a chain of resistances: a film inside, the layers of the
// wall, and outside natural convection and radiation side by side. The temperature of its outer surface is where what comes
// through equals what leaves,
//
//	hi Ai (Ti - Tw) = (Tw - Ts)/R = [h (Ts - Tr) + ε σ (Ts⁴ - Tr⁴)] Ao
//
// found by a bracketed root. Layers round a cylinder have R = Σ ln(r₊/r)/(2π k L), plane ones Σ (d/k)/(d S) with
// the shape factor S of a face and its share of the edges and corners of a box, 0.54 L for an edge and 0.15 d for
// a corner (Incropera & DeWitt, Table 4.1). Nusselt numbers: [VerticalPlate] and a level cylinder by Churchill & Chu (1975),
// [PlateUp] and [PlateDown] by McAdams (1954) and Lloyd & Moran (1974), a standing cylinder as a vertical plate whose film is
// wrapped round it; inside the same, joined with [DuctFlow] where the air moves. The properties are those of dry air at the
// film temperature.
//
// # Zone
//
// A [Zone] in its steady state: the heater gives what strands, their water, the air let in, the room air that leaks in and
// the wall take. Warm air leaves with its enthalpy, so that [Zone.Residual] closes the balance from the flows that enter and
// leave. Room air through gaps: [Slot] by a pressure.
//
// # Time and path
//
// [Lumped] has one temperature, C dT/dt = P - UA (T - Tr), solved exactly. On a [Path] the air cools by what the wall loses, T - Tr falls as exp(-NTU x/L), NTU = UA/(m cp).
//
// # What is left out
//
// The warmth of the strand and of the wall inside that radiate to each other; a draught outside, unless its film is given; the stand and the
// cables, which may carry off as much as a small chamber's wall; temperatures that differ from place to place in a wall or in a mass; a thermostat's swing. Correlations
// of natural convection hold to some 20 to 25 %, for small faces (Rayleigh number under 10⁴) no better than a
// factor, so each loss has a low and a high.
//
// # Caution
//
// Numbers here do not make a machine safe: see [Caution].
package heat
