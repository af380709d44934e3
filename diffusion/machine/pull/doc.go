// Package pull is the tension of a strand on its way from a spool to a feeder: past guides, over rollers and drums, along floors; and what the tension does to the
// strand. It knows nothing of polymers, shapes of chambers, or files: what a strand bears and how stiff it is where it is hot the caller says, each as a [Range]. All in SI units.
//
// [Along] goes through the [Stage]s in order. Each takes the tension T₁ before it, which is never negative, and gives the one after it, T₂.
//
// # Equations
//
//	spool that is dragged      T₂ = T₁ + F
//	fixed guide                T₂ = T₁ exp(μθ) + B
//	roller, drum that drags    T₂ = T₁ + B + μb (P + W) db/(2 R)
//	driven drum                T₂ = the tension that is left behind it, but at least T₁ exp(-μθ), below which the strand slips
//	floor                      T₂ = T₁ + μ ρ A g L
//	bend                       B = h E I/(2 r²),  I = π d⁴/64
//
// θ is the angle of wrap, P = √(T₁² + T₂² − 2 T₁T₂ cos θ) what both tensions press on the axle with, W the weight, which is added as if it pointed the same way, db the diameter of the
// bearing's bore, R the radius of the roller's centre line of strand. M = μ P d/2 is the friction moment of rolling-bearing handbooks, whose μ is 0.0010 to 0.0015 for deep groove balls and 0.0020 to
// 0.0030 for needles, without seals and grease that is cold; 0.01 to 0.02 for a plain bearing that floats in oil, 0.1 to 0.3 dry (this from memory). exp(μθ) is Euler's and Eytelwein's
// equation (any textbook of statics).
//
// B is the work of bending and straightening per length of strand, of which a share h of what the bend stores is lost. For one bend from straight and back in a solid whose loss factor is tan δ,
// h = (π/2) tan δ: the loss of a full cycle of half the strain to both sides, over what the whole strain stores. Glassy strands, tan δ 0.01 to 0.1, lose 0.02 to 0.15 so; one that lies on its bend for minutes
// or near its softening relaxes there and loses 0.5 and more, up to 2 where it has to be straightened as hard as it was bent (these shares from memory).
//
// Stress is tension over section; strain is stress over the modulus where that is known; a strand that is stretched by ε falls in diameter to (1+ε)^(−ν), which is 1 − νε where both are small, and
// 1/√(1+ε) at constant volume, ν = 0.5.
//
// # Ranges
//
// Of each quantity the low, the middle and the high value are taken together, all low, all middle, all high: no odds, but the ends of what may be. Where a high value makes the pull low, as the grip of a driven
// drum, it is turned round.
//
// # What is left out
//
// Creep: what is pulled hot for long goes on stretching, so that the strain here is the least. The set of a strand that was wound on a spool, jerks, knots, the inertia of a spool, crossed turns that
// jam; the weight of strand that is lifted; slip on a dragged drum; friction that depends on load and speed. A stiff strand lies on less of a guide than θ and presses on it less (Jung, Pan and Kang, Tribology International 41 (2008) 524, on rods round a capstan), so that
// exp(μθ) is rather too much.
package pull
