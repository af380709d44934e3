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
// number: D/f to D f. In the library the two agree, and each value lies strictly between its ends. Where a user's file gives the range of a
// diffusivity and no scatter, the range is drawn as it is, lopsided if it is so; a scatter that is stated, in the file or for its base, is the same on both sides.
// A number that a user gives without a range has no doubt.
//
// The numbers are independent of one another, but for those of a diffusivity that were fitted together: weighings tell its value at the reference, the
// activation energy there and beta jointly, often so that a high one and a low other fit as well. In [diffusivity],
//
//	correlation = { activation = -0.31, beta = -0.92, activation_beta = 0.1 }
//
// gives the correlation coefficients of the standard normal deviates z of these: of D_ref with E, of D_ref with beta, of E with beta; each -0.999 to 0.999, absent 0,
// the matrix R of the three positive definite. What is drawn is L z of three independent deviates z, L being the lower factor of Cholesky, R = L Lᵀ, in this order:
//
//	z_D;    a z_D + √(1-a²) z_E;    b z_D + l z_E + √(1-b²-l²) z_beta, l = (c - a b)/√(1-a²)
//
// so that all that asks for independent deviates has the joint law, and the doubt that is ascribed to E is what D does not tell of it. Each number keeps its own range. What is
// certain goes with nothing, and so does the activation energy of a piece that does not hold at the reference. A user who restates reference, value, scatter,
// activation energy or beta and no correlation breaks the fit up: the correlation is left out, and a doubt of the polymer says so.
//
// # What was fitted
//
// A number of the kind "fitted" comes from weighings of the user's own strand. It tells more of that strand than anything published of others of its
// family, and rests on one scale. [FittedFile] writes a material file of such numbers. It states the law where the strand was weighed: reference is a temperature of the
// weighings, where D is known best and the activation energy acts on nothing, and the law is said to hold over the temperatures of the weighings alone.
//
// A key activation in [diffusivity] restates the activation energy of the piece that holds at the reference; the other pieces stay and are joined to it. Without it
// a new value, at a new reference, takes all of the base's law times one factor. One energy that was fitted across a break
// takes the place of all pieces.
//
// # Softening
//
// A strand that is pulled stretches, or sticks to what it touches, from some temperature on: near the glass
// transition where it is amorphous, near the onset of melting where it is semicrystalline, where the hard segments
// soften in a polyurethane. Softening is that temperature as a median with its 5 and 95 % points; it is not a
// deflection under a stated load, which says little of a semicrystalline strand. It does not fall with the water
// content here, though for poly(vinyl alcohol) and the like it does.
//
// # Modulus of elasticity
//
// How far a pull stretches the strand follows from its modulus where it is hot. It is stated cold, at 23 °C, and point by point above,
//
//	youngs_modulus = "2.8 GPa"
//
//	[[modulus]]
//	temperature = "60 °C"
//	value = "1.3 GPa"
//	low = "0.8 GPa"
//	high = "1.9 GPa"
//
// each with kind and source as any other value; [Polymer.Modulus] goes between the points, log E straight over T. Below the first it is that of the first, above the last it is not known. It is
// that of the dry polymer: a strand is pulled through hot dry air. A user's [[modulus]] takes the place of all points of the base above 23 °C, and where it begins at 23 °C or below, of the cold one too;
// then youngs_modulus is not stated beside it. Most points of the library are from memory of dynamic mechanical analysis, which works in seconds. Where temperatures of deflection under load are
// published, they agree: a bar bent to a strain of 0.2 % by 1.8 or 0.45 MPa (ISO 75, from memory) has there, within minutes, a modulus of 0.9 or 0.22 GPa.
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
// states only what differs, which [FittedFile] writes for what was fitted. [Lookup] takes a polymer from the library, [Resolve]
// from the library or a file, [Read] from a text, [ReadTable] from a table inside
// another file.
package materials
