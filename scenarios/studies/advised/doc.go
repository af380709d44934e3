// Package advised gives the advice of package advice for a scenario: within its [build], and in the keys and units of its file, so that
// the file with them is what was assessed.
package advised
