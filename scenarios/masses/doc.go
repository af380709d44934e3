// Package masses reads tables of masses over time, as a person writes them down beside a scale or a spreadsheet saves
// them: a text with one weighing to a row becomes times and masses in SI.
//
// The first line names the columns, each with its unit in brackets: "time [h],mass [g]". Times are counted from when
// the strand came into its air; a column called clock, or time without a unit, holds the time of day instead, with the
// date ("2026-03-01 14:05", or the date in a column of its own) or without ("14:05"), and is counted from its first row; without dates no two rows are a day or more apart. Other columns are left out, and
// told. Cells are parted by commas, semicolons or tabs, and quoted by RFC 4180; a decimal comma is understood
// where no comma parts the cells. Lines that begin with # and blank lines say nothing.
//
// What can be read in two ways is refused, and every fault of a table is told in one go ([strict.Faults]). What
// becomes of a strand is not judged here, but for masses that slipped a decimal.
package masses
