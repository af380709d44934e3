// Package sensitivity tells which of several independent standard normal unknowns decide the value of a function, such as a surrogate, that
// can be asked some hundred thousand times.
//
// # Indices
//
// Of the variance V of f(z), an unknown by itself explains the share of its first-order index, and with all in which it takes part that of its
// total index (Sobol, Math. Model. Comput. Exp. 1:407-414 (1993); Homma & Saltelli, Reliab. Eng. Syst. Saf. 52:1-17 (1996)):
//
//	S_i = Var E[f | z_i] / V,    T_i = E Var[f | all but z_i] / V.
//
// From two sets of draws A and B, and A with the column i of B,
//
//	V S_i ≈ mean of f(B) (f(AB_i) - f(A)),    V T_i ≈ mean of (f(A) - f(AB_i))² / 2,
//
// the estimators of Saltelli et al., Comput. Phys. Commun. 181:259-270 (2010), and Jansen, Comput. Phys. Commun. 117:35-43 (1999). The first can
// come out below zero, by its error alone, and is then zero; it can come out above the second, and is then that.
//
// # Intervals
//
// Each index has an interval that holds it nine times in ten. It joins two errors. That of the draws comes from blocks of them. That of a surrogate
// comes from adding to it random smooth functions (sums of cosines along random directions, Rahimi & Recht, Adv. Neural Inf. Process. Syst. 20 (2007)) as large as what
// it is off by, and somewhat more: the truth is the surrogate and some such function. How fast these vary is a choice; that the intervals hold is tested.
//
// # Widths
//
// What an interval is worth to who measures is its width: the 10 to 90 % range of f, and what is left of it, on average over where the truth may lie, when
// some unknowns are known.
package sensitivity
