// Package levers finds what holds a design back and what would help it most, by
// running the model again with one thing changed at a time.
//
// A lever is a change that a builder can make: a hotter, longer or slower path,
// drier or more air, cover for the strand after its driest place, a thinner
// strand, another material. Each is taken a fixed way (see [Find]); none goes beyond the
// usual drying temperature of the material or beyond what a strand of it bears. What is left out: levers in
// combination, and cost.
package advice
