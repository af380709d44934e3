// Package bounds tells which quantity lies outside of what it may be. Bounds are wide: they keep the arithmetic finite and catch a wrong unit. NaN lies outside all of them.
package bounds

import "fmt"

// Bound is a quantity with the least and the most that it may be.
type Bound struct {
	name               string
	value, least, most float64
	unit               string
	zero               float64 // of the scale on which it is told
}

// Of is a quantity by name and unit.
func Of(name string, value, least, most float64, unit string) Bound {
	return Bound{name, value, least, most, unit, 0}
}

// Celsius is a temperature [K] between others, told in °C.
func Celsius(name string, T, least, most float64) Bound {
	return Bound{name, T, least, most, "°C", 273.15}
}

// Check is an error where the quantity lies outside.
func (b Bound) Check() error {
	if b.value >= b.least && b.value <= b.most {
		return nil
	}
	return fmt.Errorf("%s = %.6g %s: must lie from %.6g to %.6g %s", b.name, b.value-b.zero, b.unit, b.least-b.zero, b.most-b.zero, b.unit)
}

// First is the error of the first that lies outside, under the name of who asks.
func First(asked string, all ...Bound) error {
	for _, b := range all {
		if err := b.Check(); err != nil {
			return fmt.Errorf("%s: %w", asked, err)
		}
	}
	return nil
}
