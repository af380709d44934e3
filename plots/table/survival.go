package table

import (
	"fmt"

	"strandry/diffusion"
	"strandry/materials"
)

// Meaning says what a verdict means of a strand that bears its heat, may bear it, or does not.
func Meaning(m *diffusion.Design, r *diffusion.Assessment) string {
	s, odds := r.Endurance.Survival, "within the limit "+Chance(r.Probability)
	doubtful := s == diffusion.Doubtful
	switch r.Verdict {
	case diffusion.TooHot:
		return "SOFTENS: the strand gives way before the nozzle, dry or not; " + odds
	case diffusion.Dry:
		switch {
		case doubtful && r.Condenses(&m.Model):
			return "DRY, IF IT BEARS THE HEAT AND NO WATER CONDENSES: " + odds
		case doubtful:
			return "DRY, IF IT BEARS THE HEAT: " + odds
		case r.Condenses(&m.Model):
			return "DRY, IF NO WATER CONDENSES: " + odds
		}
		return "DRY: " + odds
	case diffusion.Wet:
		switch s {
		case diffusion.Softens:
			return "WET: " + odds + ", and it softens"
		case diffusion.Doubtful:
			return "WET: " + odds + ", and the heat is doubtful too"
		}
		return "WET: " + odds
	}
	unsure := "UNSURE: " + odds
	if r.NumericallyUnsure {
		unsure += ", but for the numerical error"
	}
	if doubtful {
		unsure += ", and the heat is doubtful too"
	}
	return unsure
}

// Survives says whether a strand of a material keeps its shape, where it is hottest and what it bears.
func Survives(name string, e diffusion.Endurance) string {
	word := e.Survival.String()
	if e.Running() {
		word += ", holds only while it runs"
	}
	return word + ": " + heat(name, e)
}

// heat is the reason for a survival.
func heat(name string, e diffusion.Endurance) string {
	at := Celsius(e.Strand) + " in " + e.Zone
	if e.Zone == "" {
		at = Celsius(e.Strand) + " as it sets off"
	}
	between := fmt.Sprintf("%s gives way at %s to %s", name, trim(e.Bears-zeroCelsius, 1), Celsius(e.Yields))
	if e.Bears == e.Yields {
		between = fmt.Sprintf("%s gives way at %s", name, Celsius(e.Yields))
	}
	switch {
	case e.Survival == diffusion.Softens:
		return fmt.Sprintf("%s, above %s, where %s is all but sure to give way", at, Celsius(e.Yields), name)
	case e.Running() && e.Air > e.Yields:
		return fmt.Sprintf("%s, but the air is at %s: it would soften if the feed stops; %s", at, Celsius(e.Air), between)
	case e.Running():
		return fmt.Sprintf("%s, but the air is at %s: it may soften if the feed stops; %s", at, Celsius(e.Air), between)
	case e.Survival == diffusion.Doubtful:
		return at + "; " + between
	}
	const spare = 5 // kelvin, by which a thermostat may swing (common practice, no source)
	if e.Bears-max(e.Strand, e.Air) < spare {
		return "with little to spare: hottest " + at + "; " + between
	}
	return "hottest " + at + "; " + between
}

// heats tells, after an answer, what the heat does to it; "" where the strand holds.
func heats(name string, e diffusion.Endurance) string {
	switch {
	case e.Survival == diffusion.Softens:
		return " The strand softens: " + heat(name, e) + "."
	case e.Running():
		return " Whether it survives is doubtful, it does so only while it runs: " + heat(name, e) + "."
	case e.Survival == diffusion.Doubtful:
		return " Whether it survives is doubtful: " + heat(name, e) + "."
	}
	return ""
}

// structure says what holds a warm strand of a material together.
func structure(p *materials.Polymer) string {
	if p.Structure == materials.Semicrystalline {
		return "Semicrystalline: a pulled strand holds until its crystals, or hard segments, soften or melt."
	}
	return "Amorphous: a pulled strand holds up to about its glass transition."
}

// enduranceOf is the heat of a path: temperatures in K.
func enduranceOf(e diffusion.Endurance) object {
	return object{
		{"zone", e.Zone}, // where it is decided; "" as the strand sets off
		{"strand_temperature", e.Strand},
		{"air_temperature", e.Air},
		{"holds_up_to", e.Bears},
		{"gives_way_above", e.Yields},
		{"only_while_it_runs", e.Running()},
	}
}
