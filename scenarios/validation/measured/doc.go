// Package measured sets the library of polymers against figures that others have measured:
// contents at equilibrium, uptakes after a time, diffusivities and how they change
// with temperature.
//
// Each [Figure] names its conditions, its value as stated, its source and where in it
// the value was read. [Compare] predicts it from the library and judges whether the
// measured value lies in the predicted interval. No property is changed to make it do so.
//
// # Records
//
// The figures of each material of the library are in a file of its own, data/figures, each as its source prints it:
//
//	quantity     what was measured, and the conditions that it needs:
//	  equilibrium         content at a temperature and a humidity (100 % is immersion)
//	  uptake              content of a dry plate of a thickness after a time
//	  diffusivity         at a temperature; with a humidity, the mean over sorption to it
//	  activation energy   of the diffusivity, temperature to another
//	  diffusivity ratio   at the second temperature over that at the first
//	  equilibrium ratio   the same of contents, at one humidity
//	value        one figure; or low and high, where the source gives a range. Where it states no
//	             uncertainty, none is added
//	rounding     half of the last digit, where a value is printed with one digit only
//	kind         published (a reviewed text) or published-weak (no review)
//	read         where in the source: abstract, or text
//	reckoned     the arithmetic from what is printed to the value, if any
//	anchor       what in the library was made from this figure; such a figure proves nothing
//	remark       what is assumed, and how the specimen differs from the library's polymer
//
// Contents are by dry weight.
//
// # Independence
//
// A library must be made from something. A figure that some value of the library was made
// from, be it a centre or the end of a range, says so in Anchor; that it is met proves
// nothing but the arithmetic, and it is counted apart.
//
// # Prediction
//
//	equilibrium        C(a, T) by the isotherm
//	diffusivity        D(T, 0), or with a humidity what sorption from dry to the content C0 shows, the mean
//	                   (5/3) C0^(-5/3) ∫ C^(2/3) D dC, which weighs the wet end more
//	activation energy  R ln(D2/D1)/(1/T1 - 1/T2)
//	ratios             of D or C at two temperatures
//	uptake             C times the share F of a plate of full thickness h, dry, both faces
//	                   at equilibrium from the start, edges sealed, with τ = D t/h²:
//	                   F = (4/√π) √τ while τ <= 0.04, and beyond
//	                   F = 1 - (8/π²) Σ exp(-(2n+1)² π² τ)/(2n+1)², n = 0, 1, 2, …
//
// The plate is that of Crank, The Mathematics of Diffusion, 2nd ed., Oxford 1975, section
// 4.3, the mean that of section 9.4 (numbers from memory). Against the equation itself, for βC0 from -1 to 4, an uptake of less
// than 0.4 of the equilibrium is within 1 %, of 0.8 within 6 %.
//
// # Interval
//
// Of a diffusivity D/f to D f, f being the scatter factor, as in every answer of the
// program; of a content the least and the greatest that the ranges of the isotherm's parameters
// and of the heat of mixing allow; of an uptake both together; of an activation energy and of a
// ratio what the range of the activation energy or of the heat of mixing allows.
//
// # What is left out
//
// The rounding of what is printed with two digits or more. A value of one digit spans half a digit each way: it lies
// inside where the printed value does, partly where only its rounding reaches. Curves: none could be read. The uncertainty of a prediction's conditions, such as a
// humidity printed to two digits.
package measured
