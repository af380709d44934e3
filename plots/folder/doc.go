// Package folder keeps the folders that the program writes to, so that nothing of the user's is lost there
// and no reader takes a half for a whole.
//
// A folder holds sets of files, one for each kind of work, and a [Marker] that lists them with their
// SHA-256. Only a file that is listed and still has its sum, or that is not there, is
// replaced or removed; one that was changed since only if that is asked for; a
// file that is not listed, one of another kind, a link and a device never. What a command reads is never written.
//
// A set is staged in a folder with a random name inside, and made durable, before its first file gets its name.
// From then on until the last has its own the marker says so, and which sums are the new ones: whenever the
// program ends, the marker's sets are the old ones, the new ones, or told to be under way, and the
// next [Open] ends what was begun.
//
// An open folder is locked against every other process that opens it, where the system knows
// locks. No symbolic link inside is followed.
//
// Left out: several sets in one step, and a folder that somebody else changes at the same moment.
package folder
