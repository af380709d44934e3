package materials

import (
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// measure is how a number is written and which values are not absurd.
type measure struct {
	dim    quantity.Dimension
	plain  bool // a plain number without unit
	limits strict.Limits
}

func (m measure) read(t *strict.Table, key string) (float64, bool) {
	if m.plain {
		return t.Number(key, m.limits)
	}
	return t.Quantity(key, m.dim, m.limits)
}

func number(min, max float64) measure {
	return measure{plain: true, limits: strict.Limits{Min: min, Max: max}}
}

func within(dim quantity.Dimension, min, max float64, unit string) measure {
	return measure{dim: dim, limits: strict.Limits{Min: min, Max: max, Unit: unit}}
}

// temperature is -100 to 500 °C.
func temperature() measure { return within(quantity.Temperature(), 173.15, 773.15, "°C") }

// content is a mass of water per mass of dry polymer, above 0 to 100 %.
func content() measure {
	m := within(quantity.Fraction(), 0, 1, "%")
	m.limits.ExclusiveMin = true
	return m
}

// property is one value of a polymer and where it goes.
type property struct {
	key      string
	measure  measure
	into     *Value
	optional **Value // instead of into
}

func (p *Polymer) properties() []property {
	return []property{
		{key: "density", measure: within(quantity.Density(), 100, 5000, ""), into: &p.Density},
		{key: "heat_capacity", measure: within(quantity.SpecificHeat(), 100, 1e4, ""), into: &p.HeatCapacity},
		{key: "conductivity", measure: within(quantity.Conductivity(), 0.01, 10, ""), into: &p.Conductivity},
		{key: "glass_transition", measure: temperature(), into: &p.GlassTransition},
		{key: "melting", measure: temperature(), optional: &p.Melting},
		{key: "softening", measure: temperature(), into: &p.Softening},
		{key: "drying_temperature", measure: temperature(), into: &p.DryingTemperature},
		{key: "nozzle_temperature", measure: temperature(), into: &p.NozzleTemperature},
		{key: "printing_limit", measure: content(), into: &p.PrintingLimit},
		{key: "moulding_limit", measure: content(), into: &p.MouldingLimit},
	}
}

func (d *Diffusivity) properties() []property {
	return []property{
		{key: "value", measure: within(quantity.Diffusivity(), 1e-18, 1e-7, ""), into: &d.ReferenceValue},
		{key: "beta", measure: number(-200, 500), into: &d.Beta},
		{key: "scatter", measure: number(1, 1000), into: &d.Scatter},
	}
}

// parameters of the form that is set.
func (s *Sorption) parameters() []property {
	switch s.Form {
	case GAB:
		k := number(0, 1)
		k.limits.ExclusiveMin, k.limits.ExclusiveMax = true, true
		return []property{
			{key: "monolayer", measure: content(), into: &s.Monolayer},
			{key: "c", measure: number(0.01, 1e5), into: &s.C},
			{key: "k", measure: k, into: &s.K},
		}
	case TwoTerm:
		return []property{
			{key: "linear", measure: content(), into: &s.Linear},
			{key: "power", measure: within(quantity.Fraction(), 0, 1, "%"), into: &s.Power},
			{key: "exponent", measure: number(1, 50), into: &s.Exponent},
		}
	}
	return []property{{key: "saturation", measure: content(), into: &s.Saturation}}
}

func activation() measure { return within(quantity.MolarEnergy(), 0, 3e5, "") }

func mixing() measure { return within(quantity.MolarEnergy(), -1e5, 1e5, "") }
