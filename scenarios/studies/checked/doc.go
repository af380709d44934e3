// Package checked sets the built machine against the model: a length of strand that was weighed before and after the path, or cut at its exit and dried out.
//
// Two masses make a quantity: what the strand held as it set off or where it left, in dry weight, or what it lost on its way, in its mass before. Measured, it
// lies where the rounding of both masses leaves it, each even within the step of the scale; and where a piece was dried out, in what that left in it, which
// nobody has weighed: even between nothing and what the strand holds at rest in air of the room, heated to its usual highest drying temperature
// (common practice, no source), unless the scenario states it. Predicted, it lies where the draws of the odds have it, of the scenario as it was at the check.
//
// Both agree unless so large a difference, either way, would be met in less than one of ten checks of a machine that is as the model has it: of such
// machines nine in ten agree, or more where the scale is coarse. That holds for each comparison alone; those of one check share their masses, and are not independent.
//
// Left out: a scale that is off otherwise than by rounding, strand that takes up water between the machine and the scale, ends of a piece, other lengths
// before and after.
package checked
