// Package needed finds the length that a zone needs for the strand to meet its limit, over the
// zone's temperature and the speed of the feed.
//
// Each length is the shortest that package size finds; the other zones stay as they are, and so
// does what the scenario says of the air: a dew point stays a dew point, room air stays as moist as the room while it is
// heated, and a relative humidity that is held stays so (see [diffusion.Air.At]).
//
// A length on which the strand softens is none. Left out: temperatures above the usual highest, at which it may, are
// computed like any other.
package needed
