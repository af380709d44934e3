package materials

import (
	"math"
	"slices"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// ModulusAt is the modulus of elasticity at a temperature.
type ModulusAt struct {
	Temperature float64 // [K]
	Modulus     Value   // [Pa], 1e4 to 1e12
}

// ColdModulus is the temperature of the key youngs_modulus [K], that of the standard atmosphere 23/50 of ISO 291.
const ColdModulus = 296.15

// Modulus of elasticity in tension or bending [Pa], 1e4 to 1e12, at a temperature [K], of the dry polymer under a pull of seconds to minutes; low and high are the 5 and 95 % points, of which what
// pulls for longer near a transition takes the low one. Between the points of [Polymer.Moduli] the logarithms of value, low and high go straight over the temperature; below the first
// they are those of the first. Above the last known is false, as it is where there is none, and for a temperature that is no number above zero. The kind is the one of the two points that comes
// later in the list of kinds, the source both of theirs. Cold and moist, a nylon is two to three times softer, and a poly(vinyl alcohol) up to forty times (from memory): pulled through
// hot dry air, they stiffen as they dry.
func (p *Polymer) Modulus(T float64) (modulus Value, known bool) {
	i := slices.IndexFunc(p.Moduli, func(m ModulusAt) bool { return T <= m.Temperature })
	if i < 0 || !(T > 0) {
		return Value{}, false
	}
	above := p.Moduli[i]
	if i == 0 || T == above.Temperature {
		return above.Modulus, true
	}
	return p.Moduli[i-1].towards(above, T), true
}

// towards is the modulus between two points, at a temperature [K].
func (m ModulusAt) towards(next ModulusAt, T float64) Value {
	share := (T - m.Temperature) / (next.Temperature - m.Temperature)
	straight := func(a, b float64) float64 { return a * math.Pow(b/a, share) }
	a, b := m.Modulus, next.Modulus
	v := Value{Value: straight(a.Value, b.Value), Kind: max(a.Kind, b.Kind), Source: a.Source}
	v.Low, v.High = min(straight(a.Low, b.Low), v.Value), max(straight(a.High, b.High), v.Value) // in order to the last bit
	if b.Source != a.Source {
		v.Source += "; " + b.Source
	}
	return v
}

func elasticity() measure { return within(quantity.Pressure(), 1e4, 1e12, "MPa") }

// readModuli lays the modulus that a file states over that of its base: youngs_modulus is the point at 23 °C and takes the place of those up to there, [[modulus]] that of all
// above, and of all where it begins no higher.
func readModuli(t *strict.Table, p *Polymer) {
	points := readPoints(t)
	cold, ok := readValue(t, "youngs_modulus", elasticity())
	switch {
	case t.Has("youngs_modulus") && len(points) > 0 && points[0].Temperature <= ColdModulus:
		t.Fault("youngs_modulus", "a point of modulus states it too, or one below it", "youngs_modulus for 23 °C and [[modulus]] above, or [[modulus]] alone")
		return
	case !ok && len(points) == 0:
		return
	}
	all := slices.Clone(p.Moduli)
	if ok {
		all = slices.DeleteFunc(all, func(m ModulusAt) bool { return m.Temperature <= ColdModulus })
		all = slices.Insert(all, 0, ModulusAt{Temperature: ColdModulus, Modulus: cold})
	}
	if len(points) > 0 {
		all = slices.DeleteFunc(all, func(m ModulusAt) bool { return m.Temperature > ColdModulus || points[0].Temperature <= ColdModulus })
		all = append(all, points...)
	}
	p.Moduli = all
}

// readPoints reads [[modulus]]; none where a point is a fault.
func readPoints(t *strict.Table) []ModulusAt {
	tables := t.Tables("modulus")
	if tables != nil && len(tables) == 0 {
		t.Fault("modulus", "no point", "at least one")
	}
	var points []ModulusAt
	sound := true
	for i, one := range tables {
		one.Require("temperature")
		T, known := temperature().read(one, "temperature")
		value, ok := readDoubted(one, elasticity())
		if known && i > 0 && T <= points[i-1].Temperature {
			one.Fault("temperature", "not above the point before", "points in ascending order of temperature")
			ok = false
		}
		sound = sound && known && ok
		points = append(points, ModulusAt{Temperature: T, Modulus: value})
	}
	if !sound {
		return nil
	}
	return points
}
