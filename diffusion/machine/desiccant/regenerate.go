package desiccant

import (
	"fmt"
	"math"

	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// Residue returns the load [kg/kg] that air of vapour pressure p [Pa], heated to T [K], leaves on the desiccant in the end. Room air that is heated keeps its
// vapour pressure. It is an error for calcium chloride, and as for [Isotherm.Uptake].
func (i *Isotherm) Residue(p, T float64) (float64, error) {
	if _, err := i.Kind.Heating(); err != nil {
		return 0, err
	}
	return i.Uptake(p, T)
}

// Heated is a temperature at which a desiccant is regenerated.
type Heated struct {
	Temperature  float64 // [K]
	TooHot       bool    // above what the desiccant bears ([Heating.Most])
	TooCold      bool    // below what is usual: it takes long, by how much is not known
	Extrapolated bool    // outside the range of the isotherm
}

// RegenerationTemperature returns the temperature [K] to which air of vapour pressure p [Pa] has to be heated so that it leaves no more than a residue [kg/kg] in the
// end. It is an error for calcium chloride, and where no temperature that the isotherm knows is enough.
func (i *Isotherm) RegenerationTemperature(residue, p float64) (Heated, error) {
	limits, err := i.Kind.Heating()
	if err != nil {
		return Heated{}, err
	}
	if err := i.checkTemperature(i.coldest); err != nil {
		return Heated{}, err
	}
	if !(residue > 0) || !(p > 0) || math.IsInf(residue, 0) {
		return Heated{}, fmt.Errorf("desiccant: a residue of %g kg/kg under %g Pa: both must be above 0", residue, p)
	}
	f := func(T float64) (float64, error) {
		if p >= humidair.SaturationPressure(T) {
			return math.Log(i.law.capacity(T) / residue), nil
		}
		return math.Log(i.law.uptake(p, T) / residue), nil
	}
	cold, _ := f(i.coldest)
	hot, _ := f(i.hottest)
	if hot > 0 {
		return Heated{}, fmt.Errorf("desiccant: air of %g Pa leaves more than %g kg/kg on %s even at %g K, the hottest that the isotherm knows", p, residue, i.Kind, i.hottest)
	}
	T := i.coldest
	if cold > 0 {
		T, err = root.Find(f, root.Bracket{A: i.coldest, B: i.hottest, AtA: cold, AtB: hot}, root.Tolerance{Width: 1e-9})
		if err != nil {
			return Heated{}, fmt.Errorf("desiccant: %w", err)
		}
	}
	return Heated{Temperature: T, TooHot: T > limits.Most, TooCold: T < limits.Least, Extrapolated: !i.Range.Holds(p, T)}, nil
}

// Regeneration is a bed that is heated to drive its water out.
type Regeneration struct {
	Isotherm    Isotherm
	DryMass     float64 // [kg]
	From, To    float64 // loads [kg/kg], From not below To
	Cold, Hot   float64 // temperatures of the bed before and at the end [K]
	TrayHeat    float64 // heat capacity of what is heated with it [J/K]: mass times 900 J/(kg K) for aluminium, 480 for steel (from memory)
	Efficiency  float64 // share of the heat that reaches bed and tray [-], above 0 to 1; the rest leaves with the air and through the walls
	HeaterPower float64 // [W]; 0 where it is not known
}

// Energy is what a regeneration takes [J].
type Energy struct {
	Desiccant float64 // sensible heat of the dry desiccant
	Tray      float64 // sensible heat of what is heated with it
	Warming   float64 // sensible heat of the water, as a liquid all the way: an upper bound
	Desorbing float64 // heat of sorption of the water that is driven out
	Air       float64 // what leaves with the air and through the walls
	Total     float64
	LeastTime float64 // total over the power of the heater [s]; 0 where that is not known. How long water takes to leave the beads is not known: more
}

// KilowattHours is the total in kWh.
func (e Energy) KilowattHours() float64 { return e.Total / 3.6e6 }

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
	e := Energy{
		Desiccant: r.DryMass * capacity * warmer, Tray: r.TrayHeat * warmer, Warming: r.DryMass * r.From * liquidHeat * warmer,
	}
	if r.From > r.To {
		heat := func(w float64) float64 { return r.Isotherm.law.heat(w, r.Hot) }
		e.Desorbing = r.DryMass * halved(heat, r.To, r.From, 0, accuracy*heat(r.From)*(r.From-r.To), halvings)
	}
	useful := e.Desiccant + e.Tray + e.Warming + e.Desorbing
	e.Total = useful / r.Efficiency
	e.Air = e.Total - useful
	if r.HeaterPower > 0 {
		e.LeastTime = e.Total / r.HeaterPower
	}
	return e, nil
}

func (r *Regeneration) check() error {
	limits, err := r.Isotherm.Kind.Heating()
	if err != nil {
		return err
	}
	for _, n := range []struct {
		name  string
		value float64
	}{{"dry mass", r.DryMass}, {"heat capacity of the tray", r.TrayHeat}, {"power of the heater", r.HeaterPower}} {
		if !(n.value >= 0) || math.IsInf(n.value, 0) {
			return fmt.Errorf("desiccant: a %s of %g: it must be 0 or more", n.name, n.value)
		}
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
