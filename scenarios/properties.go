package scenarios

import (
	"fmt"
	"strings"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// propertyPath leads the names of inline material properties.
const propertyPath = "strand.properties"

// properties lays [strand.properties], and the settings below that name, over the polymer.
func (r *reading) properties(t section, p *materials.Polymer) {
	if t.table != nil {
		if inline := t.table.Table("properties"); inline != nil {
			*p = materials.ReadTable(inline, *p)
		}
	}
	var lines strings.Builder
	var laid []*overlay
	for _, o := range r.overlays {
		if inner, ok := strings.CutPrefix(o.Key, propertyPath+"."); ok {
			parts := strings.Split(inner, ".")
			for i := range parts {
				parts[i] = strict.Quoted(parts[i])
			}
			fmt.Fprintf(&lines, "%s = %s\n", strings.Join(parts, "."), o.written(bare))
			o.used = true
			laid = append(laid, o)
		}
	}
	if len(laid) == 0 {
		return
	}
	table, reader, err := strict.Parse(settingFile, []byte(lines.String()))
	if err == nil {
		*p = materials.ReadTable(table, *p)
		err = reader.Finish()
	}
	found, _ := err.(strict.Faults)
	for _, f := range found {
		f.Key, f.Line = propertyPath+"."+f.Key, 0
		r.faults = append(r.faults, f)
	}
}

// registerProperties lists the polymer's numbers as keys. Their limits are those of package
// materials, which meets every value that is laid over them.
func (r *reading) registerProperties(p *materials.Polymer) {
	list := func(name string, dim quantity.Dimension, value materials.Value) {
		r.register(Key{Name: propertyPath + "." + name, Dimension: dim, Value: value.Value, Known: true})
	}
	plain := quantity.Dimension{}
	list("density", quantity.Density(), p.Density)
	list("heat_capacity", quantity.SpecificHeat(), p.HeatCapacity)
	list("conductivity", quantity.Conductivity(), p.Conductivity)
	list("glass_transition", quantity.Temperature(), p.GlassTransition)
	list("softening", quantity.Temperature(), p.Softening)
	list("drying_temperature", quantity.Temperature(), p.DryingTemperature)
	list("nozzle_temperature", quantity.Temperature(), p.NozzleTemperature)
	list("printing_limit", quantity.Fraction(), p.PrintingLimit)
	list("moulding_limit", quantity.Fraction(), p.MouldingLimit)
	list("diffusivity.value", quantity.Diffusivity(), p.Diffusivity.ReferenceValue)
	list("diffusivity.beta", plain, p.Diffusivity.Beta)
	list("diffusivity.scatter", plain, p.Diffusivity.Scatter)
	list("sorption.mixing_enthalpy", quantity.MolarEnergy(), p.Sorption.MixingEnthalpy)
	switch p.Sorption.Form {
	case materials.Henry:
		list("sorption.saturation", quantity.Fraction(), p.Sorption.Saturation)
	case materials.GAB:
		list("sorption.monolayer", quantity.Fraction(), p.Sorption.Monolayer)
		list("sorption.c", plain, p.Sorption.C)
		list("sorption.k", plain, p.Sorption.K)
	case materials.TwoTerm:
		list("sorption.linear", quantity.Fraction(), p.Sorption.Linear)
		list("sorption.power", quantity.Fraction(), p.Sorption.Power)
		list("sorption.exponent", plain, p.Sorption.Exponent)
	}
}
