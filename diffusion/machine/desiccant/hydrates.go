package desiccant

import (
	"fmt"
	"math"

	"strandry/materials/humidair"
)

// chlorideMass is the molar mass of calcium chloride [kg/mol]: 40.078 + 2·35.453 g/mol (IUPAC).
const chlorideMass = 0.110984

// Pair is two hydrates of calcium chloride that stand side by side: together they hold the air at one vapour pressure, until one is used up.
type Pair int

// The pairs, in the order in which the salt goes through them.
const (
	AnhydrousMonohydrate Pair = iota
	MonohydrateDihydrate
	DihydrateTetrahydrate
	TetrahydrateHexahydrate
)

// pair is what is known of one: at one temperature its vapour pressure, and the heat that taking up vapour sets free.
type pair struct {
	to          float64 // water molecules to one of salt, of the wetter
	pressure    float64 // [Pa]
	temperature float64 // [K]
	heat        float64 // [J/mol] of water
	highest     float64 // where the wetter of both melts in its own water [K]
}

func (p Pair) facts() (pair, error) {
	at := func(rh float64) float64 { return rh * humidair.SaturationPressure(293.15) }
	all := [...]pair{
		{1, 19.3, 298.15, 71.6e3, 318.15},
		{2, at(0.06), 293.15, 51.9e3, 318.15},
		{4, at(0.09), 293.15, 61.5e3, 318.15},
		{6, at(0.185), 293.15, 57.3e3, 303.15},
	}
	if p < AnhydrousMonohydrate || int(p) >= len(all) {
		return pair{}, fmt.Errorf("desiccant: %d is no pair of hydrates", int(p))
	}
	return all[p], nil
}

// at is the vapour pressure [Pa] at T [K], by the law of Clausius and Clapeyron with a constant heat.
func (f pair) at(T float64) float64 {
	return f.pressure * math.Exp(-f.heat/gasConstant*(1/T-1/f.temperature))
}

// VapourPressure returns the vapour pressure [Pa] over the pair at T [K], from 10 °C to where the wetter of both melts in its own water (30 °C for the
// hexahydrate, 45 °C for the others); beyond it is an error.
//
// At 20 °C the relative humidity is 6, 9 and 18.5 % for the pairs from the mono-, di- and tetrahydrate on (A. Stahlbuhk, Saltwiki, Calcium chloride,
// table 1). Over the first pair it is taken from the 0.14 mg/L of water that the anhydrous salt leaves in air at 25 °C (from memory; Robertson 1954 has
// 0.036 mg/L). With temperature they go by the heats of hydration that follow from the enthalpies of formation of the NBS tables of 1982 (from memory):
// 71.6, 51.9, 61.5 and 57.3 kJ per mole of water. How far hydrates that have to nucleate lag behind is not known.
func (p Pair) VapourPressure(T float64) (float64, error) {
	f, err := p.facts()
	if err != nil {
		return 0, err
	}
	if !(T >= 283.15 && T <= f.highest) {
		return 0, fmt.Errorf("desiccant: the vapour pressure over hydrates of calcium chloride is known from 283.15 to %g K, and not at %g K", f.highest, T)
	}
	return f.at(T), nil
}

// HydrateLoad returns the load [kg/kg] of a hydrate of calcium chloride with so many molecules of water to one of salt, by molar masses. It is an error
// for other numbers than 0, 1, 2, 4 and 6, the hydrates that there are.
func HydrateLoad(molecules int) (float64, error) {
	switch molecules {
	case 0, 1, 2, 4, 6:
		return hydrateLoad(float64(molecules)), nil
	}
	return 0, fmt.Errorf("desiccant: there is no hydrate of calcium chloride with %d molecules of water", molecules)
}

func hydrateLoad(molecules float64) float64 { return molecules * humidair.MolarMass / chlorideMass }

// hydrates is the law of calcium chloride up to the tetrahydrate: a stair. The next step is liquid, or soon will be.
type hydrates struct{}

func (hydrates) stairs() []pair {
	var out []pair
	for p := AnhydrousMonohydrate; p <= DihydrateTetrahydrate; p++ {
		f, _ := p.facts()
		out = append(out, f)
	}
	return out
}

// uptake is the load of the wettest hydrate that is stable.
func (h hydrates) uptake(p, T float64) float64 {
	w := 0.0
	for _, f := range h.stairs() {
		if p < f.at(T) {
			break
		}
		w = hydrateLoad(f.to)
	}
	return w
}

// on is the step on which a load stands: it has left the hydrate below, and reaches the one above.
func (h hydrates) on(w float64) pair {
	all := h.stairs()
	for _, f := range all {
		if w <= hydrateLoad(f.to) {
			return f
		}
	}
	return all[len(all)-1]
}

func (h hydrates) pressure(w, T float64) float64 { return h.on(w).at(T) }
func (h hydrates) heat(w, _ float64) float64     { return h.on(w).heat / humidair.MolarMass }
func (hydrates) capacity(float64) float64        { return hydrateLoad(4) }

func (h hydrates) steps() []float64 {
	var out []float64
	for _, f := range h.stairs() {
		out = append(out, hydrateLoad(f.to))
	}
	return out
}

// brine is the vapour pressure [Pa] at T [K] from which on the tetrahydrate becomes liquid: 18.5 % relative humidity, at which the form that grows from
// the dihydrate deliquesces at 25 °C (S. Wang, A. Stahlbuhk and M. Steiger, Fluid Phase Equilibria (2024) 114171, abstract).
func brine(T float64) float64 { return 0.185 * humidair.SaturationPressure(T) }
