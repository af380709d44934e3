// Package decay is exp(-d) from a table, several times faster than from scratch: what is most of the work of asking a surrogate, and much of that of an estimate
// by the modes of a cylinder.
package decay

import "math"

// Table is exp(-d) at steps of a thirty-second, from which it is found for any d [-] that is not negative to 3e-10.
type Table [steps]float64

const (
	steps  = 1280
	finely = 32 // steps to one
)

// New makes the table.
func New() *Table {
	t := new(Table)
	for i := range t {
		t[i] = math.Exp(-float64(i) / finely)
	}
	return t
}

// At is exp(-d), by its series about the step before; zero, to 4e-18, beyond the last.
func (t *Table) At(d float64) float64 {
	const second, third, fourth = 1. / 2, 1. / 6, 1. / 24
	step := int(d * finely)
	if uint(step) >= steps {
		return 0
	}
	r := d - float64(step)/finely
	return t[step] * (1 - r*(1-r*(second-r*(third-r*fourth))))
}
