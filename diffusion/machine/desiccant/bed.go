package desiccant

import (
	"fmt"
	"math"

	"strandry/materials/humidair"
)

// Bed is a cartridge or a box of desiccant.
type Bed struct {
	Isotherm    Isotherm
	DryMass     float64 // [kg], above 0
	Temperature float64 // of the bed in use [K]
	StartLoad   float64 // as it was left by regeneration [kg/kg]: Uptake at its temperature and the vapour pressure of its air
	Share       float64 // of the dry mass that takes part [-], above 0 to 1; the rest stays at the load of the start. [ShareByZone] gives it for a deep bed
}

// ShareByZone is the share of a bed [-] that is full when water first shows at its end, where the load falls from full to that of the start over a
// zone of a length [m] in a bed of a depth [m]: 1 - zone/(2 depth). The zone lengthens with the speed of the air and the size of the beads; no value for slow air was
// found, so it has to be measured, or left out. It is an error for a zone longer than the bed.
func ShareByZone(zone, depth float64) (float64, error) {
	if !(zone >= 0 && depth > 0 && zone <= depth) || math.IsInf(depth, 0) {
		return 0, fmt.Errorf("desiccant: a zone of mass transfer of %g m in a bed of %g m: it must be from 0 to the depth of the bed", zone, depth)
	}
	return 1 - zone/(2*depth), nil
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

// State is a bed as it fills.
type State struct {
	Time     float64 // since the start [s]
	Load     float64 // of the part that takes part [kg/kg]
	Taken    float64 // since the start [kg]
	Pressure float64 // of vapour in equilibrium with it [Pa]
	DewPoint float64 // the same [K]; below 0 °C the frost point
	Heat     float64 // set free at the rate of then [W]; 0 for a load of 0
	Liquid   bool    // it has begun, or begins, to turn to brine
}

// Held returns what the bed holds once it has taken up so much water [kg]; Time and Heat are left at 0. The vapour pressure is that in equilibrium with
// the load of the part that takes part: a bed through which the air is led slowly holds no less as long as it is well mixed, and a deep one holds less
// until its front passes, which is not counted. It is an error to ask for a negative amount or for more than the bed holds.
func (b *Bed) Held(taken float64) (State, error) {
	if err := b.check(); err != nil {
		return State{}, err
	}
	if !(taken >= 0) {
		return State{}, fmt.Errorf("desiccant: a bed that has taken up %g kg of water: it must be 0 or more", taken)
	}
	return b.state(b.StartLoad + taken/b.part())
}

// state is the bed at a load of the part that takes part.
func (b *Bed) state(w float64) (State, error) {
	p, err := b.Isotherm.VapourPressure(w, b.Temperature)
	if err != nil {
		return State{}, err
	}
	s := State{Load: w, Taken: (w - b.StartLoad) * b.part(), Pressure: p, DewPoint: humidair.DewPoint(p)}
	last := b.Isotherm.Kind == CalciumChloride && w >= b.Isotherm.law.capacity(b.Temperature)
	s.Liquid = last || b.Isotherm.TurnsLiquid(p, b.Temperature)
	return s, nil
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

// HeatReleased returns the heat [W] that a bed at load w [kg/kg] and T [K] gives off as it takes up water at a rate [kg/s].
func (i *Isotherm) HeatReleased(rate, w, T float64) (float64, error) {
	if !(rate >= 0) || math.IsInf(rate, 0) {
		return 0, fmt.Errorf("desiccant: water taken up at %g kg/s: it must be 0 or more", rate)
	}
	heat, err := i.IsostericHeat(w, T)
	return rate * heat, err
}
