// Package samples says how much of a kind the tests try: a little in the run that a contributor waits for, more where a
// machine has minutes, all of it where there are hours.
package samples

import (
	"os"
	"runtime/debug"
)

// Variable is the environment variable that asks for more than a little: "more", as .ci/run has it, or "long".
const Variable = "STRANDRY_SAMPLES"

// Run runs the tests of a package that allocate much. Four times what is in use may lie as garbage before it is collected: there is memory enough, and
// the usual hundred per cent takes a tenth of their time, a fifth where figures are drawn.
func Run(tests interface{ Run() int }) int {
	debug.SetGCPercent(400)
	return tests.Run()
}

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
