// Package sweep runs a scenario over the full grid of its axes.
//
// A sweep has one to three axes ([scenarios.Axis]): numbers, or names such as
// materials. Its [Grid] holds one [Row] for each combination in row-major order, the
// last axis fastest. A row has the content at the nozzle and, unless the sweep is
// quick, its span over the scatter of the diffusivity and the verdict.
//
// Where an axis is the length of a zone, the rows that differ only in it share
// their march ([diffusion.March.RunLengths]). Work is spread over goroutines; a
// row is the same to the bit whatever their number, whether its march is shared, and
// whether it comes from this run or from the file of an earlier one that was cut
// short ([Partial]).
//
// A scenario without [numerics] is marched at [diffusion.CoarseSettings], a row that
// they leave without an answer at [diffusion.DefaultSettings]; the grid tells
// the numerical error at its corners and in its middle.
//
// A sketch ([Sketch]) answers a grid of numbers by a chart in place of a march for each row, and tells how far it is off. It marches some rows
// besides: at the nodes of a lattice, and in each mesh at whose corners the strands do not all have an answer or do not survive alike; between nodes that agree all are
// taken to. A patch without an answer that lies within one mesh is not seen. Names, the limit and the material's properties are not sketched.
//
// What is left out: a row whose water would condense has no answer.
// Grids that are refined where something happens, and samples in place of grids.
package sweep
