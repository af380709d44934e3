package heat

import (
	"math"

	"strandry/diffusion/bounds"
)

// SharpEdge is the discharge coefficient [-] of a small opening with sharp edges, 0.60 to 0.65 in most books (from memory). Long narrow gaps pass less.
const SharpEdge = 0.61

// Opening is a place through which air passes.
type Opening struct {
	Area      float64 // [m2], from 0
	Discharge float64 // discharge coefficient [-], see SharpEdge
}

func (o Opening) check(name string) error {
	return bounds.First("heat", bounds.Of("area of the "+name, o.Area, 0, 100, "m2"), fraction("discharge coefficient of the "+name, o.Discharge))
}

// Slot returns the mass flow [kg/s] through an opening under a difference of pressure [Pa]; density [kg/m3] is that of the air that
// enters it.
//
//	m = Cd A (2 ρ Δp)^½
//
// ASHRAE Handbook of Fundamentals, ventilation and infiltration.
func Slot(o Opening, pressure, density float64) (float64, error) {
	if err := o.check("opening"); err != nil {
		return 0, err
	}
	err := bounds.First("heat", bounds.Of("difference of pressure", pressure, 0, largestPressure, "Pa"), bounds.Of("density", density, 0, 1e3, "kg/m3"))
	if err != nil {
		return 0, err
	}
	return o.Discharge * o.Area * math.Sqrt(2*density*pressure), nil
}
