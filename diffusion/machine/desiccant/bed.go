package desiccant

import (
	"fmt"
	"math"
)

// Bed is a cartridge or a box of desiccant.
type Bed struct {
	Isotherm    Isotherm
	DryMass     float64 // [kg], above 0
	Temperature float64 // of the bed in use [K]
	StartLoad   float64 // as it was left by regeneration [kg/kg]: Uptake at its temperature and the vapour pressure of its air
	Share       float64 // of the dry mass that takes part [-], above 0 to 1; the rest stays at the load of the start
}

func (b *Bed) check() error {
	if !(b.DryMass > 0) || math.IsInf(b.DryMass, 0) {
		return fmt.Errorf("desiccant: a bed of %g kg: its dry mass must be above 0", b.DryMass)
	}
	if !(b.Share > 0 && b.Share <= 1) {
		return fmt.Errorf("desiccant: %g of the bed takes part: it must be above 0 and at most 1", b.Share)
	}
	return b.Isotherm.checkLoad(b.StartLoad, b.Temperature)
}

// part is the dry mass that takes part [kg].
func (b *Bed) part() float64 { return b.Share * b.DryMass }

// State is a bed as it fills. The vapour pressure is that in equilibrium with the load of the part that takes part: a bed through which the air is led slowly holds no less as
// long as it is well mixed, and a deep one holds less until its front passes, which is not counted.
type State struct {
	Time     float64 // since the start [s]
	Load     float64 // of the part that takes part [kg/kg]
	Pressure float64 // of vapour in equilibrium with it [Pa]
	DewPoint float64 // the same [K]; below 0 °C the frost point
}

// Span is a quantity with the values between which it lies nine times in ten.
type Span struct{ Low, Likely, High float64 }

// Capacity returns how much water [kg] the bed takes up from its start until it holds no less than vapour pressure p [Pa], with the uncertainty of the isotherm alone;
// 0 where it holds no less from the start.
func (b *Bed) Capacity(p float64) (Span, error) {
	if err := b.check(); err != nil {
		return Span{}, err
	}
	w, err := b.Isotherm.Uptake(p, b.Temperature)
	if err != nil {
		return Span{}, err
	}
	by := b.Isotherm.Uncertainty.At(w)
	water := func(w float64) float64 { return b.part() * math.Max(0, w-b.StartLoad) }
	return Span{water(w - by), water(w), water(w + by)}, nil
}
