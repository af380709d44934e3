// Package samples says how much of a kind the tests try: a little in the run that a contributor waits for, more where a
// machine has minutes, all of it where there are hours.
package samples

import "os"

// Variable is the environment variable that asks for more than a little: "more", as .ci/run has it, or "long".
const Variable = "STRANDRY_SAMPLES"

// Collect is how much garbage the tests of a package that allocate much let lie before it is collected, in per cent of what is in use: there is memory enough, and
// the usual hundred takes a tenth of their time, a fifth where figures are drawn.
const Collect = 400

// Of is how many are tried of a kind: few where nothing is asked for, more, or all of them.
func Of(few, more, all int) int {
	switch os.Getenv(Variable) {
	case "":
		return few
	case "more":
		return more
	case "long":
		return all
	}
	panic(Variable + " is none of more, long")
}

// Each picks every so many of a list, the first one included: every few-th where nothing is asked for, else all.
func Each[T any](few int, list []T) []T {
	var some []T
	for i := 0; i < len(list); i += Of(few, 1, 1) {
		some = append(some, list[i])
	}
	return some
}
