// Package strict reads a TOML text and reports every fault in one go, each with
// its file, line, key, what was given, what is allowed and the nearest name.
//
// [Parse] turns a text into a tree of [Table]. The caller asks a table for the
// keys it knows, by kind: quantities with units, plain numbers, whole numbers,
// texts, choices, truth values, tables. Asking marks a key as known; a value that
// does not fit is recorded and the call returns false. [Reader.Finish] adds all
// keys nobody asked for, sorts by line, and returns the [Faults], or nil.
//
// Nothing is repaired and nothing defaults here: a missing key is no fault unless
// [Table.Require] or [Table.OneOf] asks for it. NaN and infinities never pass.
// Elements of arrays are counted from one: zone[2] is the second zone.
//
// Left out: writing TOML, dates (no quantity here is a date), and texts over
// [MaxSize].
package strict
