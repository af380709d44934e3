package heat

import (
	"fmt"
	"math"

	"strandry/diffusion/bounds"
)

// Material is what a hand touches.
type Material int

// The materials. BareMetal, the zero value, burns at the lowest temperatures.
const (
	BareMetal Material = iota
	Glass              // and ceramics and stone
	Plastic
)

// String returns the name of the material.
func (m Material) String() string {
	if m < BareMetal || m > Plastic {
		return fmt.Sprintf("Material(%d)", int(m))
	}
	return [...]string{"bare metal", "glass", "plastic"}[m]
}

// Caution is what is to be said beside any temperature of touch.
const Caution = "These are thresholds from memory, for healthy adults, small areas of skin and smooth surfaces: measure the finished machine at its hottest " +
	"place, children and older people burn sooner, and local codes and the standard itself go first. A heater needs a cut-out of its own that does not depend on the controller; " +
	"work on mains is for those who are licensed to do it."

// threshold is the temperature [°C] from which contact for a time may burn, for each material.
type threshold struct {
	seconds float64
	celsius [3]float64 // bare metal, glass, plastic
}

// thresholds rise in time.
func thresholds() []threshold {
	return []threshold{
		{1, [3]float64{65, 78, 85}},
		{10, [3]float64{55, 66, 71}},
		{60, [3]float64{51, 56, 60}},
		{600, [3]float64{48, 48, 48}},
		{28800, [3]float64{43, 43, 43}},
	}
}

// TouchLimit returns the surface temperature [K] from which contact for so many seconds may burn; linear in the logarithm of time between
// the thresholds. Below 1 s no reliable figure is known and that of 1 s is taken; from 8 h on that of 8 h.
// They are the lower ends of the burn thresholds of EN 563:1994 and ISO 13732-1:2006, from memory, the standards not seen; for glass at 1 s by times to serious burn passed on in a
// public list of safety engineers: nothing firm.
func TouchLimit(m Material, seconds float64) (float64, error) {
	if m < BareMetal || m > Plastic {
		return 0, fmt.Errorf("heat: unknown material %v: allowed are %v, %v, %v", m, BareMetal, Glass, Plastic)
	}
	if err := bounds.First("heat", bounds.Of("time of contact", seconds, 0, mostSeconds, "s")); err != nil {
		return 0, err
	}
	all := thresholds()
	before := all[0]
	for _, next := range all {
		if seconds <= next.seconds {
			share := 1.0
			if next.seconds > before.seconds {
				share = math.Log(seconds/before.seconds) / math.Log(next.seconds/before.seconds)
			}
			return 273.15 + before.celsius[m] + share*(next.celsius[m]-before.celsius[m]), nil
		}
		before = next
	}
	return 273.15 + before.celsius[m], nil
}

// Contact is one limit of touch beside a surface.
type Contact struct {
	Seconds float64 // of contact [s]
	Limit   float64 // [K]
	Passed  bool    // the surface is as hot, or hotter
}

// Touch tells which limits of touch a surface at temperature T [K] passes: contact by chance (1 s), a short hold (10 s), a hold (1 min), a long one (10 min), and leaning
// on it for a working day (8 h).
func Touch(m Material, T float64) ([]Contact, error) {
	if err := bounds.First("heat", temperature("surface temperature", T)); err != nil {
		return nil, err
	}
	var all []Contact
	for _, t := range thresholds() {
		limit, err := TouchLimit(m, t.seconds)
		if err != nil {
			return nil, err
		}
		all = append(all, Contact{Seconds: t.seconds, Limit: limit, Passed: T >= limit})
	}
	return all, nil
}
