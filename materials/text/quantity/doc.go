// Package quantity reads physical quantities written as text ("12 m", "-20 °C",
// "8.7e-11 m2/s") into SI numbers and writes SI numbers back for people.
//
// A [Dimension] is a named list of units, each a factor (and for temperatures an
// offset) to SI. The spelling of a unit is free within reason: "m2", "m²" and
// "m^2" are the same, and so are "W/m2/K", "W/(m2 K)", "W/m²·K" and
// "W m-2 K-1": everything behind the first solidus belongs to the denominator.
// Letters keep their case (mPa is not MPa). What people write besides and can mean one thing only is understood: "65 C",
// "5 lpm", "50 %RH", "2 mm/sec", "6 hours", "2,5 mm", "1.5×10^-13 m²/s". What can be read in two ways is refused with
// what to write instead: "1,750 mm", "65°", "10 m" for a time, standard litres.
//
// Left out on purpose: arithmetic between units, compound quantities such as
// "1 h 30 min", and numbers without a unit, which are faults.
//
// Factors are those of the SI Brochure, 9th edition (BIPM 2019) and, for the
// calorie (thermochemical, 4.184 J), the degree Fahrenheit, inch, foot, atmosphere and pound per square inch, of NIST
// Special Publication 811 (2008), appendix B.8.
package quantity
