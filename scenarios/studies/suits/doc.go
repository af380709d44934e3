// Package suits sets every material against the dryer of a scenario.
//
// Each material runs through the scenario's path at the scenario's speed and radius, every
// heated zone at the material's own usual highest drying temperature, or at what a strand of it bears where that is
// less, its own
// limit and nozzle temperature in force. Heated is a zone more than five kelvins above the
// room; its air is that of [diffusion.Air.At]: a relative humidity that is held stays, and else the vapour, up to
// saturation. The scenario's own material comes with the properties
// and the limit that the scenario gives it.
//
// In the first view the strand sets off in equilibrium with the room; in the second it was
// dry and has lain in the room for a while. Where it lay in the scenario does not count.
//
// Left out: what the strand may bear above its drying temperature. A material that softens in the path all the
// same, as in a room that hot, is dried by no length.
package suits
