package desiccant

import (
	"fmt"

	"strandry/materials/humidair"
)

// Range is where a law was held against measured points.
type Range struct {
	Coldest, Hottest float64 // temperature [K]
	Least, Most      float64 // vapour pressure [Pa]
	Humidity         float64 // the highest relative humidity [-]
}

// Holds tells whether vapour pressure p [Pa] and temperature T [K] lie in the range, ends included. It is false for NaN. Outside, a law is extrapolated,
// and the caller says so.
func (r Range) Holds(p, T float64) bool {
	return T >= r.Coldest && T <= r.Hottest && p >= r.Least && p <= r.Most && p <= r.Humidity*humidair.SaturationPressure(T)
}

// Uncertainty is how far measured points lie from a law, nine in ten of them: Relative times the load, and Absolute.
type Uncertainty struct {
	Relative float64 // [-]
	Absolute float64 // [kg/kg]
	Of       string  // the points
}

// At is the uncertainty [kg/kg] of a load w [kg/kg].
func (u Uncertainty) At(w float64) float64 { return u.Relative*w + u.Absolute }

// Isotherm is the equilibrium of a desiccant with water vapour. Loads are kilograms of water to one of dry desiccant.
type Isotherm struct {
	Kind        Kind
	Source      string // of the law
	Choice      string // why this law, and what speaks against it
	Range       Range
	Uncertainty Uncertainty

	law              law
	coldest, hottest float64 // what is answered at all [K]
}

// checkTemperature refuses what the law is not asked.
func (i *Isotherm) checkTemperature(T float64) error {
	if i.law == nil {
		return fmt.Errorf("desiccant: an isotherm is one that Of gives")
	}
	if !(T >= i.coldest && T <= i.hottest) {
		return fmt.Errorf("desiccant: the isotherm of %s goes from %g to %g K, and not to %g K", i.Kind, i.coldest, i.hottest, T)
	}
	return nil
}

// checkLoad refuses loads that the desiccant cannot have.
func (i *Isotherm) checkLoad(w, T float64) error {
	if err := i.checkTemperature(T); err != nil {
		return err
	}
	if most := i.law.capacity(T); !(w >= 0 && w <= most) {
		return fmt.Errorf("desiccant: %s at %g K holds from 0 to %.4g kg of water per kg, and not %g", i.Kind, T, most, w)
	}
	return nil
}

// Uptake returns the load [kg/kg] in equilibrium with vapour of pressure p [Pa] at T [K]: of calcium chloride that of the wettest hydrate, up to the
// tetrahydrate ([Isotherm.TurnsLiquid] says where it goes on as brine). It is an error to ask for a negative pressure, for one above
// saturation, or for a temperature that the law is not asked; outside Range the law is extrapolated.
func (i *Isotherm) Uptake(p, T float64) (float64, error) {
	if err := i.checkTemperature(T); err != nil {
		return 0, err
	}
	if most := humidair.SaturationPressure(T); !(p >= 0 && p <= most) {
		return 0, fmt.Errorf("desiccant: a vapour pressure at %g K lies from 0 to saturation, %.6g Pa, and not at %g Pa", T, most, p)
	}
	if p == 0 {
		return 0, nil
	}
	return i.law.uptake(p, T), nil
}

// VapourPressure returns the vapour pressure [Pa] in equilibrium with a load w [kg/kg] at T [K], the inverse of Uptake; of calcium chloride the one of the pair of hydrates
// that stand side by side. It is an error to ask for a load below 0 or above that at saturation, of calcium
// chloride that of the tetrahydrate.
func (i *Isotherm) VapourPressure(w, T float64) (float64, error) {
	if err := i.checkLoad(w, T); err != nil || w == 0 {
		return 0, err
	}
	return i.law.pressure(w, T), nil
}

// IsostericHeat returns the heat [J/kg of water] that vapour sets free when it is taken up at load w [kg/kg] and T [K], latent heat included: what the
// law says by Clausius and Clapeyron, -R/M d ln p/d(1/T) at constant load. The load must be above 0.
func (i *Isotherm) IsostericHeat(w, T float64) (float64, error) {
	if err := i.checkLoad(w, T); err != nil {
		return 0, err
	}
	if w == 0 {
		return 0, fmt.Errorf("desiccant: the heat of sorption is asked for at a load above 0")
	}
	return i.law.heat(w, T), nil
}

// TurnsLiquid tells whether the desiccant becomes liquid in time at vapour pressure p [Pa] and T [K]: calcium chloride from 18.5 % relative humidity on.
// False for NaN.
func (i *Isotherm) TurnsLiquid(p, T float64) bool {
	return i.Kind == CalciumChloride && p >= brine(T)
}
