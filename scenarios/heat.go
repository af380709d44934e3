package scenarios

import (
	"strings"

	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// warmed is a temperature of air that is stated somewhere [K].
type warmed struct {
	at          section
	temperature float64
}

// warms keeps the temperature of the air of a table for [reading.melts], if the table states it.
func (s section) warms(temperature float64) {
	if s.has("temperature") {
		s.r.warmed = append(s.r.warmed, warmed{s, temperature})
	}
}

// airTemperature reads the temperature of the air of a table [K].
func (s section) airTemperature(otherwise float64) float64 {
	temperature := s.quantityOr("temperature", quantity.Temperature(), AirTemperatures(), otherwise)
	s.warms(temperature)
	return temperature
}

// melted is the problem of air in which nothing of a strand would be left, and meltedAtRest that of one that goes nowhere.
const (
	melted       = "the strand would melt before it reaches the nozzle"
	meltedAtRest = "the strand would melt"
)

// melts reports every stated temperature of air in which the strand would melt: above its melting, or above the
// temperature of the nozzle [K].
func (r *reading) melts(p *materials.Polymer, nozzle float64, problem string) {
	most := p.HottestAir(nozzle)
	allowed := "up to " + quantity.Temperature().Format(most, "°C", 5)
	if most < nozzle {
		allowed += ", where " + p.Name + " melts"
	} else {
		allowed += ", the temperature of the nozzle"
	}
	for _, w := range r.warmed {
		if most > 0 && w.temperature > most {
			w.at.fault("temperature", problem, allowed)
		}
	}
}

// withoutMelting leaves out the faults of air in which the strand would melt.
func withoutMelting(all strict.Faults) strict.Faults {
	var others strict.Faults
	for _, f := range all {
		if f.Problem != melted {
			others = append(others, f)
		}
	}
	return others
}

// Heats tells that a key is the temperature of air that the strand meets.
func Heats(k Key) bool {
	last := k.Name[strings.LastIndexByte(k.Name, '.')+1:]
	return k.Dimension.Name() == quantity.Temperature().Name() && last == "temperature" && k.Name != "nozzle.temperature" &&
		!strings.HasPrefix(k.Name, propertyPath+".") && !strings.HasPrefix(k.Name, "store.")
}
