// Package materials holds what is known of polymers and the water in them: each
// number with its unit, its low and high end, the kind of knowledge it is, and its
// source.
//
// # Model
//
// Moisture C is kg of water per kg of dry polymer. Its diffusivity is
//
//	D(T, C) = D_ref exp(-(E/R)(1/T - 1/T_ref)) exp(beta C)
//
// with the activation energy E constant in pieces between temperatures where the
// data show a break, and D continuous there. Equilibrium with air of water activity
// a (relative humidity at the temperature of the polymer) is one of
//
//	Henry      C = C_sat a
//	GAB        C = w_m c k a / [(1 - k a)(1 - k a + c k a)]
//	two-term   C = L a + P a^n
//
// times the van 't Hoff factor exp(-(dH/R)(1/T - 1/T_ref)), which in the two-term form
// acts on L alone (Broudin et al. 2015: in PA66 the temperature dependence lies in the
// term of low activity), dH being the enthalpy
// of mixing, which is the heat of sorption plus that of vaporisation.
//
// # Doubt
//
// Of each number, value is the median, and nine times in ten the truth lies between low and high: they are its
// 5 and 95 % points. The form is log-normal for what cannot be zero or less, and normal for the rest: a temperature [K], beta
// and the enthalpy of mixing. A lopsided range has two pieces, each half of such a curve with a deviation of its own:
//
//	log-normal   ln(high/value)/1.645 above the median, ln(value/low)/1.645 below
//	normal       (high - value)/1.645 above, (value - low)/1.645 below
//
// 1.645 being the 95 % point of the normal distribution. The scatter f of a diffusivity says the same of it in one
// number: D/f to D f. In the library the two agree, and each value lies strictly between its ends. A number that a user
// gives without a range has no doubt.
//
// # Softening
//
// A strand that is pulled stretches, or sticks to what it touches, from some temperature on: near the glass
// transition where it is amorphous, near the onset of melting where it is semicrystalline, where the hard segments
// soften in a polyurethane. Softening is that temperature as a median with its 5 and 95 % points; it is not a
// deflection under a stated load, which says little of a semicrystalline strand. It does not fall with the water
// content here, though for poly(vinyl alcohol) and the like it does.
//
// # Left out
//
// Swelling, crystallisation, relaxation of glassy polymers (two-stage sorption),
// hysteresis between drying and wetting, the fall of the glass transition with
// water content, and clusters of water that lower D at high activity.
//
// # Files
//
// The library is a set of TOML files, one for each polymer, embedded in the
// program. A user's file has the same form; with a line such as base = "pa6" it
// states only what differs. [Lookup] takes a polymer from the library, [Resolve]
// from the library or a file, [Read] from a text, [ReadTable] from a table inside
// another file.
package materials
