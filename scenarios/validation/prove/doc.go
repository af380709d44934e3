// Package prove holds a table of values from outside the project and sets what the
// program computes against each of them.
//
// A [Check] names the quantity, the source of the expected value, what sort of knowledge
// that is, and the accuracy that the source itself claims, which is the tolerance. [Checks] is
// the table; [Run] computes it on any number of cores, in order and to the same bits. The
// tests of this package run the same table, so that the suite and the user's machine
// prove the same.
//
// [Convergence] refines grid and step on problems with a known answer and measures the
// order of the error.
//
// # The families
//
// Roots and series of the cylinder; the whole strand after a step outside, in surroundings that
// vary, with a diffusivity that varies with content, on the standard transit; the radial
// solver on a manufactured solution, a moving front and a steady source, and its orders; humid
// air, its transport properties and salts; films; heating; heat and air of a chamber; sorption; diffusivity; residence, flow
// and steam; invariants; how a strand is led through a machine and pulled; desiccants.
//
// # What is left out
//
// Measured drying and sorption curves: they test the data of a polymer, not the program. Where a
// tolerance is the promise of the default settings, 0.1 %, a smaller fault is not seen here, but by the
// stricter tests of each package.
package prove
