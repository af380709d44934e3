package pull

import (
	"cmp"
	"errors"
	"fmt"

	"strandry/diffusion/bounds"
)

// Bounds. They are wide: they keep the arithmetic finite and catch a wrong unit.
const (
	leastLength, mostLength = 1e-6, 1e4 // [m]
	mostTension             = 1e5       // [N]
	mostFriction            = 2.0
	mostAngle               = 200.0 // [rad]: some thirty turns round what is fixed
	mostTurned              = 1e5   // [rad], round what turns
	mostLost                = 2.0
	mostStages              = 100_000
	softest, stiffest       = 1e3, 1e12 // [Pa]
)

// within is an error where a value lies outside its limits.
func within(name string, value, least, most float64, unit string) error {
	return bounds.Of(name, value, least, most, unit).Check()
}

// check is an error where one of the three lies outside the limits or they are not in order.
func (r Range) check(name string, least, most float64, unit string) error {
	for i, which := range [cases]string{"low", "value", "high"} {
		if err := within(name+", "+which, r.at(i), least, most, unit); err != nil {
			return err
		}
	}
	if r.Low > r.Value || r.Value > r.High {
		return fmt.Errorf("%s: %.6g, %.6g, %.6g %s: low, value and high must be in order", name, r.Low, r.Value, r.High, unit)
	}
	return nil
}

func checkModulus(m Range) error {
	if !m.Known() {
		return nil
	}
	return m.check("modulus", softest, stiffest, "Pa")
}

func (s Strand) check() error {
	return cmp.Or(within("strand diameter", s.Diameter, 1e-5, 0.1, "m"), within("strand density", s.Density, 1, 3e4, "kg/m³"))
}

func (s Stage) check(diameter float64) error {
	if s.Element == nil {
		return errors.New("no element")
	}
	if err := cmp.Or(within("temperature", s.Temperature, 0, 1000, "K"), checkModulus(s.Modulus), s.Element.check()); err != nil {
		return err
	}
	if r := s.Element.bend().radius; r != 0 {
		return within("radius of the strand's centre line", r, diameter/2, mostLength, "m")
	}
	return nil
}

func (b bend) check() error {
	if b.radius != 0 {
		if err := within("radius of the bend", b.radius, leastLength, mostLength, "m"); err != nil {
			return err
		}
	}
	return b.lost.check("share of the work of bending that is lost", 0, mostLost, "(a fraction)")
}
