package desiccant

import (
	"fmt"
	"math"
)

// Residue returns the load [kg/kg] that air of vapour pressure p [Pa], heated to T [K], leaves on the desiccant in the end. Room air that is heated keeps its
// vapour pressure. It is an error for calcium chloride, and as for [Isotherm.Uptake].
func (i *Isotherm) Residue(p, T float64) (float64, error) {
	if _, err := i.Kind.Heating(); err != nil {
		return 0, err
	}
	return i.Uptake(p, T)
}

// Regeneration is a bed that is heated to drive its water out.
type Regeneration struct {
	Isotherm   Isotherm
	DryMass    float64 // [kg]
	From, To   float64 // loads [kg/kg], From not below To
	Cold, Hot  float64 // temperatures of the bed before and at the end [K]
	Efficiency float64 // share of the heat that reaches the bed [-], above 0 to 1; the rest leaves with the air and through the walls
}

// Energy is what a regeneration takes [J].
type Energy struct {
	Desiccant float64 // sensible heat of the dry desiccant
	Warming   float64 // sensible heat of the water, as a liquid all the way: an upper bound
	Desorbing float64 // heat of sorption of the water that is driven out
	Total     float64 // with what leaves with the air and through the walls
}

// liquidHeat is the heat capacity of liquid water [J/(kg K)], from memory.
const liquidHeat = 4190

// Energy returns what the regeneration takes. It is an error for calcium chloride, for loads and temperatures that the isotherm does not know, for a bed that would be hotter than
// it bears, and for negative or endless numbers.
func (r *Regeneration) Energy() (Energy, error) {
	if err := r.check(); err != nil {
		return Energy{}, err
	}
	capacity, err := r.Isotherm.Kind.HeatCapacity()
	if err != nil {
		return Energy{}, err
	}
	warmer := r.Hot - r.Cold
	e := Energy{Desiccant: r.DryMass * capacity * warmer, Warming: r.DryMass * r.From * liquidHeat * warmer}
	if r.From > r.To {
		heat := func(w float64) float64 { return r.Isotherm.law.heat(w, r.Hot) }
		e.Desorbing = r.DryMass * halved(heat, r.To, r.From, 0, accuracy*heat(r.From)*(r.From-r.To), halvings)
	}
	e.Total = (e.Desiccant + e.Warming + e.Desorbing) / r.Efficiency
	return e, nil
}

func (r *Regeneration) check() error {
	limits, err := r.Isotherm.Kind.Heating()
	if err != nil {
		return err
	}
	if !(r.DryMass >= 0) || math.IsInf(r.DryMass, 0) {
		return fmt.Errorf("desiccant: a dry mass of %g: it must be 0 or more", r.DryMass)
	}
	if !(r.Efficiency > 0 && r.Efficiency <= 1) {
		return fmt.Errorf("desiccant: an efficiency of %g: it must be above 0 and at most 1", r.Efficiency)
	}
	if !(r.To <= r.From) || !(r.Cold <= r.Hot) {
		return fmt.Errorf("desiccant: a regeneration from %g to %g kg/kg and from %g to %g K: the load must fall, the temperature rise", r.From, r.To, r.Cold, r.Hot)
	}
	if r.Hot > limits.Most {
		return fmt.Errorf("desiccant: %s bears %g K (%s), and not %g K: %s", r.Isotherm.Kind, limits.Most, limits.Source, r.Hot, limits.Why)
	}
	if err := r.Isotherm.checkTemperature(r.Cold); err != nil {
		return err
	}
	if err := r.Isotherm.checkLoad(r.To, r.Hot); err != nil {
		return err
	}
	return r.Isotherm.checkLoad(r.From, r.Cold)
}
