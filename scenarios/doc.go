// Package scenarios reads the file in which a user states a strand, its feed,
// its rooms and its zones, and makes a design of it.
//
// The way is one-directional: TOML text to [Document], document to [Scenario], and
// the scenario is a [diffusion.Design] in SI units. [Read] and [Load] do it in
// one go; [Parse] and [Open] stop at the document, from which any number of
// scenarios can be made with other values laid over its keys ([Setting]), as a
// sweep or a search needs. A document is never changed and may be shared
// by goroutines.
//
// [OpenWeighings] reads another kind of file by the same rules: a strand at rest that is weighed while it dries or takes
// up water, from tables that package masses reads.
//
// # The rules of the format
//
// Every physical quantity is a text with its unit; counts and factors are
// plain numbers. Every fault of a file is reported in one go, with its line
// ([strict.Faults]). A key that nobody knows is a fault, and so is a pair of
// keys that contradict each other: nothing given is ever overlooked. A quantity
// that is not given gets its default, which is listed in Scenario.Assumed; what is
// read and checked without an effect on the model is listed in Scenario.Unused.
//
// # What the reading decides
//
//   - Relative humidity belongs to the temperature it stands beside. It is taken over
//     liquid water, below 0 °C over ice; a dew point below 0 °C is a frost point.
//   - Air of which nothing is said is that of the room, warmed or cooled: it
//     keeps the room's vapour pressure, not its relative humidity.
//   - A flow of air is a volume flow at the room's temperature and pressure; the
//     share of its vapour is taken off, and the model gets the mass flow of
//     dry air.
//   - A volume flow of polymer becomes the strand's speed through its
//     cross-section at rest; a bead is taken as a rectangle.
//   - A strand that starts in equilibrium with a room has the content that the
//     isotherm gives for that room, all through.
//   - A [Check] is of the scenario as it is, but for the feed and the keys that it states; a scale of which nothing is said has
//     the step of the last digit that is given. No design knows of it.
//   - A strand in storage lies loose in still air.
//
// Left out: the shape of a zone (drum, passes over rollers) is read and checked only.
package scenarios
