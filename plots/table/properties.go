package table

import (
	"fmt"

	"strandry/materials"
)

// line is one property of a polymer in people's units.
type line struct {
	name, text, reach string // reach is the range, "low to high"
	value             materials.Value
	si                string // unit of the value
	used              bool   // a run rests on it
}

// scale turns SI into the unit of a line.
type scale struct {
	factor, offset float64
	unit, si       string
}

func (s scale) of(x float64) string { return Given(x*s.factor + s.offset) }

// lines lists the properties of a polymer in the order in which they are shown.
func lines(p *materials.Polymer) []line {
	degree := scale{1, -zeroCelsius, "°C", "K"}
	share := scale{100, 0, "%", "kg/kg"}
	molar := scale{1e-3, 0, "kJ/mol", "J/mol"}
	plain := scale{1, 0, "", "1"}
	var out []line
	add := func(name string, v materials.Value, s scale, used bool) {
		l := line{name: name, value: v, si: s.si, used: used, text: s.of(v.Value)}
		if s.unit != "" {
			l.text += " " + s.unit
		}
		if v.Low != v.High {
			l.reach = s.of(v.Low) + " to " + s.of(v.High)
		}
		out = append(out, l)
	}
	d := &p.Diffusivity
	add(fmt.Sprintf("diffusivity of the dry polymer at %s", Celsius(d.Reference)), d.ReferenceValue, scale{1, 0, "m²/s", "m²/s"}, true)
	for i, piece := range d.Pieces {
		name := "activation energy"
		if i > 0 {
			name += " from " + Celsius(piece.From)
		}
		add(name, piece.Activation, molar, true)
	}
	add("beta, growth of diffusivity with content", d.Beta, scale{1, 0, "per kg/kg", "per kg/kg"}, true)
	add("scatter of the diffusivity, a factor", d.Scatter, plain, true)
	if d.Lean != 0 {
		out[len(out)-1].reach = sides(d)
	}
	switch s := &p.Sorption; s.Form {
	case materials.GAB:
		add("isotherm (GAB), monolayer", s.Monolayer, share, true)
		add("isotherm (GAB), c", s.C, plain, true)
		add("isotherm (GAB), k", s.K, plain, true)
	case materials.TwoTerm:
		add("isotherm (a + aⁿ), linear term", s.Linear, share, true)
		add("isotherm (a + aⁿ), power term", s.Power, share, true)
		add("isotherm (a + aⁿ), exponent", s.Exponent, plain, true)
	default:
		add("isotherm (Henry), content at saturation", s.Saturation, share, true)
	}
	add("enthalpy of mixing", p.Sorption.MixingEnthalpy, molar, true)
	add("density", p.Density, scale{1, 0, "kg/m³", "kg/m³"}, true)
	add("heat capacity", p.HeatCapacity, scale{1, 0, "J/(kg K)", "J/(kg K)"}, true)
	add("thermal conductivity", p.Conductivity, scale{1, 0, "W/(m K)", "W/(m K)"}, true)
	add("moisture limit for printing", p.PrintingLimit, share, true)
	add("moisture limit for moulding", p.MouldingLimit, share, true)
	add("usual highest drying temperature", p.DryingTemperature, degree, true)
	add("nozzle temperature", p.NozzleTemperature, degree, true)
	add("glass transition", p.GlassTransition, degree, false)
	add("softening: stretches or sticks", p.Softening, degree, true)
	if p.Melting != nil {
		add("melting", *p.Melting, degree, p.Structure == materials.Semicrystalline)
	}
	if cold, known := p.Modulus(roomTemperature); known {
		add("Young's modulus, dry, at 23 °C", cold, stiffness(cold), false)
	}
	if n := len(p.Moduli); n > 0 && p.Moduli[n-1].Temperature != roomTemperature {
		end := p.Moduli[n-1]
		add("Young's modulus at "+Celsius(end.Temperature)+", the last known", end.Modulus, stiffness(end.Modulus), false)
	}
	return out
}

// stiffness is the unit of a modulus: GPa for a glass, MPa for what is soft.
func stiffness(v materials.Value) scale {
	const soft = 1e8 // [Pa]
	if v.Low < soft {
		return scale{1e-6, 0, "MPa", "Pa"}
	}
	return scale{1e-9, 0, "GPa", "Pa"}
}

// sides are how many times the diffusivity may be smaller and larger, where these differ.
func sides(d *materials.Diffusivity) string {
	const digits = 3
	return Significant(1/d.Factor(-materials.EndDeviate), digits) + " down, " + Significant(d.Factor(materials.EndDeviate), digits) + " up"
}

// Scatter says how far the diffusivity may be off, nine times in ten.
func Scatter(d *materials.Diffusivity) string {
	if d.Lean != 0 {
		return "a factor of " + sides(d)
	}
	return "a factor of " + Given(d.Scatter.Value) + " either way"
}

// together says which doubts go together, and how; "" where none do.
func together(d *materials.Diffusivity) string {
	if !d.Correlated() {
		return ""
	}
	c := d.Correlation
	return fmt.Sprintf("These doubts go together, as they were fitted. Correlation of the deviates: diffusivity with activation energy %s, diffusivity with beta %s, activation energy with beta %s.",
		trim(c.Activation, 3), trim(c.Beta, 3), trim(c.ActivationBeta, 3))
}
