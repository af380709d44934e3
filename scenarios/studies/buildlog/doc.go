// Package buildlog carries out, for one scenario, all the studies that its build log tells of.
//
// The strand is traced along its path; the length of the zone that the design dries with, that
// zone's temperature and the feed are sized, each with the others as they are; moisture is mapped
// over that length and the feed; the length is sought over temperature and
// feed; every material is set against the dryer; the design is run with its film
// coefficients at both ends of their uncertainty; what the scenario varies itself is swept; and a dry strand of its material is left in the room, and in
// its store with openings.
//
// A study that a scenario does not allow (no temperature is stated that could be varied, the air
// would condense) leaves a reason in its place and does not stop the others.
package buildlog
